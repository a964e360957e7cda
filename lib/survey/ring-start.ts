import type { Point } from "@/lib/plane";
import type { SurveyTolerances } from "./tolerances";
import { note, refused, type Surveyed, type SurveyNote } from "./types";

/** A side or diagonal between two corners, mm, with its standard error. */
export interface RingDistance {
  readonly name: string;
  readonly from: number;
  readonly to: number;
  readonly length: number;
  readonly error: number;
}

/** The corners placed one after the other, each by the two distances to placed ones that cross best; or why they cannot be. */
export function startingRing(count: number, distances: readonly RingDistance[], inward: readonly number[], tolerances: SurveyTolerances): Surveyed<readonly Point[]> {
  const stray = distances.filter(({ from, to }) => from === to || Math.min(from, to) < 0 || Math.max(from, to) >= count);
  if (stray.length > 0) return refused(note("ring:no-corner", stray.map(({ name }) => name)));
  const known = tableOf(distances);
  const missing = sidesMissing(count, known);
  if (count < 3 || missing.length > 0) return refused(note("ring:too-few", missing));
  const open = openSide(count, known);
  if (open) return refused(open);
  const triangle = badTriangle(count, known, distances, tolerances);
  if (triangle) return refused(triangle);
  return placeAll(count, known, new Set(inward), tolerances);
}

/** Distances by corner and corner; a repeated one counts as first read, which is near enough to begin with. */
type Table = ReadonlyMap<string, number>;

function tableOf(distances: readonly RingDistance[]): Table {
  const table = new Map<string, number>();
  for (const { from, to, length } of distances) {
    if (!table.has(nameOf(from, to))) table.set(nameOf(from, to), length);
  }
  return table;
}

/** Corners by their numbers, the lesser first. */
export function nameOf(from: number, to: number): string {
  return `${Math.min(from, to)}-${Math.max(from, to)}`;
}

function sidesMissing(count: number, known: Table): string[] {
  return Array.from({ length: count }, (_, k) => nameOf(k, (k + 1) % count)).filter((name) => !known.has(name));
}

/** A side that is longer than all the others together. */
function openSide(count: number, known: Table): SurveyNote | null {
  const sides = Array.from({ length: count }, (_, k) => ({ name: nameOf(k, (k + 1) % count), length: known.get(nameOf(k, (k + 1) % count))! }));
  const all = sides.reduce((sum, { length }) => sum + length, 0);
  const long = sides.find(({ length }) => 2 * length >= all);
  return long ? note("ring:open", [long.name], 2 * long.length - all) : null;
}

/** Three corners with all their distances, one of which is longer than the other two by more than their errors explain. */
function badTriangle(count: number, known: Table, distances: readonly RingDistance[], { side }: SurveyTolerances): SurveyNote | null {
  const errorOf = new Map(distances.map(({ from, to, error }) => [nameOf(from, to), error]));
  for (const { from: a, to: b } of distances) {
    for (let c = 0; c < count; c++) {
      if (c === a || c === b) continue;
      const names = [nameOf(a, b), nameOf(b, c), nameOf(c, a)], [long = 0, ...others] = names.map((name) => known.get(name) ?? Infinity);
      const short = long - others.reduce((sum, length) => sum + length, 0);
      if (short > side * Math.hypot(...names.map((name) => errorOf.get(name) ?? 0))) return note("ring:triangle", names, short);
    }
  }
  return null;
}

interface Hold {
  readonly a: number;
  readonly b: number;
  /** The sine of the angle at which the two distances cross. */
  readonly sine: number;
}

function placeAll(count: number, known: Table, inward: ReadonlySet<number>, { flat }: SurveyTolerances): Surveyed<readonly Point[]> {
  const placed = new Map<number, Point>([[0, [0, 0]], [1, [known.get(nameOf(0, 1))!, 0]]]);
  while (placed.size < count) {
    const next = bestHeld(count, known, placed);
    if (!next) return refused(note("ring:loose", looseDiagonal(count, placed)));
    if (next.hold.sine < flat) return refused(note("ring:flat", [nameOf(next.corner, next.hold.a), nameOf(next.corner, next.hold.b)]));
    placed.set(next.corner, placeCorner(count, next.corner, next.hold, known, placed, inward));
  }
  return { ok: true, value: Array.from({ length: count }, (_, k) => placed.get(k)!), warnings: [] };
}

function bestHeld(count: number, known: Table, placed: ReadonlyMap<number, Point>): { corner: number; hold: Hold } | null {
  let best: { corner: number; hold: Hold } | null = null;
  for (let corner = 0; corner < count; corner++) {
    if (placed.has(corner)) continue;
    const held = [...placed.keys()].filter((other) => known.has(nameOf(corner, other)));
    for (const a of held) {
      for (const b of held) {
        if (b <= a) continue;
        const sine = sineAt(known.get(nameOf(corner, a))!, known.get(nameOf(corner, b))!, between(placed.get(a)!, placed.get(b)!));
        if (!best || sine > best.hold.sine) best = { corner, hold: { a, b, sine } };
      }
    }
  }
  return best;
}

/** The sine of the angle between two sides of a triangle of which the third is known; 0 where there is no such triangle. */
function sineAt(p: number, q: number, opposite: number): number {
  const cosine = (p * p + q * q - opposite * opposite) / (2 * p * q);
  return Math.sqrt(Math.max(0, 1 - cosine * cosine));
}

/**
 * On which side of the line of the two corners it hangs from, by further distances where there are any. Else: of an outline that points outward
 * everywhere, walked counterclockwise, the corners between a and b lie right of the line from a to b and all others left.
 */
function placeCorner(count: number, corner: number, { a, b }: Hold, known: Table, placed: ReadonlyMap<number, Point>, inward: ReadonlySet<number>): Point {
  const pa = placed.get(a)!, pb = placed.get(b)!, base = between(pa, pb);
  const da = known.get(nameOf(corner, a))!, db = known.get(nameOf(corner, b))!;
  const along = (base * base + da * da - db * db) / (2 * base), off = Math.sqrt(Math.max(0, da * da - along * along));
  const ux = (pb[0] - pa[0]) / base, uy = (pb[1] - pa[1]) / base;
  const on = (side: number): Point => [pa[0] + along * ux - side * off * uy, pa[1] + along * uy + side * off * ux];
  const costOf = (p: Point) => [...placed].reduce((sum, [other, at]) => {
    const length = known.get(nameOf(corner, other));
    return length === undefined ? sum : sum + (between(p, at) - length) ** 2;
  }, 0);
  const left = on(1), right = on(-1), gain = costOf(right) - costOf(left);
  if (Math.abs(gain) > (off / count) ** 2) return gain > 0 ? left : right;
  const outside = a < corner && corner < b ? -1 : 1;
  return on(inward.has(corner) ? -outside : outside);
}

/** A diagonal that would hold the first corner that nothing holds. */
function looseDiagonal(count: number, placed: ReadonlyMap<number, Point>): string[] {
  const loose = Array.from({ length: count }, (_, k) => k).find((k) => !placed.has(k))!;
  const from = [...placed.keys()].find((k) => k !== loose - 1 && k !== (loose + 1) % count) ?? 0;
  return [nameOf(loose, from)];
}

function between(p: Point, q: Point): number {
  return Math.hypot(p[0] - q[0], p[1] - q[1]);
}
