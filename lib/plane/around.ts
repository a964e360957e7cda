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
