import { boxDistance } from "./envelope";
import type { Point } from "./points";

/** An upright box from (x0, y0) to (x1, y1). */
export interface Box {
  readonly x0: number;
  readonly x1: number;
  readonly y0: number;
  readonly y1: number;
}

export interface TautPath {
  readonly length: number;
  /** From start to end, with the corners it bends around. */
  readonly points: readonly Point[];
}

/** Whether the straight line from a to b passes through the inside of the box; running along a side is not passing. */
export function passesThrough({ x0, x1, y0, y1 }: Box, [ax, ay]: Point, [bx, by]: Point): boolean {
  const dx = bx - ax, dy = by - ay;
  let enter = 0, leave = 1;
  for (const [p, d, low, high] of [[ax, dx, x0, x1], [ay, dy, y0, y1]] as const) {
    if (d === 0) {
      if (p <= low || p >= high) return false;
      continue;
    }
    const t0 = (low - p) / d, t1 = (high - p) / d;
    enter = Math.max(enter, Math.min(t0, t1));
    leave = Math.min(leave, Math.max(t0, t1));
  }
  return leave > enter;
}

/**
 * The shortest path from a point on the box's edge to a point outside that does not pass through the box: a taut
 * string. An end up to `within` inside the box counts as on its edge; one that lies deeper has no way around, and the
 * straight line is given.
 */
export function tautPath(box: Box, from: Point, to: Point, within: number): TautPath {
  const end = ontoEdge(box, to, within);
  if (!passesThrough(box, from, end)) return { length: distance(from, end), points: [from, end] };
  const depth = boxDistance(Math.max(box.x0 - end[0], end[0] - box.x1), Math.max(box.y0 - end[1], end[1] - box.y1));
  if (depth < 0) return { length: distance(from, to), points: [from, to] };
  const left = oneWay(box, from, end, 1), right = oneWay(box, from, end, -1);
  return left.length <= right.length ? left : right;
}

/** A box seen from a point on one of its sides: s runs along that side, t out from it. */
export interface SideView {
  /** The side's two ends and the point on it, along s. */
  readonly s0: number;
  readonly s1: number;
  readonly at: number;
  /** How deep the box reaches behind the side. */
  readonly deep: number;
  /** Whether the side runs along y, which way of the other axis is out, and where on it the side lies. */
  readonly upright: boolean;
  readonly outward: 1 | -1;
  readonly line: number;
}

/** The side that a point lies on, or null where it lies on none. */
export function sideOf({ x0, x1, y0, y1 }: Box, [x, y]: Point): SideView | null {
  if (y >= y0 && y <= y1 && (x === x0 || x === x1)) return { s0: y0, s1: y1, at: y, deep: x1 - x0, upright: true, outward: x === x1 ? 1 : -1, line: x };
  if (x >= x0 && x <= x1 && (y === y0 || y === y1)) return { s0: x0, s1: x1, at: x, deep: y1 - y0, upright: false, outward: y === y1 ? 1 : -1, line: y };
  return null;
}

/**
 * The length of `tautPath` from the point on the side to one outside the box or on its edge; for one inside it, the
 * straight line. Without the points, and for all points by the same few cases: in front of the side straight, at
 * either end around that corner or the long way, behind it around either end.
 */
export function tautLength({ s0, s1, at, deep, upright, outward, line }: SideView, x: number, y: number): number {
  const s = upright ? y : x, t = outward * ((upright ? x : y) - line);
  if (t >= 0 || (s > s0 && s < s1 && t > -deep)) return hypot(s - at, t);
  const low = at - s0, high = s1 - at, t2 = t + deep;
  if (s > s0 && s < s1) return deep + Math.min(low + hypot(s - s0, t2), high + hypot(s1 - s, t2));
  const near = s <= s0 ? low : high, far = s <= s0 ? high : low, off = s <= s0 ? s0 - s : s - s1;
  const across = t2 <= 0 ? hypot(off + s1 - s0, t2) : s1 - s0 + hypot(off, t2);
  return Math.min(near + hypot(off, t), far + deep + across);
}

