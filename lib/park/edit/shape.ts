import { boundsOf, type Point } from "@/lib/plane";
import { pointAt, readAt, whole, writeAt, type Draft, type Path } from "./record";

/** A round obstacle as the square around it, to be drawn to its true corners. The same record where it is not round. */
export function giveCorners(draft: Draft, path: Path): Draft {
  const at = pointAt(draft, [...path, "at"]);
  if (!at) return draft;
  const radius = Math.max(Number(readAt(draft, [...path, "radius"]) ?? 0), LEAST), [x, y] = at;
  const outline = [[-1, -1], [1, -1], [1, 1], [-1, 1]].map(([i, j]) => [whole(x + i! * radius), whole(y + j! * radius)]);
  return writeAt(writeAt(writeAt(draft, [...path, "outline"], outline), [...path, "at"], undefined), [...path, "radius"], undefined);
}

/** An obstacle with corners as the circle around them: no smaller than it is. The same record where it has none. */
export function makeRound(draft: Draft, path: Path): Draft {
  const outline = readAt(draft, [...path, "outline"]) as readonly Point[] | undefined;
  if (!outline || outline.length === 0) return draft;
  const { minX, maxX, minY, maxY } = boundsOf(outline), x = whole((minX + maxX) / 2), y = whole((minY + maxY) / 2);
  const radius = Math.ceil(Math.max(...outline.map(([px, py]) => Math.hypot(px - x, py - y))));
  return writeAt(writeAt(writeAt(draft, [...path, "at"], [x, y]), [...path, "radius"], radius), [...path, "outline"], undefined);
}

/** Corners that lie on each other are none, mm. */
const LEAST = 50;
