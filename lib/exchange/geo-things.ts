import type { Path } from "./tables";

export type Shape = "Point" | "LineString" | "Polygon";

/** What there is one of in a site: its shape, where that stands in the record, and the fields beside it that go along as properties. */
export const single = {
  pad: { shape: "Polygon", path: ["pad", "outline"], fields: [] },
  lot: { shape: "Polygon", path: ["lot", "outline"], fields: [] },
  "road-edge": { shape: "LineString", path: ["roadEdge"], fields: [] },
  "exit-edge": { shape: "LineString", path: ["exitEdge"], fields: [] },
  road: { shape: "LineString", path: ["approach", "road", "centreline"], fields: ["width", "traffic"] },
  "exit-road": { shape: "LineString", path: ["approach", "exitRoad", "centreline"], fields: ["width", "traffic"] },
} as const satisfies Record<string, { readonly shape: Shape; readonly path: Path; readonly fields: readonly string[] }>;

/** What has an id of its own: its list in the record, the field that each shape is kept in, and the fields that go along. */
export const listed = {
  stall: { list: ["parking"], shapes: { Polygon: "outline" }, fields: [] },
  obstacle: { list: ["obstacles"], shapes: { Polygon: "outline", Point: "at" }, fields: ["kind", "radius", "from", "to", "trunkRadius", "crownRadius", "crownFrom", "crownTo", "removable"] },
  hookup: { list: ["hookups"], shapes: { Point: "at" }, fields: ["kind", "height", "receptacles", "volts", "pressure", "groundZ", "postRadius", "postHeight"] },
  "height-limit": { list: ["approach", "heightLimits"], shapes: { LineString: "across" }, fields: ["kind", "height"] },
} as const satisfies Record<string, { readonly list: Path; readonly shapes: Partial<Record<Shape, string>>; readonly fields: readonly string[] }>;

/** Grounds have no ids: those of a site that a file has are all that it has. */
export const grounds: Path = ["approach", "driveable"];

export type Single = keyof typeof single;
export type Listed = keyof typeof listed;
export const singles = Object.keys(single) as Single[];
export const listeds = Object.keys(listed) as Listed[];

/** What a feature is of its site; its property `thing`. */
export const things = ["site", ...singles, "driveable", ...listeds] as const;
export type Thing = (typeof things)[number];

/** The shapes that a thing may be drawn in. */
export function shapesOf(thing: Thing): readonly Shape[] {
  if (thing === "site") return ["Point"];
  if (thing === "driveable") return ["Polygon"];
  return isSingle(thing) ? [single[thing].shape] : (Object.keys(listed[thing].shapes) as Shape[]);
}

export function isSingle(thing: Thing): thing is Single {
  return Object.hasOwn(single, thing);
}
