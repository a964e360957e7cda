import { signedArea, type Point } from "@/lib/plane";

/** A corner of a pad by the letter that a surveyor gives it. */
export interface LetteredCorner {
  readonly letter: string;
  readonly at: Point;
}

/**
 * The corners of a pad by the letters that a surveyor gives them: A in front on the left of who stands on the road and
 * looks in, B in front on the right, and on around. The entry edge is the one that the origin lies on, or nearest to.
 */
export function letterCorners(outline: readonly Point[]): LetteredCorner[] {
  const around = signedArea(outline) < 0 ? [...outline].reverse() : outline, n = around.length;
  let entry = 0, least = Infinity;
  for (let i = 0; i < n; i += 1) {
    const distance = distanceOfOrigin(around[i]!, around[(i + 1) % n]!);
    if (distance < least) [entry, least] = [i, distance];
  }
  return around.map((_, i) => ({ letter: letterOf(i), at: around[(entry + i) % n]! }));
}

/** After Z come AA, AB: an outline may have any number of corners. */
export function letterOf(index: number): string {
  const last = String.fromCharCode(65 + (index % 26));
  return index < 26 ? last : `${letterOf(Math.floor(index / 26) - 1)}${last}`;
}

function distanceOfOrigin([ax, ay]: Point, [bx, by]: Point): number {
  const dx = bx - ax, dy = by - ay, length = dx * dx + dy * dy;
  const along = length === 0 ? 0 : Math.min(1, Math.max(0, -(ax * dx + ay * dy) / length));
  return Math.hypot(ax + along * dx, ay + along * dy);
}
