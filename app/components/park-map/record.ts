import { z } from "zod";

const point = z.tuple([z.number(), z.number()]);
const outline = z.array(point).min(3);
const line = z.array(point).min(2);
const named = { id: z.string().optional(), name: z.string().optional() };

/** One bad entry does not cost the others: a map with a hole in it is more use than none. */
function each<T>(entry: z.ZodType<T>) {
  return z.array(z.unknown()).catch([]).transform((entries) => entries.flatMap((e): T[] => {
    const read = entry.safeParse(e);
    return read.success ? [read.data] : [];
  }));
}

const mapSchema = z.object({
  roads: each(z.object({ ...named, width: z.number().positive().catch(5000), surface: z.string().optional(), way: z.string().optional(), points: line })),
  paths: each(z.object({ ...named, width: z.number().positive().catch(1200), points: line })),
  creek: each(z.object({ ...named, width: z.number().positive().catch(2000), points: line })),
  buildings: each(z.object({ ...named, kind: z.string().optional(), outline })),
  areas: each(z.object({ ...named, kind: z.string().catch("area"), outline })),
  loops: each(z.object({ id: z.string(), label: z.string().optional(), at: point })),
});

const recordSchema = z.object({
  /** Which way on the map true north lies, degrees clockwise from the top. */
  north: z.number().catch(0),
  loops: each(z.object({ id: z.string(), name: z.string().optional(), character: z.string().optional() })),
  map: mapSchema,
});

/** What a park's file says of its ground beside the sites. Millimetres east and north of the file's own corner. */
export type ParkRecord = z.infer<typeof recordSchema>;

const NOTHING = { roads: [], paths: [], creek: [], buildings: [], areas: [], loops: [] };

/** Reads what a park's file holds for a map; whatever is missing or cannot be read is left out, never an error. */
export function readParkRecord(record: unknown): ParkRecord {
  const whole = typeof record === "object" && record !== null ? record : {};
  const read = recordSchema.safeParse({ north: 0, loops: [], ...whole, map: (whole as { map?: unknown }).map ?? NOTHING });
  return read.success ? read.data : { north: 0, loops: [], map: NOTHING };
}
