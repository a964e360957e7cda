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
  const rings = outlines.map((outline): Ring => ({ box: boundsOf(outline), corners: Float64Array.from(outline.flat()) }));
  const rim = rimOf(outlines, bridge, rings), edges = flat(rim), cells = new Map<number, RimCell>();
  const depth = (x: number, y: number) => {
    const ix = Math.floor(x / CELL), iy = Math.floor(y / CELL), key = ix * 1_000_003 + iy;
    let cell = cells.get(key);
    if (!cell) cells.set(key, (cell = rimCell(edges, rings, (ix + 0.5) * CELL, (iy + 0.5) * CELL, bridge)));
    const distance = toSegments(cell.near, x, y);
    return (cell.side === 0 ? isInside(cell, x, y, bridge, distance) : cell.side > 0) ? distance : -distance;
  };
  return { depth, bounds: boundsOf(outlines.flat()), rim, nearestOnRim: (p) => nearestOn(rim, p) };
}

interface Ring {
  readonly box: Bounds;
  /** x0, y0, x1, y1, … */
  readonly corners: Float64Array;
}

/** Whether a point near some rings is ground: within one, or in a gap between two. */
function isInside({ rings, near }: Pick<RimCell, "rings" | "near">, x: number, y: number, bridge: number, toRim: number): boolean {
  if (isHeld(rings, x, y)) return true;
  // Where no rim is near, ground on both sides is enough. Near one, as outside of a corner that turns in, it has to be reached past no rim.
  if (toRim > bridge) return ACROSS.some(([dx, dy]) => isHeld(rings, x + dx * bridge, y + dy * bridge) && isHeld(rings, x - dx * bridge, y - dy * bridge));
  return ACROSS.some(([dx, dy]) => {
    const there = entryOf(rings, x, y, dx * bridge, dy * bridge), back = there > 1 ? Infinity : entryOf(rings, x, y, -dx * bridge, -dy * bridge);
    return there + back <= 1 && [there, -back].every((t) => toSegments(near, x + t * dx * bridge, y + t * dy * bridge) > SHORTEST);
  });
}

function isHeld(rings: readonly Ring[], x: number, y: number): boolean {
  return rings.some(({ box, corners }) => within(box, x, y) && isWithin(corners, x, y));
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
  /** What makes ground in the square or beside it. */
  readonly rings: readonly Ring[];
}

function rimCell(edges: Float64Array, all: readonly Ring[], x: number, y: number, bridge: number): RimCell {
  const half = CELL * Math.SQRT1_2, distances = new Float64Array(edges.length / 4), nearest: number[] = [];
  let least = Infinity;
  for (let k = 0; k < distances.length; k++) least = Math.min(least, (distances[k] = toSegments(edges, x, y, 4 * k, 4 * k + 4)));
  // A gap's far side counts too, and what ends it: a bridge further off.
  distances.forEach((d, k) => { if (d <= least + 2 * half + 2 * bridge) nearest.push(edges[4 * k]!, edges[4 * k + 1]!, edges[4 * k + 2]!, edges[4 * k + 3]!); });
  const beside: Bounds = { minX: x - CELL / 2, maxX: x + CELL / 2, minY: y - CELL / 2, maxY: y + CELL / 2 };
  const near = Float64Array.from(nearest), rings = all.filter(({ box }) => meet(box, beside, 2 * bridge));
  return { near, rings, side: least > half ? (isInside({ near, rings }, x, y, bridge, least) ? 1 : -1) : 0 };
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
function rimOf(outlines: readonly (readonly Point[])[], bridge: number, rings: readonly Ring[]): Segment[] {
  const rim: Segment[] = [];
  for (const outline of outlines) outline.forEach((a, k) => {
    const b = outline[(k + 1) % outline.length]!, beside = boundsOf([a, b]), near = rings.filter(({ box }) => meet(box, beside, 2 * bridge));
    rim.push(...bareOf(a, b, bridge, near));
  });
  return rim;
}

/** Of one edge, its stretches with no ground beside them on one side, `near` being all outlines that come near it. */
function bareOf(a: Point, b: Point, bridge: number, near: readonly Ring[]): Segment[] {
  const long = Math.hypot(b[0] - a[0], b[1] - a[1]), ex = (b[0] - a[0]) / long, ey = (b[1] - a[1]) / long, cuts = [0, 1];
  for (const { corners: ring } of near) {
    for (const off of [-bridge, 0, bridge]) crossings(ring, a[0] - ey * off, a[1] + ex * off, ex * long, ey * long, (t) => cuts.push(t));
    for (let i = 0; i < ring.length; i += 2) {
      const wx = ring[i]! - a[0], wy = ring[i + 1]! - a[1];
      if (Math.abs(wy * ex - wx * ey) <= bridge) cuts.push((wx * ex + wy * ey) / long);
    }
  }
  const within = cuts.filter((t) => t >= 0 && t <= 1).sort((p, q) => p - q), bare: [number, number][] = [];
  for (let m = 1; m < within.length; m++) {
    const from = within[m - 1]!, to = within[m]!, middle = mixed(a, b, (from + to) / 2), last = bare.at(-1);
    if ((to - from) * long < SHORTEST || ![-1, 1].some((side) => isBare(near, middle, -ey * side * bridge, ex * side * bridge))) continue;
    if (last && (from - last[1]) * long < SHORTEST) last[1] = to;
    else bare.push([from, to]);
  }
  return bare.map(([from, to]): Segment => [mixed(a, b, from), mixed(a, b, to)]);
}

/** Whether there is no ground beside a point of an edge, so far. */
function isBare(rings: readonly Ring[], [px, py]: Point, dx: number, dy: number): boolean {
  const off = SHORTEST / Math.hypot(dx, dy), x = px + dx * off, y = py + dy * off;
  return !isHeld(rings, x, y) && entryOf(rings, x, y, dx * (1 - off), dy * (1 - off)) === Infinity;
}

/** How far along a stretch an outline is met first, as a share of it; Infinity where none is. */
function entryOf(rings: readonly Ring[], x: number, y: number, dx: number, dy: number): number {
  let least = Infinity;
  const meets = (t: number) => { if (t >= 0 && t <= 1 && t < least) least = t; };
  for (const { corners } of rings) crossings(corners, x, y, dx, dy, meets);
  return least;
}

/** Tells where an outline crosses the line along a stretch, as shares of the stretch. */
function crossings(ring: Float64Array, x: number, y: number, dx: number, dy: number, meets: (t: number) => void): void {
  let px = ring[ring.length - 2]!, py = ring[ring.length - 1]!;
  for (let i = 0; i < ring.length; i += 2) {
    const qx = ring[i]!, qy = ring[i + 1]!, fx = qx - px, fy = qy - py, det = dx * fy - dy * fx, s = ((px - x) * dy - (py - y) * dx) / det;
    if (det !== 0 && s >= 0 && s <= 1) meets(((px - x) * fy - (py - y) * fx) / det);
    px = qx;
    py = qy;
  }
}

/** Pieces of edges shorter than this decide nothing, mm. */
const SHORTEST = 1e-3;

function mixed(a: Point, b: Point, t: number): Point {
  return [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
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

function meet(a: Bounds, b: Bounds, gap: number): boolean {
  return a.minX <= b.maxX + gap && b.minX <= a.maxX + gap && a.minY <= b.maxY + gap && b.minY <= a.maxY + gap;
}

function within({ minX, maxX, minY, maxY }: Bounds, x: number, y: number): boolean {
  return x >= minX && x <= maxX && y >= minY && y <= maxY;
}
