import type { Point } from "@/lib/plane";
import type { Json } from "./cells";
import type { Draft, Drafts } from "./draft";
import { shorten, type FaultCode, type Faults } from "./faults";
import { geoFrame, siteFrame, type ParkOrigin, type Position } from "./geo-frame";
import { grounds, isSingle, listed, shapesOf, single, things, type Listed, type Thing } from "./geo-things";
import { placeOf, trueBearing, turnedTo } from "./geo-write";
import { dropAt, putAt, sameJson, valueAt } from "./paths";
import type { Path } from "./tables";

/** A feature of one of a park's sites, as the file has it. */
interface Feature {
  readonly row: number;
  readonly site: string;
  readonly thing: Thing;
  readonly geometry: Json;
  readonly properties: Json;
}

interface Reading {
  readonly file: string;
  readonly origin: ParkOrigin;
  readonly faults: Faults;
  /** How many grounds of each site the file has had so far. */
  readonly grounded: Map<Draft, number>;
}

/**
 * Puts outlines, lines and points of a map into the drafts of their sites. A site has to be in the park already, or in another file of
 * the upload; its outlines move, and obstacles, hookups and stalls may be new. Any winding and heights (a third coordinate) are
 * read; what lies within half a millimetre of where the record has it stays as it is. Answered: features of no site, which are passed over.
 */
export function readGeoJson(file: string, collection: Json, origin: ParkOrigin | null, drafts: Drafts, faults: Faults): number {
  const features = valueAt(collection, ["features"]), crs = valueAt(collection, ["crs", "properties", "name"]);
  const refuse = (code: FaultCode, given?: string) => {
    faults.add({ file, code, ...(given === undefined ? {} : { given: shorten(given) }) });
    return 0;
  };
  if (!Array.isArray(features)) return refuse("not-geojson");
  if (typeof crs === "string" && !/(CRS84|EPSG:+4326)$/i.test(crs)) return refuse("foreign-crs", crs);
  if (!origin) return refuse("no-origin");
  const reading: Reading = { file, origin, faults, grounded: new Map() }, own = features.flatMap((one: Json, i) => featureOf(reading, one, i + 1));
  // A site's own point first: everything else of it is placed by that.
  for (const feature of [...own].sort((a, b) => Number(b.thing === "site") - Number(a.thing === "site"))) place(reading, feature, drafts);
  for (const [{ after }, count] of reading.grounded) (valueAt(after!, grounds) as Json[]).length = count;
  return features.length - own.length;
}

function featureOf({ file, faults }: Reading, one: Json, row: number): Feature[] {
  const site = valueAt(one, ["properties", "site"]), thing = things.find((name) => name === valueAt(one, ["properties", "thing"]));
  if (site === undefined || site === null) return [];
  if (!thing) {
    faults.add({ file, row, code: "no-thing", need: things.join(", ") });
    return [];
  }
  return [{ row, site: String(site), thing, geometry: valueAt(one, ["geometry"]) ?? null, properties: valueAt(one, ["properties"]) ?? null }];
}

function place(reading: Reading, feature: Feature, drafts: Drafts): void {
  const { file, faults, origin } = reading, { row, thing } = feature;
  const tell = (code: FaultCode, more: { given?: string; need?: string } = {}) => faults.add({ file, row, code, ...more });
  const draft = drafts.open(feature.site, null);
  if (!draft) return tell("no-such-owner", { given: shorten(feature.site) });
  const read = readGeometry(feature.geometry, shapesOf(thing), origin);
  if (typeof read === "string") return tell(read, { need: shapesOf(thing).join(", ") });
  if (thing === "site") return moveSite(draft, feature, read.points[0]!, origin, file);
  const at = placeOf(draft.after!);
  if (!at) return tell("no-place", { given: shorten(feature.site) });
  const { toSite } = siteFrame(at), points = read.points.map(toSite);
  if (thing === "driveable") return putGround(reading, draft, feature, points);
  if (!isSingle(thing)) return putThing(reading, draft, feature, thing, read.type, points);
  const { path, fields } = single[thing], around = path.slice(0, -1);
  draft.marks.push({ path: fields.length > 0 ? around : path, file, row });
  putShape(draft.after!, path, points, read.type);
  putFields(draft.after!, around, fields, feature.properties);
}

/** The first ground of a site that the file has takes the place of the first that is there, and so on. */
function putGround({ file, grounded }: Reading, draft: Draft, { row }: Feature, points: readonly Point[]): void {
  const index = grounded.get(draft) ?? 0, path: Path = [...grounds, index];
  grounded.set(draft, index + 1);
  if (!Array.isArray(valueAt(draft.after!, grounds))) putAt(draft.after!, grounds, []);
  draft.marks.push({ path, file, row });
  putShape(draft.after!, path, points, "Polygon");
}

