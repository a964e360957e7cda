import type { Units } from "@/lib/measure";
import type { Site } from "@/lib/park";
import { boundsOf, type Bounds, type Point } from "@/lib/plane";
import type { SheetPoint } from "./types";

/** Width of every map in units of its viewBox. */
export const SHEET_WIDTH = 480;
/** No sheet is flatter or taller than this share of its width: a single row of sites would else be a strip. */
const FLATTEST = 0.56, TALLEST = 1.15;
/** The strip below the ground for scale bar and north arrow. */
const FOOT = 44;
/** A loop of one site is not blown up beyond this: 8 units a metre. */
const MOST_SCALE = 0.008;

export interface SheetFrame {
  readonly scale: number;
  readonly width: number;
  readonly height: number;
  /** Height of the part that shows ground. */
  readonly groundHeight: number;
  readonly toSheet: (p: Point) => SheetPoint;
}

/** East to the right and north up the sheet, one scale for both. */
export function frameAround(bounds: Bounds): SheetFrame {
  const wide = bounds.maxX - bounds.minX, high = bounds.maxY - bounds.minY;
  const scale = Math.min(SHEET_WIDTH / wide, (TALLEST * SHEET_WIDTH) / high, MOST_SCALE);
  const groundHeight = Math.max(high * scale, FLATTEST * SHEET_WIDTH);
  const left = (SHEET_WIDTH - wide * scale) / 2, top = (groundHeight - high * scale) / 2;
  return {
    scale,
    width: SHEET_WIDTH,
    height: groundHeight + FOOT,
    groundHeight,
    toSheet: ([east, north]) => [left + (east - bounds.minX) * scale, top + (bounds.maxY - north) * scale],
  };
}

/** Where a point of the site frame lies on the park's map; the site has to have a place. */
export function onMap({ east, north, bearing }: NonNullable<Site["place"]>, [x, y]: Point): Point {
  const a = (bearing * Math.PI) / 180;
  return [east + x * Math.sin(a) - y * Math.cos(a), north + x * Math.cos(a) + y * Math.sin(a)];
}

export function boundsWith(points: readonly Point[], margin: number): Bounds {
  const { minX, minY, maxX, maxY } = boundsOf(points);
  return { minX: minX - margin, minY: minY - margin, maxX: maxX + margin, maxY: maxY + margin };
}

/** The longest round length that takes at most a quarter of the sheet. */
export function mapScaleBar(scale: number, units: Units): { mm: number; text: string } {
  const metre = 1000, foot = 304.8;
  const choices = units === "metric" ? [5, 10, 20, 50, 100, 200, 500].map((m) => ({ mm: m * metre, text: `${m} m` }))
    : [20, 50, 100, 200, 500, 1000].map((ft) => ({ mm: ft * foot, text: `${ft} ft` }));
  return choices.filter(({ mm }) => mm * scale <= SHEET_WIDTH / 4).at(-1) ?? choices[0]!;
}
