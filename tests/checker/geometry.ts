/**
 * Plane geometry for the checker: every distance by brute force over all edges, nothing shared with the engine.
 * Slow and obvious on purpose. Millimetres, site frame.
 */
export type P = readonly [number, number];

/** An axis-parallel rectangle. The rig stands parallel to the pad's centreline, so everything it has is one of these. */
export interface Rect {
  readonly x0: number;
  readonly x1: number;
  readonly y0: number;
  readonly y1: number;
}

/** Two shapes that only touch must not read as overlapping; anything beyond a nanometre is an overlap. */
const NANO = 1e-6;

export function corners(r: Rect): P[] {
  return [[r.x0, r.y0], [r.x1, r.y0], [r.x1, r.y1], [r.x0, r.y1]];
}

export function pointToSegment(p: P, a: P, b: P): number {
  const q = nearestOnSegment(p, a, b);
  return Math.hypot(p[0] - q[0], p[1] - q[1]);
}

export function insideOutline(p: P, outline: readonly P[]): boolean {
  let inside = false;
  for (let i = 0, j = outline.length - 1; i < outline.length; j = i++) {
    const [ax, ay] = outline[i]!;
    const [bx, by] = outline[j]!;
    if (ay > p[1] !== by > p[1] && p[0] < ((bx - ax) * (p[1] - ay)) / (by - ay) + ax) inside = !inside;
  }
  return inside;
}

/** Distance of a point to an outline's edge, positive inside, negative outside. */
export function depthInOutline(p: P, outline: readonly P[]): number {
  let least = Infinity;
  for (const [a, b] of edges(outline)) least = Math.min(least, pointToSegment(p, a, b));
  return insideOutline(p, outline) ? least : -least;
}

/** Distance of a point to a rectangle, negative inside (to the nearest side). */
export function pointToRect(p: P, r: Rect): number {
  const dx = Math.max(r.x0 - p[0], p[0] - r.x1);
  const dy = Math.max(r.y0 - p[1], p[1] - r.y1);
  if (dx <= 0 && dy <= 0) return Math.max(dx, dy);
  return Math.hypot(Math.max(dx, 0), Math.max(dy, 0));
}

/** Distance of a rectangle to a disc, negative where they overlap: the least move that parts them. */
export function rectToDisc(r: Rect, centre: P, radius: number): number {
  return pointToRect(centre, r) - radius;
}

/**
 * Distance of a rectangle to a polygon. Where they overlap, minus the least move that parts them (`exact`), or
 * minus the least move along x or y that parts the boxes around them: enough where only the sign counts.
 */
export function rectToOutline(r: Rect, outline: readonly P[], exact: boolean): number {
  const apart = gapOutside(r, outline);
  if (apart > 0) return apart;
  return exact ? -leastMoveApart(r, outline) : -leastBoxMove(r, outline);
}

/**
 * How far inside an outline a rectangle lies: the smallest depth of any of its points, negative where some stick
 * out. Outside, the points looked at are the corners and the middles of what each side has outside.
 */
export function rectInsideOutline(r: Rect, outline: readonly P[]): number {
  const own = edges(corners(r));
  const bare = [...outline].every((p) => pointToRect(p, r) >= -NANO);
  let depth = Infinity;
  let crossing = !bare;
  for (const c of corners(r)) depth = Math.min(depth, depthInOutline(c, outline));
  for (const [a, b] of own) {
    for (const m of middlesBetweenCrossings(a, b, outline)) {
      const d = depthInOutline(m, outline);
      if (d < -NANO) crossing = true;
      depth = Math.min(depth, d);
    }
  }
  if (depth < 0 || crossing) return Math.min(depth, crossing ? -NANO : 0);
  for (const [a, b] of own) for (const [c, d] of edges(outline)) depth = Math.min(depth, segmentToSegment(a, b, c, d));
  return depth;
}

/** Whether a segment passes through the inside of a rectangle; running along a side or touching a corner does not. */
export function passesThrough(a: P, b: P, r: Rect, margin = NANO): boolean {
  let t0 = 0, t1 = 1;
  for (const k of [0, 1] as const) {
    const lo = (k === 0 ? r.x0 : r.y0) + margin, hi = (k === 0 ? r.x1 : r.y1) - margin;
    const d = b[k] - a[k];
    if (d === 0) {
      if (a[k] <= lo || a[k] >= hi) return false;
      continue;
    }
    const s = (lo - a[k]) / d, e = (hi - a[k]) / d;
    t0 = Math.max(t0, Math.min(s, e));
    t1 = Math.min(t1, Math.max(s, e));
  }
  return t0 < t1;
}

/** The shortest way from a to b around a rectangle: every order of its four corners that stays outside. */
export function pathAround(a: P, b: P, r: Rect): number {
  const from = pushedOut(a, r), to = pushedOut(b, r);
  const stops: P[] = [from.at, ...corners(r), to.at];
  const least = stops.map(() => Infinity);
  least[0] = 0;
  for (let round = 0; round < stops.length; round++) {
    for (let i = 0; i < stops.length; i++) {
      for (let j = 0; j < stops.length; j++) {
        const p = stops[i]!, q = stops[j]!;
        if (i === j || passesThrough(p, q, r)) continue;
        least[j] = Math.min(least[j]!, least[i]! + Math.hypot(p[0] - q[0], p[1] - q[1]));
      }
    }
  }
  return from.moved + least[stops.length - 1]! + to.moved;
}

export function edges(outline: readonly P[]): [P, P][] {
  return outline.map((p, i) => [p, outline[(i + 1) % outline.length]!]);
}

