import { orient2d } from "robust-predicates";
import type { Point } from "./points";

export interface Bounds {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

export function boundsOf(points: readonly Point[]): Bounds {
  let minX = Infinity, minY = Infinity, maxX = -Infinity, maxY = -Infinity;
  for (const [x, y] of points) {
    if (x < minX) minX = x;
    if (x > maxX) maxX = x;
    if (y < minY) minY = y;
    if (y > maxY) maxY = y;
  }
  return { minX, minY, maxX, maxY };
}

/** Signed area, positive for a counter-clockwise outline. */
export function signedArea(outline: readonly Point[]): number {
  let twice = 0;
  for (let i = 0; i < outline.length; i++) {
    const [ax, ay] = outline[i]!;
    const [bx, by] = outline[(i + 1) % outline.length]!;
    twice += ax * by - bx * ay;
  }
  return twice / 2;
}

/** Centre of area of a simple outline. */
export function centroid(outline: readonly Point[]): Point {
  const [ox, oy] = outline[0]!; // sums taken from a corner keep their digits when the outline lies far from the origin
  let twice = 0, cx = 0, cy = 0;
  for (let i = 0; i < outline.length; i++) {
    const ax = outline[i]![0] - ox, ay = outline[i]![1] - oy;
    const next = outline[(i + 1) % outline.length]!;
    const bx = next[0] - ox, by = next[1] - oy;
    const cross = ax * by - bx * ay;
    twice += cross;
    cx += (ax + bx) * cross;
    cy += (ay + by) * cross;
  }
  return [ox + cx / (3 * twice), oy + cy / (3 * twice)];
}

/** Why an outline cannot be used, or null when it can. Touching counts as crossing. */
export function outlineFault(outline: readonly Point[]): string | null {
  if (outline.length < 3) return "needs at least three corners";
  const n = outline.length;
  for (let i = 0; i < n; i++) {
    const a = outline[i]!, b = outline[(i + 1) % n]!;
    if (a[0] === b[0] && a[1] === b[1]) return `corners ${i} and ${(i + 1) % n} are the same point`;
  }
  for (let i = 0; i < n; i++) {
    for (let j = i + 1; j < n; j++) {
      if (!apart(outline, i, j) && edgesCross(outline, i, j)) return `edges ${i} and ${j} cross or touch`;
    }
  }
  return Math.abs(signedArea(outline)) > 0 ? null : "has no area";
}

/** The outline counter-clockwise, without corners that lie on a straight edge. */
export function normalise(outline: readonly Point[]): Point[] {
  const ring = signedArea(outline) < 0 ? [...outline].reverse() : [...outline];
  const kept = ring.filter((p, i) => turn(ring[(i + ring.length - 1) % ring.length]!, p, ring[(i + 1) % ring.length]!) !== 0);
  return kept.length >= 3 ? kept : ring;
}

/** Positive where a, b, c turn left. Exact in sign (Shewchuk 1997, adaptive predicates). */
export function turn(a: Point, b: Point, c: Point): number {
  return -orient2d(a[0], a[1], b[0], b[1], c[0], c[1]);
}

/** The convex hull, counter-clockwise, without points on its edges (Andrew 1979, monotone chain). */
export function convexHull(points: readonly Point[]): Point[] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const chain = (list: readonly Point[]) => {
    const out: Point[] = [];
    for (const p of list) {
      while (out.length >= 2 && turn(out[out.length - 2]!, out[out.length - 1]!, p) <= 0) out.pop();
      out.push(p);
    }
    out.pop();
    return out;
  };
  return [...chain(sorted), ...chain(sorted.reverse())];
}

/** Inside or on the outline. A single point or a line contains nothing. */
export function contains(outline: readonly Point[], [x, y]: Point): boolean {
  let inside = false;
  for (let i = 0, j = outline.length - 1; i < outline.length; j = i++) {
    const a = outline[j]!, b = outline[i]!;
    const side = turn(a, b, [x, y]);
    if (side === 0 && Math.min(a[0], b[0]) <= x && x <= Math.max(a[0], b[0]) && Math.min(a[1], b[1]) <= y && y <= Math.max(a[1], b[1])) return true;
    if (a[1] > y !== b[1] > y && side > 0 === b[1] > a[1]) inside = !inside;
  }
  return inside;
}

/** Whether two edges lie clear of each other already by the boxes around them, as most do: spares the exact look. */
function apart(outline: readonly Point[], i: number, j: number): boolean {
  const n = outline.length;
  const a = outline[i]!, b = outline[(i + 1) % n]!, c = outline[j]!, d = outline[(j + 1) % n]!;
  for (const k of [0, 1] as const) {
    if (Math.max(a[k], b[k]) < Math.min(c[k], d[k]) || Math.max(c[k], d[k]) < Math.min(a[k], b[k])) return true;
  }
  return false;
}

function edgesCross(outline: readonly Point[], i: number, j: number): boolean {
  const n = outline.length;
  const a = outline[i]!, b = outline[(i + 1) % n]!;
  const c = outline[j]!, d = outline[(j + 1) % n]!;
  if ((i + 1) % n === j) return folds(a, b, d);
  if ((j + 1) % n === i) return folds(c, d, b);
  const s1 = turn(a, b, c), s2 = turn(a, b, d), s3 = turn(c, d, a), s4 = turn(c, d, b);
  if (s1 * s2 < 0 && s3 * s4 < 0) return true;
  return (s1 === 0 && between(a, b, c)) || (s2 === 0 && between(a, b, d)) || (s3 === 0 && between(c, d, a)) || (s4 === 0 && between(c, d, b));
}

/** Neighbouring edges a-b and b-d that lie on each other. */
function folds(a: Point, b: Point, d: Point): boolean {
  return turn(a, b, d) === 0 && (a[0] - b[0]) * (d[0] - b[0]) + (a[1] - b[1]) * (d[1] - b[1]) > 0;
}

function between(a: Point, b: Point, p: Point): boolean {
  return Math.min(a[0], b[0]) <= p[0] && p[0] <= Math.max(a[0], b[0]) && Math.min(a[1], b[1]) <= p[1] && p[1] <= Math.max(a[1], b[1]);
}
