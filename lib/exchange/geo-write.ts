import { signedArea, type Point } from "@/lib/plane";
import type { Json } from "./cells";
import { geoFrame, siteFrame, type ParkOrigin, type Position } from "./geo-frame";
import { grounds, listed, listeds, single, singles, type Shape, type Thing } from "./geo-things";
import { valueAt } from "./paths";

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
    ...singles.flatMap((thing) => {
      const { shape, path, fields } = single[thing];
      return feature(thing, drawn(shape, valueAt(record, path), at), propertiesOf(valueAt(record, path.slice(0, -1)) ?? null, fields));
    }),
    ...listAt(record, grounds).flatMap((outline) => feature("driveable", polygon(outline, at))),
    ...listeds.flatMap((thing) => {
      const { list, shapes, fields } = listed[thing];
      return listAt(record, list).flatMap((one) => {
        const geometry = Object.entries(shapes).map(([shape, field]) => drawn(shape as Shape, valueAt(one, [field as string]), at)).find((made) => made !== null);
        return feature(thing, geometry ?? null, propertiesOf(one, ["id", ...fields]));
      });
    }),
  ];
}

function listAt(record: Json, path: readonly (string | number)[]): readonly Json[] {
  const held = valueAt(record, path);
  return Array.isArray(held) ? held : [];
}

function propertiesOf(record: Json, fields: readonly string[]): Record<string, Json> {
  return Object.fromEntries(fields.flatMap((field) => {
    const value = valueAt(record, [field]);
    return value === undefined || value === null ? [] : [[field, value]];
  }));
}

function drawn(shape: Shape, held: Json | undefined, at: (p: Point) => Position): Json | null {
  return shape === "Polygon" ? polygon(held, at) : shape === "LineString" ? lineString(held, at) : pointOf(held, at);
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
