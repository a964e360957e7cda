import type { Units } from "@/lib/measure";
import { boundsOf, type Point } from "@/lib/plane";

/** The sketch's paper, millimetres as printed: as wide as the narrower of the two papers lets it be. `road`: from its left edge to the front of the pad. */
export const grid = { width: 184, square: 4, road: 32, margin: 6 } as const;
/** How high it may be, and a line of the table above it, which takes of that. */
const HIGHEST = 92, LEAST_HIGH = 56, LINE = 7.2, LINES = 8;

/** What the page leaves for it under a table of so many lines. */
export function gridHeight(lines: number): number {
  const left = HIGHEST - Math.max(0, lines - LINES) * LINE;
  return Math.max(LEAST_HIGH, Math.floor(left / grid.square) * grid.square);
}

/** What a square may stand for, mm of ground: what one can count in. */
const SQUARES = { "ft-in": [1, 2, 4, 8].map((feet) => feet * 304.8), metric: [250, 500, 1000, 2000] } satisfies Record<Units, readonly number[]>;

/** Of a site on record, the finest scale at which it lies on the paper with something around it; else one for a usual site. */
export function squareFor(outline: readonly Point[] | null, height: number, units: Units): number {
  const choices = SQUARES[units];
  if (!outline) return choices[1]!;
  const { maxX, minY, maxY } = boundsOf(outline);
  const wide = grid.width - grid.road - grid.margin, high = height / 2 - grid.margin;
  const fits = (square: number) => (maxX / square) * grid.square <= wide && (Math.max(maxY, -minY) / square) * grid.square <= high;
  return choices.find(fits) ?? choices.at(-1)!;
}

/** Where a point of the site lies on the paper: into the site to the right, left of it up. */
export function onPaper([x, y]: Point, square: number, height: number): readonly [number, number] {
  return [grid.road + (x / square) * grid.square, height / 2 - (y / square) * grid.square];
}