export function centreOfArea(outline: readonly P[]): P {
  const [ox, oy] = outline[0]!;
  let area = 0, x = 0, y = 0;
  for (const [[ax, ay], [bx, by]] of edges(outline)) {
    const cross = (ax - ox) * (by - oy) - (bx - ox) * (ay - oy);
    area += cross;
    x += (ax + bx - 2 * ox) * cross;
    y += (ay + by - 2 * oy) * cross;
  }
  return [ox + x / (3 * area), oy + y / (3 * area)];
}

function nearestOnSegment(p: P, a: P, b: P): P {
  const dx = b[0] - a[0], dy = b[1] - a[1];
  const squared = dx * dx + dy * dy;
  const t = squared === 0 ? 0 : Math.max(0, Math.min(1, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / squared));
  return [a[0] + t * dx, a[1] + t * dy];
}

function side(a: P, b: P, c: P): number {
  return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
}

function segmentToSegment(a: P, b: P, c: P, d: P): number {
  const crosses = side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
  if (crosses) return 0;
  return Math.min(pointToSegment(a, c, d), pointToSegment(b, c, d), pointToSegment(c, a, b), pointToSegment(d, a, b));
}

/** Distance between the two where they lie apart; 0 where they touch or overlap. */
function gapOutside(r: Rect, outline: readonly P[]): number {
  if (outline.some((p) => pointToRect(p, r) <= 0)) return 0;
  if (corners(r).some((c) => insideOutline(c, outline))) return 0;
  let least = Infinity;
  for (const [a, b] of edges(corners(r))) for (const [c, d] of edges(outline)) least = Math.min(least, segmentToSegment(a, b, c, d));
  return least;
}

function leastBoxMove(r: Rect, outline: readonly P[]): number {
  const xs = outline.map((p) => p[0]), ys = outline.map((p) => p[1]);
  const moves = [Math.max(...xs) - r.x0, r.x1 - Math.min(...xs), Math.max(...ys) - r.y0, r.y1 - Math.min(...ys)];
  return Math.max(NANO, Math.min(...moves));
}

/**
 * The rectangle's centre lies in the polygon grown by the rectangle. The way out is the nearest point of the grown
 * shape's edge, and that edge is made of pieces of (edge + corner) and (corner + side): try the nearest point of
 * every piece, and every crossing of two pieces, and keep those where the two no longer overlap.
 */
function leastMoveApart(r: Rect, outline: readonly P[]): number {
  const c: P = [(r.x0 + r.x1) / 2, (r.y0 + r.y1) / 2];
  const hx = (r.x1 - r.x0) / 2, hy = (r.y1 - r.y0) / 2;
  const box: P[] = [[-hx, -hy], [hx, -hy], [hx, hy], [-hx, hy]];
  const pieces: [P, P][] = [];
  for (const [a, b] of edges(outline)) for (const o of box) pieces.push([add(a, o), add(b, o)]);
  for (const p of outline) for (const [a, b] of edges(box)) pieces.push([add(p, a), add(p, b)]);
  const tries: P[] = pieces.flatMap(([a, b]) => [nearestOnSegment(c, a, b), a, b]);
  pieces.forEach(([a, b], i) => {
    for (const [d, e] of pieces.slice(i + 1)) {
      const x = crossing(a, b, d, e);
      if (x) tries.push(x);
    }
  });
  const far = (p: P) => Math.hypot(p[0] - c[0], p[1] - c[1]);
  tries.sort((p, q) => far(p) - far(q));
  for (const p of tries) {
    const shrunk: Rect = { x0: p[0] - hx + NANO, x1: p[0] + hx - NANO, y0: p[1] - hy + NANO, y1: p[1] + hy - NANO };
    if (gapOutside(shrunk, outline) > 0) return far(p);
  }
  return leastBoxMove(r, outline);
}

function add(a: P, b: P): P {
  return [a[0] + b[0], a[1] + b[1]];
}

function crossing(a: P, b: P, c: P, d: P): P | null {
  const denominator = (b[0] - a[0]) * (d[1] - c[1]) - (b[1] - a[1]) * (d[0] - c[0]);
  if (denominator === 0) return null;
  const t = ((c[0] - a[0]) * (d[1] - c[1]) - (c[1] - a[1]) * (d[0] - c[0])) / denominator;
  const s = ((c[0] - a[0]) * (b[1] - a[1]) - (c[1] - a[1]) * (b[0] - a[0])) / denominator;
  return t >= 0 && t <= 1 && s >= 0 && s <= 1 ? [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])] : null;
}

/** The middle of each stretch of a segment between its crossings with an outline. */
function middlesBetweenCrossings(a: P, b: P, outline: readonly P[]): P[] {
  const cuts = [0, 1];
  const long = Math.hypot(b[0] - a[0], b[1] - a[1]);
  if (long === 0) return [a];
  for (const [c, d] of edges(outline)) {
    const x = crossing(a, b, c, d);
    if (x) cuts.push(Math.hypot(x[0] - a[0], x[1] - a[1]) / long);
  }
  cuts.sort((s, t) => s - t);
  return cuts.slice(1).map((t, i) => {
    const m = (cuts[i]! + t) / 2;
    return [a[0] + m * (b[0] - a[0]), a[1] + m * (b[1] - a[1])] as P;
  });
}

/** A point a little inside the rectangle steps straight out first. */
function pushedOut(p: P, r: Rect): { at: P; moved: number } {
  const depth = -pointToRect(p, r);
  if (depth <= NANO) return { at: p, moved: 0 };
  const sides: P[] = [[r.x0, p[1]], [r.x1, p[1]], [p[0], r.y0], [p[0], r.y1]];
  const at = sides.find((s) => Math.abs(Math.hypot(s[0] - p[0], s[1] - p[1]) - depth) < NANO) ?? sides[0]!;
  return { at, moved: depth };
}
