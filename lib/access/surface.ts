import { boundsOf, nearestOnSegment, type Bounds, type Point } from "@/lib/plane";

/** Ground put together from outlines that overlap or meet. */
export interface Surface {
  /** How deep inside the ground a point lies, mm; below zero outside. Changes by no more than the point moves. */
  readonly depth: (x: number, y: number) => number;
  readonly bounds: Bounds;
  /** The edges of all of it together, for drawing and for naming the nearest point. */
  readonly rim: readonly Segment[];
  readonly nearestOnRim: (p: Point) => Point;
}

export type Segment = readonly [Point, Point];

/**
 * The union of outlines, by its rim: of every edge the stretches that have ground on one side only. Gaps narrower than
 * `bridge` (mm) between two outlines count as ground, since outlines are measured one at a time and never meet exactly.
 */
export function surfaceOf(outlines: readonly (readonly Point[])[], bridge: number): Surface {
  const boxes = outlines.map(boundsOf), corners = outlines.map((outline) => Float64Array.from(outline.flat()));
  const holds = (x: number, y: number) => corners.some((ring, i) => within(boxes[i]!, x, y) && isWithin(ring, x, y));
  const rim = rimOf(outlines, bridge, corners), all = boundsOf(outlines.flat());
  const cells = new Map<number, RimCell>(), edges = flat(rim);
  // Where no rim is near, ground on both sides is enough. Near one, as outside of a corner that turns in, it has to be reached past no rim.
  const farBridged = (x: number, y: number) => ACROSS.some(([dx, dy]) => holds(x + dx * bridge, y + dy * bridge) && holds(x - dx * bridge, y - dy * bridge));
  const nearBridged = (x: number, y: number) => ACROSS.some(([dx, dy]) => {
    const there = entryOf(corners, x, y, dx * bridge, dy * bridge), back = entryOf(corners, x, y, -dx * bridge, -dy * bridge);
    return there + back <= 1 && [there, -back].every((t) => toSegments(edges, x + t * dx * bridge, y + t * dy * bridge) > SHORTEST);
  });
  const inside = (x: number, y: number, toRim = Infinity) => holds(x, y) || (toRim > bridge ? farBridged(x, y) : nearBridged(x, y));
  const depth = (x: number, y: number) => {
    const ix = Math.floor(x / CELL), iy = Math.floor(y / CELL), key = ix * 1_000_003 + iy;
    let cell = cells.get(key);
    if (!cell) cells.set(key, (cell = rimCell(edges, (ix + 0.5) * CELL, (iy + 0.5) * CELL, inside)));
    const distance = toSegments(cell.near, x, y);
    return (cell.side === 0 ? inside(x, y, distance) : cell.side > 0) ? distance : -distance;
  };
  return { depth, bounds: all, rim, nearestOnRim: (p) => nearestOn(rim, p) };
}

/** Side of the squares in which the nearest edges are remembered, mm. */
const CELL = 1000;
/** Directions in which a gap may be bridged. */
const ACROSS: readonly Point[] = [[1, 0], [0, 1], [Math.SQRT1_2, Math.SQRT1_2], [Math.SQRT1_2, -Math.SQRT1_2]];

interface RimCell {
  /** x0, y0, x1, y1 of every edge that may be nearest to some point of the square. */
  readonly near: Float64Array;
  /** 1 where all of it is ground, -1 where none is, 0 where the rim may pass. */
  readonly side: -1 | 0 | 1;
}

function rimCell(edges: Float64Array, x: number, y: number, inside: (x: number, y: number) => boolean): RimCell {
  const half = CELL * Math.SQRT1_2, distances = new Float64Array(edges.length / 4), near: number[] = [];
  let least = Infinity;
  for (let k = 0; k < distances.length; k++) least = Math.min(least, (distances[k] = toSegments(edges, x, y, 4 * k, 4 * k + 4)));
  distances.forEach((d, k) => { if (d <= least + 2 * half) near.push(edges[4 * k]!, edges[4 * k + 1]!, edges[4 * k + 2]!, edges[4 * k + 3]!); });
  return { near: Float64Array.from(near), side: least > half ? (inside(x, y) ? 1 : -1) : 0 };
}

function flat(segments: readonly Segment[]): Float64Array {
  return Float64Array.from(segments.flatMap(([a, b]) => [a[0], a[1], b[0], b[1]]));
}

function toSegments(data: Float64Array, x: number, y: number, from = 0, to = data.length): number {
  let least = Infinity;
  for (let i = from; i < to; i += 4) {
    const ax = data[i]!, ay = data[i + 1]!, ex = data[i + 2]! - ax, ey = data[i + 3]! - ay, wx = x - ax, wy = y - ay;
    const t = Math.min(1, Math.max(0, (wx * ex + wy * ey) / (ex * ex + ey * ey))), dx = wx - t * ex, dy = wy - t * ey, d2 = dx * dx + dy * dy;
    if (d2 < least) least = d2;
  }
  return Math.sqrt(least);
}

