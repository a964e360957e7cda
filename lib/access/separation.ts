import { boxDistance, type Point } from "@/lib/plane";

/** A box along the axes of its own frame. */
export interface Rectangle {
  readonly u0: number;
  readonly u1: number;
  readonly halfWidth: number;
}

/** From a box to a point of its frame; below zero inside, by the least move that leads out. */
export function boxToPoint({ u0, u1, halfWidth }: Rectangle, u: number, v: number): number {
  return boxDistance(Math.max(u0 - u, u - u1), Math.abs(v) - halfWidth);
}

/**
 * From a box to a convex ring or a segment (two points) in the box's frame: x0, y0, x1, y1, … Where they are apart, their distance;
 * where they meet, minus the least move that parts them (by separating axes: the normals of both are enough for convex shapes).
 */
export function boxToRing(box: Rectangle, ring: Float64Array): number {
  const parted = separationOf(box, ring);
  return parted <= 0 ? parted : distanceOf(box, ring);
}

/** From a point to a convex ring or segment; below zero inside. */
export function pointToRing(ring: readonly Point[], x: number, y: number): number {
  const n = ring.length, flip = n > 2 && turnsRight(ring) ? -1 : 1;
  let inside = n > 2 ? -Infinity : Infinity, least = Infinity;
  for (let i = 0; i < n; i++) {
    const a = ring[i]!, b = ring[(i + 1) % n]!, ex = b[0] - a[0], ey = b[1] - a[1], wx = x - a[0], wy = y - a[1], len2 = ex * ex + ey * ey;
    const t = Math.min(1, Math.max(0, (wx * ex + wy * ey) / len2)), d = Math.hypot(wx - t * ex, wy - t * ey);
    if (d < least) least = d;
    if (n > 2) inside = Math.max(inside, (flip * (ey * wx - ex * wy)) / Math.sqrt(len2));
  }
  return inside <= 0 ? inside : least;
}

function turnsRight(ring: readonly Point[]): boolean {
  let twice = 0;
  ring.forEach(([ax, ay], i) => {
    const [bx, by] = ring[(i + 1) % ring.length]!;
    twice += ax * by - bx * ay;
  });
  return twice < 0;
}

function separationOf({ u0, u1, halfWidth }: Rectangle, ring: Float64Array): number {
  let minU = Infinity, maxU = -Infinity, minV = Infinity, maxV = -Infinity;
  for (let i = 0; i < ring.length; i += 2) {
    const u = ring[i]!, v = ring[i + 1]!;
    if (u < minU) minU = u;
    if (u > maxU) maxU = u;
    if (v < minV) minV = v;
    if (v > maxV) maxV = v;
  }
  let most = Math.max(minU - u1, u0 - maxU, minV - halfWidth, -halfWidth - maxV);
  const cu = (u0 + u1) / 2, hu = (u1 - u0) / 2;
  let px = ring[ring.length - 2]!, py = ring[ring.length - 1]!;
  for (let i = 0; i < ring.length; i += 2) {
    const qx = ring[i]!, qy = ring[i + 1]!, long = Math.sqrt((qx - px) * (qx - px) + (qy - py) * (qy - py));
    if (long > 0) {
      const nx = (qy - py) / long, ny = (px - qx) / long;
      let low = Infinity, high = -Infinity;
      for (let k = 0; k < ring.length; k += 2) {
        const along = nx * ring[k]! + ny * ring[k + 1]!;
        if (along < low) low = along;
        if (along > high) high = along;
      }
      const middle = nx * cu, reach = Math.abs(nx) * hu + Math.abs(ny) * halfWidth;
      most = Math.max(most, low - middle - reach, middle - reach - high);
    }
    px = qx;
    py = qy;
  }
  return most;
}

/** Of two convex shapes that are apart: from a corner of one to the other. */
function distanceOf(box: Rectangle, ring: Float64Array): number {
  const { u0, u1, halfWidth } = box;
  let least = Infinity;
  for (let i = 0; i < ring.length; i += 2) least = Math.min(least, boxToPoint(box, ring[i]!, ring[i + 1]!));
  let px = ring[ring.length - 2]!, py = ring[ring.length - 1]!;
  for (let i = 0; i < ring.length; i += 2) {
    const qx = ring[i]!, qy = ring[i + 1]!;
    for (let k = 0; k < 4; k++) least = Math.min(least, toSegment(k & 1 ? u1 : u0, k & 2 ? halfWidth : -halfWidth, px, py, qx, qy));
    px = qx;
    py = qy;
  }
  return least;
}

function toSegment(x: number, y: number, ax: number, ay: number, bx: number, by: number): number {
  const ex = bx - ax, ey = by - ay, len2 = ex * ex + ey * ey, t = len2 === 0 ? 0 : Math.min(1, Math.max(0, ((x - ax) * ex + (y - ay) * ey) / len2));
  const dx = x - ax - t * ex, dy = y - ay - t * ey;
  return Math.sqrt(dx * dx + dy * dy);
}
