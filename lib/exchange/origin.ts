import { z } from "zod";
import type { ParkOrigin } from "./geo-frame";

/** The `origin` of a park's record. Beyond 80° the meridians run together too fast for a plane. */
export const originSchema = z.object({
  latitude: z.number("must be a latitude in degrees").min(-80, "must be between -80 and 80 degrees").max(80, "must be between -80 and 80 degrees"),
  longitude: z.number("must be a longitude in degrees").min(-180, "must be between -180 and 180 degrees").max(180, "must be between -180 and 180 degrees"),
  bearing: z.number("must be an angle in degrees").min(-360).max(360).optional(),
});

/**
 * Where a park's map lies on the earth, by its record; null where that does not say. Which way the map's north points is told by
 * the origin's own `bearing`, else by the map's `north`, which says the same the other way round: where true north lies on it.
 */
export function readOrigin(record: unknown): ParkOrigin | null {
  const read = z.object({ origin: originSchema, north: z.number().catch(0) }).safeParse(record);
  if (!read.success) return null;
  const { origin: { latitude, longitude, bearing }, north } = read.data;
  return { latitude, longitude, bearing: bearing ?? (north === 0 ? 0 : -north) };
}
