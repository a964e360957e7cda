import type { Point } from "@/lib/plane";
import type { Matrix } from "./linear";
import type { ErrorEllipse, Known, Rows, Spread } from "./types";

export const EXACT: Spread = { xx: 0, xy: 0, yy: 0 };

/** The same standard error along either axis, mm. */
export function evenly(error: number): Spread {
  return { xx: error * error, xy: 0, yy: error * error };
}

export function spreadOf(m: Matrix): Spread {
  return { xx: m[0]![0]!, xy: (m[0]![1]! + m[1]![0]!) / 2, yy: m[1]![1]! };
}

/** The standard error in one direction, a unit vector, mm. */
export function errorToward({ xx, xy, yy }: Spread, [x, y]: Point): number {
  return Math.sqrt(Math.max(0, x * x * xx + 2 * x * y * xy + y * y * yy));
}

/** The axes of the standard ellipse: the square roots of the spread's eigenvalues. */
export function ellipseOf({ xx, xy, yy }: Spread): ErrorEllipse {
  const middle = (xx + yy) / 2, half = Math.hypot((xx - yy) / 2, xy);
  return { major: Math.sqrt(middle + half), minor: Math.sqrt(Math.max(0, middle - half)), bearing: Math.atan2(2 * xy, xx - yy) / 2 };
}

/** The spread as seen from a frame turned by so many radians: that of the turned position. */
export function turnedSpread({ xx, xy, yy }: Spread, angle: number): Spread {
  const c = Math.cos(angle), s = Math.sin(angle);
  return { xx: c * c * xx - 2 * c * s * xy + s * s * yy, xy: c * s * (xx - yy) + (c * c - s * s) * xy, yy: s * s * xx + 2 * c * s * xy + c * c * yy };
}

/** Points that have no more in common than being the same one: by name. */
export function apartUnlessOne(a: Known, b: Known): Rows {
  return a.name === b.name ? [[a.spread.xx, a.spread.xy], [a.spread.xy, a.spread.yy]] : NOTHING;
}

const NOTHING: Rows = [[0, 0], [0, 0]];
