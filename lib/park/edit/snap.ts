import type { Units } from "@/lib/measure";
import type { Point } from "@/lib/plane";
import { keyOf, whole, type Draft, type Path } from "./record";
import { pointsOfThing, thingsOf, type Thing } from "./things";

/** What a point was drawn to. */
export type Drawn = "grid" | "corner" | "edge" | "axis" | null;

export interface Snapped {
  readonly at: Point;
  readonly to: Drawn;
}

/** Steps of the grid, mm: one inch, as a tape in feet and inches is read outdoors, and five centimeters. */
export const GRID: Readonly<Record<Units, number>> = { "ft-in": 25.4, metric: 50 };

/** By how much an arrow key moves, mm: one step of the grid; ten times a hand with Shift (a foot, half a meter); the least a tape shows with Alt. */
export const STEPS: Readonly<Record<Units, { readonly step: number; readonly big: number; readonly fine: number }>> = {
  "ft-in": { step: 25.4, big: 304.8, fine: 3 },
  metric: { step: 50, big: 500, fine: 10 },
};

/** What a point can be drawn to, made once for a drag: everything but what is moved along. */
export interface SnapField {
  readonly corners: readonly Point[];
  /** Edges of the pad. */
  readonly edges: readonly (readonly [Point, Point])[];
  readonly grid: number;
}

export function snapField(draft: Draft, moving: readonly Path[], units: Units): SnapField {
  const along = new Set(moving.map(keyOf));
  const rest = thingsOf(draft).filter((thing) => thing.shape !== "place");
  const corners = rest.flatMap((thing) => pointsOfThing(draft, thing).filter((_, i) => !along.has(keyOf(thing.handles[i]!))));
  const pad = rest.find((thing): thing is Thing => thing.kind === "pad");
  const ring = pad ? pointsOfThing(draft, pad) : [];
  const edges = ring.flatMap((p, i): (readonly [Point, Point])[] => {
    const j = (i + 1) % ring.length;
    return along.has(keyOf(pad!.handles[i]!)) || along.has(keyOf(pad!.handles[j]!)) ? [] : [[p, ring[j]!]];
  });
  return { corners, edges, grid: GRID[units] };
}

/**
 * A point drawn to what is within `reach` (mm) of it, the strongest first: a corner, the pad's edge, the center line (y = 0) or the entry edge's line (x = 0), else the nearest
 * crossing of the grid. To the whole millimeter. Snapping what was snapped changes nothing.
 */
export function snapPoint([x, y]: Point, { corners, edges, grid }: SnapField, reach: number): Snapped {
  const corner = nearest(corners, [x, y], reach);
  if (corner) return { at: corner, to: "corner" };
  const feet = edges.flatMap(([a, b]) => footOn(a, b, [x, y]));
  const foot = nearest(feet, [x, y], reach);
  if (foot) return { at: [whole(foot[0]), whole(foot[1])], to: "edge" };
  const onX = Math.abs(x) <= reach, onY = Math.abs(y) <= reach;
  return { at: [onX ? 0 : toGrid(x, grid), onY ? 0 : toGrid(y, grid)], to: onX || onY ? "axis" : "grid" };
}

/** The nearest line of the grid, to the whole millimeter. */
export function toGrid(value: number, grid: number): number {
  return whole(Math.round(value / grid) * grid);
}

/** One step of the keyboard on: to the next line of the grid that way, so that steps do not gather rounding. */
export function stepOn(value: number, direction: -1 | 1, step: number): number {
  const on = Math.round(value / step);
  // On a line already, as far as whole millimeters can be: the next one; between two lines: the one ahead.
  const line = Math.abs(value - on * step) <= 0.5 ? on + direction : direction > 0 ? Math.ceil(value / step) : Math.floor(value / step);
  return whole(line * step);
}

function nearest(points: readonly Point[], [x, y]: Point, reach: number): Point | null {
  let best: Point | null = null, least = reach;
  for (const p of points) {
    const far = Math.hypot(p[0] - x, p[1] - y);
    if (far <= least && (best === null || far < least)) [best, least] = [p, far];
  }
  return best;
}

/** The foot of the perpendicular on an edge, if it lies between its ends. */
function footOn([ax, ay]: Point, [bx, by]: Point, [x, y]: Point): Point[] {
  const dx = bx - ax, dy = by - ay, square = dx * dx + dy * dy;
  if (square === 0) return [];
  const t = ((x - ax) * dx + (y - ay) * dy) / square;
  return t >= 0 && t <= 1 ? [[ax + t * dx, ay + t * dy]] : [];
}