/** No point of `seen` that lies outside the box or on its edge has a shorter `tautLength`; Infinity where there is none. */
export function leastTautLength({ s0, s1, at, deep, upright, outward, line }: SideView, seen: Box): number {
  const a0 = upright ? seen.y0 : seen.x0, a1 = upright ? seen.y1 : seen.x1;
  const p = outward * ((upright ? seen.x0 : seen.y0) - line), q = outward * ((upright ? seen.x1 : seen.y1) - line);
  const b0 = Math.min(p, q), b1 = Math.max(p, q);
  const low = at - s0, high = s1 - at;
  let least = b1 >= 0 ? hypot(outside(at, a0, a1), Math.max(0, b0)) : Infinity;
  if (b0 > 0) return least;
  const under = Math.min(b1, 0);
  if (a0 <= s0) {
    const off = Math.max(0, s0 - a1), far = outside(s1, a0, Math.min(a1, s0));
    least = Math.min(least, low + hypot(off, -under), high + deep + hypot(far, outside(-deep, b0, under)));
  }
  if (a1 >= s1) {
    const off = Math.max(0, a0 - s1), far = outside(s0, Math.max(a0, s1), a1);
    least = Math.min(least, high + hypot(off, -under), low + deep + hypot(far, outside(-deep, b0, under)));
  }
  if (b0 <= -deep && a1 > s0 && a0 < s1) {
    const behind = Math.max(0, -deep - b1);
    least = Math.min(least, deep + low + hypot(Math.max(0, a0 - s0), behind), deep + high + hypot(Math.max(0, s1 - a1), behind));
  }
  return least;
}

/**
 * For a box of points at all of which the way bends last at the same place: that place, and the length up to it. From
 * there the way is straight, so that its length is a convex function over the box. Null where there is no such place.
 */
export function lastBend({ s0, s1, at, deep, upright, outward, line }: SideView, seen: Box): { readonly x: number; readonly y: number; readonly length: number } | null {
  const a0 = upright ? seen.y0 : seen.x0, a1 = upright ? seen.y1 : seen.x1;
  const p = outward * ((upright ? seen.x0 : seen.y0) - line), q = outward * ((upright ? seen.x1 : seen.y1) - line);
  const b0 = Math.min(p, q), b1 = Math.max(p, q);
  const bend = (s: number, t: number, length: number) => (upright ? { x: line + outward * t, y: s, length } : { x: s, y: line + outward * t, length });
  if (b0 >= 0) return bend(at, 0, 0);
  const low = at - s0, high = s1 - at;
  const behind = b1 <= -deep && a0 >= s0 && a1 <= s1;
  if (b1 > 0 || (!behind && a1 > s0 && a0 < s1)) return null;
  // Round one end for certain: its way is shorter even to the point of the box that is worst for it.
  const depth = behind ? -deep : 0;
  const most = (s: number, t: number) => hypot(Math.max(Math.abs(a0 - s), Math.abs(a1 - s)), Math.max(Math.abs(b0 - t), Math.abs(b1 - t)));
  const least = (s: number) => hypot(outside(s, a0, a1), outside(-deep, b0, b1));
  if ((behind || a1 <= s0) && low - depth + most(s0, depth) <= high + deep + least(s1)) return bend(s0, depth, low - depth);
  if ((behind || a0 >= s1) && high - depth + most(s1, depth) <= low + deep + least(s0)) return bend(s1, depth, high - depth);
  return null;
}

/** How far a value lies outside an interval; 0 inside. */
function outside(value: number, low: number, high: number): number {
  return value < low ? low - value : value > high ? value - high : 0;
}

/** Lengths on a site are far from what would overflow when squared. */
function hypot(dx: number, dy: number): number {
  return Math.sqrt(dx * dx + dy * dy);
}

/** Along the corners one way round until the end comes into view. */
function oneWay(box: Box, from: Point, to: Point, direction: 1 | -1): TautPath {
  const corners: readonly Point[] = [[box.x0, box.y0], [box.x1, box.y0], [box.x1, box.y1], [box.x0, box.y1]];
  const points: Point[] = [from];
  let length = 0;
  let at = from;
  let k = firstCorner(box, from, direction);
  for (let bends = 0; bends < 4; bends++) {
    const corner = corners[(k + 4) % 4]!;
    length += distance(at, corner);
    points.push(corner);
    at = corner;
    if (!passesThrough(box, at, to)) break;
    k += direction;
  }
  return { length: length + distance(at, to), points: [...points, to] };
}

/** The first corner met when walking the edge from a point on it (corners 0 to 3 counter-clockwise from the low one). */
function firstCorner({ x0, x1, y0, y1 }: Box, [x, y]: Point, direction: 1 | -1): number {
  const off = [Math.abs(y - y0), Math.abs(x - x1), Math.abs(y - y1), Math.abs(x - x0)]; // edge i runs from corner i to i + 1
  const edge = off.indexOf(Math.min(...off));
  return direction === 1 ? edge + 1 : edge;
}

function ontoEdge(box: Box, [x, y]: Point, within: number): Point {
  const gaps = [x - box.x0, box.x1 - x, y - box.y0, box.y1 - y] as const;
  const least = Math.min(...gaps);
  if (least <= 0 || least > within) return [x, y];
  if (least === gaps[0]) return [box.x0, y];
  if (least === gaps[1]) return [box.x1, y];
  return least === gaps[2] ? [x, box.y0] : [x, box.y1];
}

function distance([ax, ay]: Point, [bx, by]: Point): number {
  return Math.hypot(bx - ax, by - ay);
}
