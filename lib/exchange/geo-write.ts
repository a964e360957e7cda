import { signedArea, type Point } from "@/lib/plane";
import type { Json } from "./cells";
import { geoFrame, siteFrame, type ParkOrigin, type Position } from "./geo-frame";
import { valueAt } from "./paths";

/** What a feature is of its site; its property `thing`. */
export const things = ["site", "pad", "lot", "road-edge", "exit-edge", "stall", "obstacle", "hookup"] as const;
export type Thing = (typeof things)[number];

/** Of each thing: where it stands in the record of its site, and which of its fields go along as properties, as the record has them. */
export const carried: Readonly<Record<Exclude<Thing, "site" | "pad" | "lot" | "road-edge" | "exit-edge">, { readonly list: string; readonly fields: readonly string[] }>> = {
  stall: { list: "parking", fields: [] },
  obstacle: { list: "obstacles", fields: ["kind", "radius", "from", "to", "trunkRadius", "crownRadius", "crownFrom", "crownTo", "removable"] },
  hookup: { list: "hookups", fields: ["kind", "height", "receptacles", "volts", "pressure", "groundZ", "postRadius", "postHeight"] },
};

/**
 * The sites as RFC 7946 has it: one feature for each outline, line and point, with the site it is of and what it is. Outer rings run
 * counter-clockwise and are closed. A site that has no place on the park's map is not in it; answered are the ids of those.
 */
export function writeGeoJson(records: readonly Json[], origin: ParkOrigin): { readonly collection: Json; readonly without: readonly string[] } {
  const without: string[] = [], features: Json[] = [], { toPosition } = geoFrame(origin);
  for (const record of records) {
    const id = String(valueAt(record, ["id"])), place = placeOf(record);
    if (!place) {
      without.push(id);
      continue;
    }
    const { toMap } = siteFrame(place);
    features.push(...featuresOf(record, id, (p) => toPosition(toMap(p)), trueBearing(place.bearing, origin)));
  }
  return { collection: { type: "FeatureCollection", features }, without };
}

/** Where a site's origin lies on the park's map; null where the record does not say. */
export function placeOf(record: Json): { east: number; north: number; bearing: number } | null {
  const [east, north, bearing] = (["east", "north", "bearing"] as const).map((key) => valueAt(record, ["place", key]));
  return typeof east === "number" && typeof north === "number" && typeof bearing === "number" ? { east, north, bearing } : null;
}

/** Which way +x points from true north. */
export function trueBearing(onMap: number, { bearing }: ParkOrigin): number {
  return turnedTo(onMap + bearing);
}

/** An angle from 0 to 360 degrees, to a millionth of one. */
export function turnedTo(degrees: number): number {
  return Math.round((((degrees % 360) + 360) % 360) * 1e6) / 1e6;
}

function featuresOf(record: Json, site: string, at: (p: Point) => Position, bearing: number): Json[] {
  const label = valueAt(record, ["label"]), loop = valueAt(record, ["loop"]), entry = valueAt(record, ["entry"]);
  const feature = (thing: Thing, geometry: Json | null, properties: Readonly<Record<string, Json>> = {}): Json[] => (geometry === null ? [] : [{ type: "Feature", geometry, properties: { site, thing, ...properties } }]);
  return [
    ...feature("site", { type: "Point", coordinates: at([0, 0]) }, { bearing, ...(label === undefined ? {} : { label }), ...(loop === undefined ? {} : { loop }), ...(entry === undefined ? {} : { entry }) }),
    ...feature("pad", polygon(valueAt(record, ["pad", "outline"]), at)),
    ...feature("lot", polygon(valueAt(record, ["lot", "outline"]), at)),
    ...feature("road-edge", lineString(valueAt(record, ["roadEdge"]), at)),
    ...feature("exit-edge", lineString(valueAt(record, ["exitEdge"]), at)),
    ...(["stall", "obstacle", "hookup"] as const).flatMap((thing) => {
      const { list, fields } = carried[thing], held = valueAt(record, [list]);
      return (Array.isArray(held) ? held : []).flatMap((one: Json) => {
        const properties = Object.fromEntries(["id", ...fields].flatMap((field) => { const value = valueAt(one, [field]); return value === undefined || value === null ? [] : [[field, value]]; }));
        return feature(thing, polygon(valueAt(one, ["outline"]), at) ?? pointOf(valueAt(one, ["at"]), at), properties);
      });
    }),
  ];
}

function polygon(held: Json | undefined, at: (p: Point) => Position): Json | null {
  if (!isPoints(held) || held.length < 3) return null;
  const ring = held.map(at), turned = signedArea(held) < 0 ? ring.reverse() : ring;
  return { type: "Polygon", coordinates: [[...turned, turned[0]!]] };
}

function lineString(held: Json | undefined, at: (p: Point) => Position): Json | null {
  return isPoints(held) && held.length >= 2 ? { type: "LineString", coordinates: held.map(at) } : null;
}

function pointOf(held: Json | undefined, at: (p: Point) => Position): Json | null {
  return isPoints([held ?? null]) ? { type: "Point", coordinates: at(held as unknown as Point) } : null;
}

function isPoints(held: Json | undefined): held is readonly Point[] & readonly Json[] {
  return Array.isArray(held) && held.every((point: Json) => Array.isArray(point) && point.length === 2 && point.every((n: Json) => typeof n === "number"));
}
