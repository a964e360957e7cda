import { contains, turn } from "./polygon";
import type { Point } from "./points";

/** The closest points of two shapes and the distance between them; 0 with a shared point where they meet. */
export interface Nearest {
  readonly distance: number;
  readonly a: Point;
  readonly b: Point;
}

export function nearestOnSegment([px, py]: Point, [ax, ay]: Point, [bx, by]: Point): Point {
  const dx = bx - ax, dy = by - ay;
  const len2 = dx * dx + dy * dy;
  const t = len2 === 0 ? 0 : Math.min(1, Math.max(0, ((px - ax) * dx + (py - ay) * dy) / len2));
  return [ax + t * dx, ay + t * dy];
}

/** The point of an outline closest to p. */
export function nearestOnOutline(p: Point, outline: readonly Point[]): Point {
  let best: Point = outline[0]!, least = Infinity;
  for (let i = 0; i < outline.length; i++) {
    const q = nearestOnSegment(p, outline[i]!, outline[(i + 1) % outline.length]!);
    const d = Math.hypot(p[0] - q[0], p[1] - q[1]);
    if (d < least) { least = d; best = q; }
  }
  return best;
}

/** Between two filled outlines. */
export function nearestOfOutlines(a: readonly Point[], b: readonly Point[]): Nearest {
  const shared = a.find((p) => contains(b, p)) ?? b.find((p) => contains(a, p));
  if (shared) return { distance: 0, a: shared, b: shared };
  const crossing = a.find((p, i) => b.some((q, j) => crosses(p, a[(i + 1) % a.length]!, q, b[(j + 1) % b.length]!)));
  if (crossing) return { distance: 0, a: crossing, b: crossing };
  return nearestOfRims(a, b);
}

/** Whether two segments cross at a point inside both. */
function crosses(a: Point, b: Point, c: Point, d: Point): boolean {
  return turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0;
}

/** Between the rims of two outlines, whether or not one lies inside the other. */
export function nearestOfRims(a: readonly Point[], b: readonly Point[]): Nearest {
  let best: Nearest = { distance: Infinity, a: a[0]!, b: b[0]! };
  const offer = (pa: Point, pb: Point) => {
    const distance = Math.hypot(pa[0] - pb[0], pa[1] - pb[1]);
    if (distance < best.distance) best = { distance, a: pa, b: pb };
  };
  for (const p of a) offer(p, nearestOnOutline(p, b));
  for (const p of b) offer(nearestOnOutline(p, a), p);
  return best;
}

/** Between a filled outline and a disc. */
export function nearestToDisc(outline: readonly Point[], centre: Point, radius: number): Nearest {
  if (contains(outline, centre)) return { distance: 0, a: centre, b: centre };
  const a = nearestOnOutline(centre, outline);
  const gap = Math.hypot(centre[0] - a[0], centre[1] - a[1]);
  if (gap <= radius) return { distance: 0, a, b: a };
  const t = radius / gap;
  return { distance: gap - radius, a, b: [centre[0] + (a[0] - centre[0]) * t, centre[1] + (a[1] - centre[1]) * t] };
}