function moveSite(draft: Draft, { row, properties }: Feature, [east, north]: Point, origin: ParkOrigin, file: string): void {
  const now = placeOf(draft.after!), bearing = valueAt(properties, ["bearing"]);
  draft.marks.push({ path: ["place"], file, row });
  if (!now || !near([east, north], [now.east, now.north])) {
    putAt(draft.after!, ["place", "east"], Math.round(east));
    putAt(draft.after!, ["place", "north"], Math.round(north));
  }
  if (typeof bearing !== "number" || (now && trueBearing(now.bearing, origin) === bearing)) return;
  putAt(draft.after!, ["place", "bearing"], turnedTo(bearing - origin.bearing));
}

function putThing({ file, faults }: Reading, draft: Draft, { row, properties }: Feature, thing: Listed, type: string, points: readonly Point[]): void {
  const { list, fields, shapes } = listed[thing], id = valueAt(properties, ["id"]);
  if (typeof id !== "string" && typeof id !== "number") return faults.add({ file, row, code: "no-id", column: "id" });
  if (!Array.isArray(valueAt(draft.after!, list))) putAt(draft.after!, list, []);
  const held = valueAt(draft.after!, list) as Json[], found = held.findIndex((one) => String(valueAt(one, ["id"])).trim() === String(id).trim());
  const index = found >= 0 ? found : held.push({ id: String(id) }) - 1, path: Path = [...list, index];
  draft.marks.push({ path, file, row });
  for (const [shape, field] of Object.entries(shapes)) {
    const own = [...path, field as string];
    if (shape === type) putShape(draft.after!, own, points, type);
    else if (valueAt(draft.after!, own) !== undefined) dropAt(draft.after!, own);
  }
  putFields(draft.after!, path, fields, properties);
}

function putFields(record: Json, path: Path, fields: readonly string[], properties: Json): void {
  for (const field of fields) {
    const value = valueAt(properties, [field]);
    if (value !== undefined && value !== null && !sameJson(value, valueAt(record, [...path, field]))) putAt(record, [...path, field], value);
  }
}

/** Puts a shape in millimetres where none is, or one that differs from it by more than half of one. */
function putShape(record: Json, path: Path, points: readonly Point[], type: string): void {
  const now = valueAt(record, path), single = type === "Point", ring = type === "Polygon", held = single ? [now] : now;
  const known = Array.isArray(held) && held.every((one: unknown) => Array.isArray(one) && typeof one[0] === "number" && typeof one[1] === "number") ? (held as unknown as Point[]) : null;
  if (known && (ring ? sameRing(known, points) : known.length === points.length && known.every((p, i) => near(p, points[i]!)))) return;
  const rounded = points.map(([x, y]): Json => [whole(x), whole(y)]);
  putAt(record, path, single ? rounded[0]! : rounded);
}

/** Whether two rings are the same, wherever each begins and whichever way round it runs. */
function sameRing(a: readonly Point[], b: readonly Point[]): boolean {
  if (a.length !== b.length) return false;
  return [1, -1].some((step) => a.some((_, start) => b.every((p, i) => near(p, a[(start + step * i + a.length * 2) % a.length]!))));
}

function readGeometry(geometry: Json, allowed: readonly string[], origin: ParkOrigin): { type: string; points: Point[] } | FaultCode {
  const told = valueAt(geometry, ["type"]), coordinates = valueAt(geometry, ["coordinates"]);
  if (typeof told !== "string" || !Array.isArray(coordinates)) return "geometry";
  // Programs that know only many-part shapes write one with a single part.
  const many = told.startsWith("Multi"), type = many ? told.slice(5) : told, part = (many ? coordinates[0] : coordinates) as Json;
  if (!allowed.includes(type)) return "geometry";
  if (many && coordinates.length !== 1) return "many-parts";
  if (type === "Polygon" && Array.isArray(part) && part.length > 1) return "holes";
  const flat: Json = type === "Point" ? [part] : type === "Polygon" ? ((part as readonly Json[])[0] ?? null) : part;
  if (!Array.isArray(flat) || flat.length > MOST_POSITIONS || !flat.every(isPosition)) return "coordinates";
  const { toMap } = geoFrame(origin), points = flat.map((position: Json) => toMap(position as unknown as Position));
  if (points.some(([east, north]) => Math.hypot(east, north) > FARTHEST)) return "far-away";
  if (type === "Polygon" && points.length > 1 && near(points[0]!, points.at(-1)!)) points.pop();
  return { type, points };
}

function isPosition(position: Json): boolean {
  if (!Array.isArray(position) || position.length < 2) return false;
  const [lon, lat] = position as readonly Json[];
  return typeof lon === "number" && typeof lat === "number" && Math.abs(lon) <= 180 && Math.abs(lat) <= 90;
}

/** Half of what records are written in: what comes from rounding degrees is a sixth of it. */
function near([x, y]: Point, [u, v]: Point): boolean {
  return Math.abs(x - u) <= 0.5 && Math.abs(y - v) <= 0.5;
}

function whole(mm: number): number {
  return Math.round(mm) + 0;
}

/** No park's site lies further from its map's corner, mm: 20 km. Further is another place, or coordinates of another kind. */
const FARTHEST = 20_000_000;
/** As many corners as an outline may have, and one to close it. */
const MOST_POSITIONS = 501;
