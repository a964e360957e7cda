import type { Point } from "@/lib/plane";

/**
 * Where the line through two points crosses the pad's centerline (y = 0): how far in from the entry edge, in mm, and at
 * which angle to it, 0 to 90 whole degrees. Null for a line that runs along it.
 */
export function crossingOf([a, b]: readonly [Point, Point]): { into: number; degrees: number } | null {
  const dx = b[0] - a[0], dy = b[1] - a[1];
  if (dy === 0) return null;
  return { into: a[0] - (a[1] * dx) / dy, degrees: Math.round((Math.atan2(Math.abs(dy), Math.abs(dx)) * 180) / Math.PI) };
}