function nearestOn(rim: readonly Segment[], p: Point): Point {
  let best: Point = p, least = Infinity;
  for (const [a, b] of rim) {
    const q = nearestOnSegment(p, a, b), d = Math.hypot(p[0] - q[0], p[1] - q[1]);
    if (d < least) [best, least] = [q, d];
  }
  return best;
}

/** Edges cut wherever an outline comes or goes within `bridge` beside them, and of the pieces those with no ground so near on one side. */
function rimOf(outlines: readonly (readonly Point[])[], bridge: number, corners: readonly Float64Array[]): Segment[] {
  const rim: Segment[] = [];
  for (const outline of outlines) outline.forEach((a, k) => {
    const b = outline[(k + 1) % outline.length]!, long = Math.hypot(b[0] - a[0], b[1] - a[1]), ex = (b[0] - a[0]) / long, ey = (b[1] - a[1]) / long, cuts = [0, 1];
    for (const off of [-bridge, 0, bridge]) {
      const from: Point = [a[0] - ey * off, a[1] + ex * off], to: Point = [b[0] - ey * off, b[1] + ex * off];
      for (const other of outlines) other.forEach((p, m) => cuts.push(...crossing(from, to, p, other[(m + 1) % other.length]!)));
    }
    for (const p of outlines.flat()) if (Math.abs((p[1] - a[1]) * ex - (p[0] - a[0]) * ey) <= bridge) cuts.push(((p[0] - a[0]) * ex + (p[1] - a[1]) * ey) / long);
    const within = cuts.filter((t) => t >= 0 && t <= 1).sort((p, q) => p - q);
    for (let m = 1; m < within.length; m++) {
      const from = within[m - 1]!, to = within[m]!, middle = mixed(a, b, (from + to) / 2);
      if ((to - from) * long >= SHORTEST && [-1, 1].some((side) => isBare(corners, middle, -ey * side * bridge, ex * side * bridge))) rim.push([mixed(a, b, from), mixed(a, b, to)]);
    }
  });
  return rim;
}

/** Whether there is no ground beside a point of an edge, so far. */
function isBare(corners: readonly Float64Array[], [px, py]: Point, dx: number, dy: number): boolean {
  const off = SHORTEST / Math.hypot(dx, dy), x = px + dx * off, y = py + dy * off;
  return !corners.some((ring) => isWithin(ring, x, y)) && entryOf(corners, x, y, dx * (1 - off), dy * (1 - off)) === Infinity;
}

/** How far along a stretch an outline is met first, as a share of it; Infinity where none is. */
function entryOf(corners: readonly Float64Array[], x: number, y: number, dx: number, dy: number): number {
  let least = Infinity;
  for (const ring of corners) {
    let px = ring[ring.length - 2]!, py = ring[ring.length - 1]!;
    for (let i = 0; i < ring.length; i += 2) {
      const qx = ring[i]!, qy = ring[i + 1]!, fx = qx - px, fy = qy - py, det = dx * fy - dy * fx;
      const t = ((px - x) * fy - (py - y) * fx) / det, s = ((px - x) * dy - (py - y) * dx) / det;
      if (det !== 0 && t >= 0 && t <= 1 && s >= 0 && s <= 1 && t < least) least = t;
      px = qx;
      py = qy;
    }
  }
  return least;
}

/** Pieces of edges shorter than this decide nothing, mm. */
const SHORTEST = 1e-3;

function mixed(a: Point, b: Point, t: number): Point {
  return [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
}

/** Where along a-b the segment c-d crosses it, as a share; none or one. */
function crossing(a: Point, b: Point, c: Point, d: Point): number[] {
  const ex = b[0] - a[0], ey = b[1] - a[1], fx = d[0] - c[0], fy = d[1] - c[1], det = ex * fy - ey * fx;
  if (det === 0) return [];
  const t = ((c[0] - a[0]) * fy - (c[1] - a[1]) * fx) / det, s = ((c[0] - a[0]) * ey - (c[1] - a[1]) * ex) / det;
  return t > 0 && t < 1 && s >= 0 && s <= 1 ? [t] : [];
}

/** By crossings of a ray. On an edge it may say either: the depth is 0 there, whatever its sign. */
function isWithin(ring: Float64Array, x: number, y: number): boolean {
  let inside = false, px = ring[ring.length - 2]!, py = ring[ring.length - 1]!;
  for (let i = 0; i < ring.length; i += 2) {
    const qx = ring[i]!, qy = ring[i + 1]!;
    if (py > y !== qy > y && x < px + ((qx - px) * (y - py)) / (qy - py)) inside = !inside;
    px = qx;
    py = qy;
  }
  return inside;
}

function within({ minX, maxX, minY, maxY }: Bounds, x: number, y: number): boolean {
  return x >= minX && x <= maxX && y >= minY && y <= maxY;
}
