import { percentFromDegrees } from "@/lib/measure";
import { groundPlane, type GroundPlane } from "@/lib/park";
import { chiSquareLimit } from "./least-squares";
import { cholesky, inverseOf, type Matrix } from "./linear";
import { workedOut } from "./propagation";
import { surveyTolerances, type SurveyTolerances } from "./tolerances";
import { note, refused, type Measured, type Surveyed } from "./types";

/** A slope by a level (or a board under one): the rise under its low end over its own length. Per cent. */
export function slopeByLevel(rise: Measured, over: Measured): Measured {
  return workedOut(([r, o]) => (100 * r!) / o!, [rise, over]);
}

/** A slope from an inclinometer, degrees to per cent: 100 tan(angle). */
export function slopeByDegrees(angle: Measured): Measured {
  return workedOut(([degrees]) => percentFromDegrees(degrees!), [angle]);
}

/** A plane through spot heights, with what it is known to. */
export interface PlaneFit {
  readonly plane: GroundPlane;
  /** Per cent, with their standard errors: along x and along y. */
  readonly along: Measured;
  readonly across: Measured;
  /** Covariance of base (mm), along and across gradient (rise over run). */
  readonly covariance: Matrix;
  /** The spot that lies worst off, by its place in the list, and by how much (mm, above zero where it lies above the plane). */
  readonly worst: { readonly spot: number; readonly by: number };
  /** Root mean square of the misfits over the redundancy, mm; null with three spots, which nothing checks. */
  readonly misfit: number | null;
  /** The spots misfit by more than their errors explain, and by more than a block's thickness. */
  readonly uneven: boolean;
}

export type SpotHeight = readonly [x: number, y: number, z: number];

/**
 * The least-squares plane through spot heights that are each known to `error` (mm, upright; their places count as exact).
 * Where the ground is uneven the errors of the slopes are those that its misfits ask for. Refused where the spots lie in line.
 */
export function fitPlane(spots: readonly SpotHeight[], error: number, tolerances: SurveyTolerances = surveyTolerances): Surveyed<PlaneFit> {
  const cofactors = spots.length < 3 ? null : cofactorsOf(spots);
  if (!cofactors) return refused(note("ground:in-line", spots.map((_, i) => String(i))));
  const plane = groundPlane({ heights: spots.map(([x, y, z]) => [x, y, z]) });
  const misfits = spots.map(([x, y, z]) => z - plane.base - plane.alongGradient * x - plane.acrossGradient * y);
  const spot = misfits.reduce((most, misfit, i) => (Math.abs(misfit) > Math.abs(misfits[most]!) ? i : most), 0);
  const squares = misfits.reduce((sum, m) => sum + m * m, 0), redundancy = spots.length - 3;
  const off = redundancy > 0 && squares > error ** 2 * chiSquareLimit(redundancy, tolerances.doubtAll);
  const uneven = off && Math.abs(misfits[spot]!) > tolerances.uneven;
  const each = off ? Math.sqrt(squares / redundancy) : error;
  const covariance = cofactors.map((row) => row.map((value) => value * each * each));
  const along = { value: 100 * plane.alongGradient, error: 100 * Math.sqrt(covariance[1]![1]!) };
  const across = { value: 100 * plane.acrossGradient, error: 100 * Math.sqrt(covariance[2]![2]!) };
  const value = { plane, along, across, covariance, worst: { spot, by: misfits[spot]! }, misfit: redundancy > 0 ? Math.sqrt(squares / redundancy) : null, uneven };
  return { ok: true, value, warnings: [
    ...(uneven ? [note("ground:uneven", [String(spot)], Math.abs(misfits[spot]!))] : []),
    ...(Math.max(along.error, across.error) > WEAK_SLOPE ? [note("ground:weak")] : []),
  ] };
}

/** A slope known no better than this decides nothing: levels ask for blocks from less, per cent. */
const WEAK_SLOPE = 1;

/** (AᵀA)⁻¹ for base, along and across, worked out about the mean of the places; null where they lie in line. */
function cofactorsOf(spots: readonly SpotHeight[]): number[][] | null {
  const n = spots.length, mx = spots.reduce((sum, [x]) => sum + x, 0) / n, my = spots.reduce((sum, [, y]) => sum + y, 0) / n;
  let xx = 0, xy = 0, yy = 0;
  for (const [px, py] of spots) {
    const x = px - mx, y = py - my;
    xx += x * x; xy += x * y; yy += y * y;
  }
  const lower = cholesky([[xx, xy], [xy, yy]]);
  if (!lower) return null;
  const [[a, b], [, d]] = inverseOf(lower) as [[number, number], [number, number]];
  // base = mean height − along · mx − across · my
  const bx = -(a * mx + b * my), by = -(b * mx + d * my);
  return [[1 / n + a * mx * mx + 2 * b * mx * my + d * my * my, bx, by], [bx, a, b], [by, b, d]];
}
