import type { Point, SitePoint } from "@/lib/plane";

/** Variances and covariance of a position, mm squared. */
export interface Spread {
  readonly xx: number;
  readonly xy: number;
  readonly yy: number;
}

/** The region that holds a position about four times in ten: one standard error along each of its axes, mm; `bearing` of the long one in radians from +x. */
export interface ErrorEllipse {
  readonly major: number;
  readonly minor: number;
  readonly bearing: number;
}

/** A two by two matrix by its rows. */
export type Rows = readonly [Point, Point];

/** What the errors of two points have in common: their covariance, rows for the first. */
export type Shared = (a: Known, b: Known) => Rows;

/** A point that others are measured from. Exact where it has no spread. */
export interface Known {
  /** Such as `pad.0` or `obstacles.oak.at`; two tapes from one name share its error. */
  readonly name: string;
  readonly at: Point;
  readonly spread: Spread;
}

/** A measured number with its standard error, in the same unit. */
export interface Measured {
  readonly value: number;
  readonly error: number;
}

/** What may be wrong with measurements, by what they were taken for. `wording` has a sentence for each. */
export const surveyCodes = [
  "tapes:too-few", "tapes:one-place", "tapes:apart", "tapes:inside", "tapes:which-side", "tapes:in-line", "tapes:weak", "tapes:disagree", "tapes:unsettled",
  "ring:too-few", "ring:no-corner", "ring:open", "ring:triangle", "ring:loose", "ring:flat", "ring:disagree", "ring:crossed", "ring:unsettled",
  "offsets:one-place", "ground:in-line", "ground:weak", "ground:uneven", "angle:below", "angle:steep", "angle:short", "chain:unknown", "chain:circle", "chain:long", "chain:moved", "chain:left",
] as const;
export type SurveyCode = (typeof surveyCodes)[number];

/** Something to mend or to mind, as data. */
export interface SurveyNote {
  readonly code: SurveyCode;
  /** What to measure again, or in addition: names of tapes, known points, distances between corners (`0-2`) or spots, as the code says. */
  readonly again: readonly string[];
  /** By how much it does not come together, mm, where that can be told. */
  readonly by: number | null;
}

/** What was worked out, with what to mind; or why nothing can be. */
export type Surveyed<T> =
  | { readonly ok: true; readonly value: T; readonly warnings: readonly SurveyNote[] }
  | { readonly ok: false; readonly faults: readonly SurveyNote[] };

/** A position worked out from known points. */
export interface Placement {
  readonly at: SitePoint;
  readonly spread: Spread;
  readonly ellipse: ErrorEllipse;
  /** How the position moves as each known point does: rows of a matrix, mm per mm. For errors that go on through a chain. */
  readonly follows: readonly { readonly from: Known; readonly rows: Rows }[];
}

/** How one reading agrees with all of the others. */
export interface Agreement {
  readonly name: string;
  /** Read less worked out, mm. */
  readonly misfit: number;
  /** The misfit in its own standard errors; 0 where nothing else checks the reading. */
  readonly standardized: number;
  /** What the others together say it should be less what was read, mm; null where nothing else checks it. */
  readonly offBy: number | null;
}

export function refused<T>(...faults: SurveyNote[]): Surveyed<T> {
  return { ok: false, faults };
}

export function note(code: SurveyCode, again: readonly string[] = [], by: number | null = null): SurveyNote {
  return { code, again, by };
}
