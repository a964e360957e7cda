import { cholesky, dot, forward, inverseOf, multiply, solveWith, transpose, type Matrix } from "./linear";
import type { SurveyTolerances } from "./tolerances";

/** Readings at some values of the unknowns: read less worked out; how what is worked out changes with each unknown; the readings' covariance. */
export interface Linearised {
  readonly misfits: readonly number[];
  readonly slopes: Matrix;
  readonly covariance: Matrix;
}

export interface Solution {
  readonly values: readonly number[];
  readonly covariance: Matrix;
  readonly misfits: readonly number[];
  /** Each misfit in its own standard errors (the test statistic of data snooping); 0 where no other reading checks it. */
  readonly standardized: readonly number[];
  /** What the others say less what was read; null where no other reading checks it. */
  readonly offBy: readonly (number | null)[];
  /** How each unknown follows each reading: one row an unknown. */
  readonly follows: Matrix;
  /** The weighted sum of squared misfits, and how many readings there are beyond what is needed. */
  readonly chiSquare: number;
  readonly redundancy: number;
}

export type Ended = { readonly ended: "settled"; readonly solution: Solution } | { readonly ended: "singular" } | { readonly ended: "rounds" };

/** What is left of a reading's check beside rounding: below it, nothing checks the reading. */
const CHECKED = 1e-9;

/**
 * Weighted least squares by Gauss and Newton, with steps halved while they make things worse. Errors are those that the
 * readings' covariance gives, whatever the misfits turn out to be.
 */
export function leastSquares(start: readonly number[], at: (values: readonly number[]) => Linearised, { rounds, settled }: Pick<SurveyTolerances, "rounds" | "settled">): Ended {
  let values = start;
  for (let round = 0; round < rounds; round++) {
    const here = at(values), weighing = cholesky(here.covariance);
    if (!weighing) return { ended: "singular" };
    const whiteSlopes = transpose(transpose(here.slopes).map((column) => forward(weighing, column)));
    const normal = cholesky(normalOf(whiteSlopes));
    if (!normal) return { ended: "singular" };
    const white = forward(weighing, here.misfits);
    const step = solveWith(normal, transpose(whiteSlopes).map((column) => dot(column, white)));
    const next = descend(values, step, dot(white, white), (tried) => sumOfSquares(forward(weighing, at(tried).misfits)));
    const moved = Math.max(...next.map((value, i) => Math.abs(value - values[i]!)));
    values = next;
    if (moved <= settled) return { ended: "settled", solution: solutionAt(values, at(values)) };
  }
  return { ended: "rounds" };
}

function normalOf(slopes: Matrix): number[][] {
  const columns = transpose(slopes);
  return columns.map((a) => columns.map((b) => dot(a, b)));
}

function sumOfSquares(list: readonly number[]): number {
  return dot(list, list);
}

/** Halvings after which a step is as good as none. */
const HALVINGS = 30;

function descend(values: readonly number[], step: readonly number[], before: number, costOf: (values: readonly number[]) => number): readonly number[] {
  for (let k = 0, share = 1; k < HALVINGS; k++, share /= 2) {
    const tried = values.map((value, i) => value + share * step[i]!);
    if (costOf(tried) <= before) return tried;
  }
  return values;
}

/** The errors and checks at the solution, where covariance and normal matrix have been found regular a moment ago. */
function solutionAt(values: readonly number[], { misfits, slopes, covariance: readings }: Linearised): Solution {
  const weights = inverseOf(cholesky(readings)!);
  const weighted = multiply(weights, slopes);
  const covariance = inverseOf(cholesky(multiply(transpose(slopes), weighted))!);
  const follows = multiply(covariance, transpose(weighted));
  const pulled = weights.map((row) => dot(row, misfits));
  // The weights less what the solution takes up: V⁻¹ − V⁻¹A(AᵀV⁻¹A)⁻¹AᵀV⁻¹, of which only the diagonal is wanted.
  const columns = transpose(follows);
  const checks = weights.map((row, i) => row[i]! - dot(weighted[i]!, columns[i]!));
  const checked = checks.map((check, i) => check > CHECKED * weights[i]![i]!);
  return {
    values, covariance, misfits, follows,
    standardized: pulled.map((pull, i) => (checked[i] ? pull / Math.sqrt(checks[i]!) : 0)),
    offBy: pulled.map((pull, i) => (checked[i] ? -pull / checks[i]! : null)),
    chiSquare: dot(misfits, pulled),
    redundancy: misfits.length - values.length,
  };
}

/** The value that chance exceeds as rarely as a normal deviate exceeds `deviate` (Wilson and Hilferty 1931). */
export function chiSquareLimit(redundancy: number, deviate: number): number {
  const k = 2 / (9 * redundancy);
  return redundancy * (1 - k + deviate * Math.sqrt(k)) ** 3;
}

/** The readings that disagree most with the rest: one, or several that cannot be told apart; none where all agree well enough. */
export function doubtful({ standardized, chiSquare, redundancy }: Solution, { doubt, doubtAll, alike }: Pick<SurveyTolerances, "doubt" | "doubtAll" | "alike">): number[] {
  if (redundancy <= 0) return [];
  const most = Math.max(...standardized.map(Math.abs));
  if (most <= doubt && chiSquare <= chiSquareLimit(redundancy, doubtAll)) return [];
  return standardized.flatMap((value, i) => (Math.abs(value) >= most * (1 - alike) ? [i] : []));
}
