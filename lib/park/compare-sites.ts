import { boundsOf, type Point } from "@/lib/plane";
import { groundPlane } from "./ground";
import { siteSchema, type SiteInput } from "./schema";
import { isNothing, saysSame, siteParts, thingsIn, type SitePart, type SiteThing } from "./site-things";

/** An outline in numbers a person can picture. Lengths in mm, area in mm². */
export interface RingSize {
  readonly corners: number;
  readonly along: number;
  readonly across: number;
  readonly area: number;
}

/** One field of a thing that differs. Null: not there on that side. */
export type FieldChange =
  /** mm. */
  | { readonly kind: "length"; readonly field: string; readonly before: number | null; readonly after: number | null }
  /** How far it was moved into the site and to the left, mm; null where it had no place, or has none. */
  | { readonly kind: "place"; readonly field: string; readonly before: Point | null; readonly after: Point | null; readonly moved: { readonly into: number; readonly left: number } | null }
  /** `moved`: the farthest that a corner was moved, mm; null where their number is another. */
  | { readonly kind: "ring"; readonly field: string; readonly before: RingSize | null; readonly after: RingSize | null; readonly moved: number | null }
  /** Per cent. */
  | { readonly kind: "slope"; readonly field: "along" | "across"; readonly before: number | null; readonly after: number | null }
  /** Words, switches, counts, lists, and what has no shape of its own. */
  | { readonly kind: "value"; readonly field: string; readonly before: unknown; readonly after: unknown };

/** One thing that two records have differently. */
export interface SiteDifference {
  readonly key: string;
  readonly part: SitePart;
  readonly id: string | null;
  readonly how: "added" | "removed" | "changed";
  /** As each record has it; undefined where it has none. */
  readonly before: unknown;
  readonly after: unknown;
  /** Of what was changed: its fields that differ. */
  readonly fields: readonly FieldChange[];
}

/** What differs between two records of one site, in the order of {@link siteParts}. Nothing where they say the same, whichever way they are written. */
export function compareSites(before: SiteInput, after: SiteInput): SiteDifference[] {
  const [was, is] = [thingsIn(before), thingsIn(after)];
  const found = [...new Set([...was.keys(), ...is.keys()])].flatMap((key) => differenceOf(was.get(key), is.get(key)));
  const place = new Map(siteParts.map((part, i) => [part, i]));
  return found.map((difference, i) => ({ difference, i })).sort((a, b) => place.get(a.difference.part)! - place.get(b.difference.part)! || a.i - b.i).map(({ difference }) => difference);
}

/** Fields that hold a length in mm. */
const LENGTHS = new Set(["radius", "from", "to", "trunkRadius", "crownRadius", "crownFrom", "crownTo", "height", "groundZ", "postRadius", "postHeight", "maxLength"]);
/** Parts that are one value, told as a field of the site itself. */
const SINGLE: ReadonlySet<SitePart> = new Set(["label", "loop", "entry", "enterFrom", "roadEdge", "exitEdge", "rules", "other"]);

function differenceOf(was: SiteThing | undefined, is: SiteThing | undefined): SiteDifference[] {
  if (saysSame(was?.value, is?.value)) return [];
  const { key, part, id } = (is ?? was)!;
  const how = !was ? "added" : !is ? "removed" : "changed";
  const common = { key, part, id, before: was?.value, after: is?.value };
  if (SINGLE.has(part)) return [{ ...common, how, fields: [fieldChange(part === "rules" || part === "other" ? id! : part, was?.value, is?.value)] }];
  if (how !== "changed") return [{ ...common, how, fields: [] }];
  return [{ ...common, how, fields: part === "ground" ? groundChanges(was!.value, is!.value) : fieldChanges(was!.value, is!.value) }];
}

function fieldChanges(was: unknown, is: unknown): FieldChange[] {
  const [a, b] = [was as Record<string, unknown>, is as Record<string, unknown>];
  return [...new Set([...Object.keys(a), ...Object.keys(b)])].flatMap((field) => (saysSame(a[field], b[field]) ? [] : [fieldChange(field, a[field], b[field])]));
}

function fieldChange(field: string, was: unknown, is: unknown): FieldChange {
  if (LENGTHS.has(field) && [was, is].every((value) => isNothing(value) || typeof value === "number")) return { kind: "length", field, before: numberOr(was), after: numberOr(is) };
  if (field === "at" && [was, is].every((value) => isNothing(value) || isPoint(value))) return placeChange(field, pointOr(was), pointOr(is));
  if (field === "outline" && [was, is].every((value) => isNothing(value) || isRing(value))) return ringChange(field, was as Point[] | null | undefined, is as Point[] | null | undefined);
  return { kind: "value", field, before: was ?? null, after: is ?? null };
}

/** The slopes whichever way they were given, and whether they come from spot heights. */
function groundChanges(was: unknown, is: unknown): FieldChange[] {
  const [a, b] = [slopesOf(was), slopesOf(is)];
  const heights = (ground: unknown) => (ground as { heights?: unknown }).heights ?? null;
  return [
    ...(["along", "across"] as const).flatMap((field): FieldChange[] => (a?.[field] === b?.[field] ? [] : [{ kind: "slope", field, before: a?.[field] ?? null, after: b?.[field] ?? null }])),
    ...(saysSame(heights(was), heights(is)) ? [] : [{ kind: "value" as const, field: "heights", before: heights(was), after: heights(is) }]),
  ];
}

function slopesOf(ground: unknown): { along: number; across: number } | null {
  const read = siteSchema.shape.ground.safeParse(ground);
  if (!read.success) return null;
  const { alongGradient, acrossGradient } = groundPlane(read.data);
  return { along: 100 * alongGradient, across: 100 * acrossGradient };
}

function placeChange(field: string, before: Point | null, after: Point | null): FieldChange {
  return { kind: "place", field, before, after, moved: before && after ? { into: after[0] - before[0], left: after[1] - before[1] } : null };
}

function ringChange(field: string, was: readonly Point[] | null | undefined, is: readonly Point[] | null | undefined): FieldChange {
  const moved = was && is && was.length === is.length ? Math.max(...was.map(([x, y], i) => Math.hypot(is[i]![0] - x, is[i]![1] - y))) : null;
  return { kind: "ring", field, before: was ? sizeOf(was) : null, after: is ? sizeOf(is) : null, moved };
}

function sizeOf(ring: readonly Point[]): RingSize {
  const { minX, maxX, minY, maxY } = boundsOf(ring);
  return { corners: ring.length, along: maxX - minX, across: maxY - minY, area: areaOf(ring) };
}

/** By the shoelace formula. */
function areaOf(ring: readonly Point[]): number {
  return Math.abs(ring.reduce((sum, [x, y], i) => { const [u, v] = ring[(i + 1) % ring.length]!; return sum + x * v - u * y; }, 0)) / 2;
}

function numberOr(value: unknown): number | null {
  return typeof value === "number" ? value : null;
}

function isPoint(value: unknown): value is Point {
  return Array.isArray(value) && value.length === 2 && value.every((n) => typeof n === "number" && Number.isFinite(n));
}

function pointOr(value: unknown): Point | null {
  return isPoint(value) ? value : null;
}

function isRing(value: unknown): value is Point[] {
  return Array.isArray(value) && value.length > 0 && value.every(isPoint);
}
