import { sitePoint, type Point } from "@/lib/plane";
import { doubtful, leastSquares, type Linearised, type Solution } from "./least-squares";
import { apartUnlessOne, ellipseOf, errorToward, spreadOf } from "./spread";
import { surveyTolerances, type SurveyTolerances } from "./tolerances";
import { note, refused, type Agreement, type Known, type Placement, type Rows, type Shared, type Surveyed, type SurveyNote } from "./types";

/** A distance from a known point, mm, with its standard error. */
export interface Tape {
  readonly name: string;
  readonly from: Known;
  readonly distance: number;
  readonly error: number;
}

/** Of the line from the first known point to the next one that lies elsewhere, for who looks along it. */
export type Side = "left" | "right";

export interface TapeOptions {
  readonly side?: Side;
  readonly shared?: Shared;
  readonly tolerances?: SurveyTolerances;
}

export interface TapePlacement extends Placement {
  readonly tapes: readonly Agreement[];
  /** Root mean square of the misfits over the redundancy, mm; null with two tapes, which nothing checks. */
  readonly misfit: number | null;
  readonly chiSquare: number;
  readonly redundancy: number;
}

/**
 * Where a point stands by its distances from known points: two give it on either side of their line, more by weighted
 * least squares, their own errors and those of the known points counted. Refused where the tapes cannot meet or leave
 * the side open. A point right on the line of its known points is refused: its side and error cannot be told.
 */
export function placeByTapes(tapes: readonly Tape[], options: TapeOptions = {}): Surveyed<TapePlacement> {
  const { shared = apartUnlessOne, tolerances = surveyTolerances } = options;
  if (tapes.length < 2) return refused(note("tapes:too-few", tapes.map(({ name }) => name)));
  const base = baseOf(tapes, tolerances);
  if (!base) return refused(note("tapes:one-place", tapes.map(({ name }) => name)));
  const impossible = impossiblePair(tapes, shared, tolerances);
  if (impossible && tapes.length === 2) return refused(impossible);
  const { solutions, unsettled } = solve(tapes, base, shared, tolerances);
  const [first] = solutions;
  if (!first) return refused(note(unsettled ? "tapes:unsettled" : "tapes:in-line", base.map(({ name }) => name)));
  if (impossible) return refused({ ...impossible, again: culprits(tapes, first, shared, tolerances)?.again ?? impossible.again });
  const chosen = chooseSide(solutions, base, options.side, tolerances);
  if (!chosen.ok) return chosen;
  if (longest(chosen.value) > tolerances.hopeless * widest(tapes, chosen.value, shared)) return refused(note("tapes:in-line", base.map(({ name }) => name)));
  return { ok: true, value: placementOf(tapes, chosen.value), warnings: warningsFor(tapes, chosen.value, shared, tolerances) };
}

/** What the tapes come to on either side of the base, the better one first. */
function solve(tapes: readonly Tape[], base: readonly [Known, Known], shared: Shared, tolerances: SurveyTolerances) {
  const ends = startsFor(tapes, base).map((start) => leastSquares(start, (at) => linearised(tapes, [at[0]!, at[1]!], shared), tolerances));
  const solutions = ends.flatMap((end) => (end.ended === "settled" ? [end.solution] : [])).sort((a, b) => a.chiSquare - b.chiSquare);
  return { solutions, unsettled: ends.some(({ ended }) => ended === "rounds") };
}

/** The two points, one from the other as far as any, that a side is told by: the first, and the next elsewhere. */
function baseOf(tapes: readonly Tape[], { onePlace }: SurveyTolerances): readonly [Known, Known] | null {
  const first = tapes[0]!.from, second = tapes.find(({ from }) => distance(from.at, first.at) > onePlace);
  return second ? [first, second.from] : null;
}

/** Two tapes that cannot meet, or one of which lies inside the reach of the other: beyond what their errors explain. */
function impossiblePair(tapes: readonly Tape[], shared: Shared, { side, onePlace }: SurveyTolerances): SurveyNote | null {
  for (const [i, a] of tapes.entries()) {
    for (const b of tapes.slice(i + 1)) {
      const base = distance(a.from.at, b.from.at);
      if (base <= onePlace) continue;
      const apart = base - a.distance - b.distance, inside = Math.abs(a.distance - b.distance) - base;
      const short = Math.max(apart, inside);
      if (short > 0 && (short > side * pairError(a, b, shared) || tapes.length === 2)) return note(apart > inside ? "tapes:apart" : "tapes:inside", [a.name, b.name], short);
    }
  }
  return null;
}

function pairError(a: Tape, b: Tape, shared: Shared): number {
  const toward = unit(a.from.at, b.from.at), [[xx, xy], [yx, yy]] = shared(a.from, b.from);
  const common = toward[0] * (toward[0] * xx + toward[1] * xy) + toward[1] * (toward[0] * yx + toward[1] * yy);
  const between = errorToward(a.from.spread, toward) ** 2 + errorToward(b.from.spread, toward) ** 2 - 2 * common;
  return Math.sqrt(a.error ** 2 + b.error ** 2 + Math.max(0, between));
}

/** Pairs looked at for a place to begin from. */
const PAIRS = 60;

/** The crossing of two tapes that all of them like best, on either side of the base. */
function startsFor(tapes: readonly Tape[], [a, b]: readonly [Known, Known]): Point[] {
  const crossings: Point[] = [];
  for (let i = 0; i < tapes.length && crossings.length < 2 * PAIRS; i++) {
    for (let j = i + 1; j < tapes.length && crossings.length < 2 * PAIRS; j++) crossings.push(...crossing(tapes[i]!, tapes[j]!));
  }
  const costOf = (p: Point) => tapes.reduce((sum, tape) => sum + ((tape.distance - distance(p, tape.from.at)) / Math.max(tape.error, LEAST_ERROR)) ** 2, 0);
  return (["left", "right"] as const).flatMap((side) => {
    const there = crossings.filter((p) => sideOf(p, a.at, b.at) * SIGN[side] >= 0).map((p) => ({ p, cost: costOf(p) }));
    return there.length === 0 ? [] : [there.reduce((best, one) => (one.cost < best.cost ? one : best)).p];
  });
}

const SIGN: Readonly<Record<Side, 1 | -1>> = { left: 1, right: -1 };

/** A reading said to be exact is weighed as one of so much error, mm, so that others can be weighed against it. */
const LEAST_ERROR = 0.01;
/** Where two circles miss each other, a beginning this far off their line, as a share of the base, so that there is a side to begin on. */
const OFF_LINE = 0.05;

function crossing(a: Tape, b: Tape): Point[] {
  const base = distance(a.from.at, b.from.at);
  if (base === 0) return [];
  const [ux, uy] = unit(a.from.at, b.from.at);
  const along = (base * base + a.distance ** 2 - b.distance ** 2) / (2 * base);
  const square = a.distance ** 2 - along * along;
  const off = square > 0 ? Math.sqrt(square) : OFF_LINE * base;
  const [x, y] = [a.from.at[0] + along * ux, a.from.at[1] + along * uy];
  return [[x - off * uy, y + off * ux], [x + off * uy, y - off * ux]];
}

function linearised(tapes: readonly Tape[], at: Point, shared: Shared): Linearised {
  const toward = tapes.map(({ from }) => unit(from.at, at));
  return {
    misfits: tapes.map(({ from, distance: read }) => read - distance(at, from.at)),
    slopes: toward,
    covariance: tapes.map((a, i) => tapes.map((b, j) => {
      const [[xx, xy], [yx, yy]] = shared(a.from, b.from), [ax, ay] = toward[i]!, [bx, by] = toward[j]!;
      return ax * (xx * bx + xy * by) + ay * (yx * bx + yy * by) + (i === j ? Math.max(a.error, LEAST_ERROR) ** 2 : 0);
    })),
  };
}

function chooseSide(solutions: readonly Solution[], [a, b]: readonly [Known, Known], side: Side | undefined, tolerances: SurveyTolerances): Surveyed<Solution> {
  const [first, second] = solutions as readonly [Solution, Solution?];
  const ok = (value: Solution) => ({ ok: true, value, warnings: [] }) as const;
  const handOf = ({ values: [x, y] }: Solution) => sideOf([x!, y!], a.at, b.at);
  const names = [a.name, b.name];
  const between = second ? distance(pointOf(first), pointOf(second)) : Infinity;
  const twins = second && between > tolerances.settled * 1000 && second.chiSquare - first.chiSquare < tolerances.doubt ** 2;
  if (!twins) return side && handOf(first) * SIGN[side] < 0 && reliable(first, a, b, tolerances) ? refused(note("tapes:which-side", names)) : ok(first);
  if (between < 2 * tolerances.side * ellipseOf(spreadOf(first.covariance)).major) return refused(note("tapes:in-line", names));
  const there = side && [first, second].find((solution) => handOf(solution) * SIGN[side] > 0);
  return there ? ok(there) : refused(note("tapes:which-side", names));
}

/** Whether a solution lies clear of the line that sides are told by. */
function reliable({ values, covariance }: Solution, a: Known, b: Known, { side }: SurveyTolerances): boolean {
  const [ux, uy] = unit(a.at, b.at);
  return Math.abs(sideOf([values[0]!, values[1]!], a.at, b.at)) > side * errorToward(spreadOf(covariance), [-uy, ux]);
}

function warningsFor(tapes: readonly Tape[], solution: Solution, shared: Shared, tolerances: SurveyTolerances): SurveyNote[] {
  const major = longest(solution), again = culprits(tapes, solution, shared, tolerances);
  return [...(major > tolerances.weak * widest(tapes, solution, shared) ? [note("tapes:weak", [], major)] : []), ...(again ? [again] : [])];
}

function longest({ covariance }: Solution): number {
  return ellipseOf(spreadOf(covariance)).major;
}

/** The largest error of a reading, the known point's included, mm. */
function widest(tapes: readonly Tape[], solution: Solution, shared: Shared): number {
  return Math.sqrt(Math.max(...linearised(tapes, pointOf(solution), shared).covariance.map((row, i) => row[i]!)));
}

/**
 * The tape that disagrees most, where any does beyond chance: the one without which the others agree best. That is looked for by leaving out
 * each in turn, as a gross error drags the solution so far that misfits at it tell little. Of three tapes each pair agrees: all are named.
 */
function culprits(tapes: readonly Tape[], solution: Solution, shared: Shared, tolerances: SurveyTolerances): SurveyNote | null {
  const doubted = doubtful(solution, tolerances);
  if (doubted.length === 0) return null;
  const linear = note("tapes:disagree", doubted.map((i) => tapes[i]!.name), Math.abs(solution.offBy[doubted[0]!] ?? 0));
  if (solution.redundancy < 2) return linear;
  const without = tapes.flatMap((tape) => {
    const others = tapes.filter((one) => one !== tape), base = baseOf(others, tolerances), rest = base && solve(others, base, shared, tolerances).solutions[0];
    return rest ? [{ name: tape.name, left: rest.chiSquare, by: Math.abs(tape.distance - distance(pointOf(rest), tape.from.at)) }] : [];
  }).sort((a, b) => a.left - b.left);
  const [best] = without;
  if (!best) return linear;
  const alike = without.filter(({ left }) => left < best.left + tolerances.doubt);
  return note("tapes:disagree", alike.map(({ name }) => name), best.by);
}

function placementOf(tapes: readonly Tape[], solution: Solution): TapePlacement {
  const { covariance, misfits, standardized, offBy, follows, chiSquare, redundancy } = solution;
  const at = pointOf(solution), spread = spreadOf(covariance);
  return {
    at: sitePoint(at[0], at[1]), spread, ellipse: ellipseOf(spread), chiSquare, redundancy,
    misfit: redundancy > 0 ? Math.sqrt(misfits.reduce((sum, m) => sum + m * m, 0) / redundancy) : null,
    tapes: tapes.map(({ name }, i) => ({ name, misfit: misfits[i]!, standardized: standardized[i]!, offBy: offBy[i]! })),
    // A known point that moves away by so much is as a tape that reads so much more.
    follows: tapes.map(({ from }, i) => ({ from, rows: outer(follows.map((row) => row[i]!), unit(from.at, at)) })),
  };
}

function outer([x, y]: readonly number[], [ux, uy]: Point): Rows {
  return [[x! * ux, x! * uy], [y! * ux, y! * uy]];
}

function pointOf({ values: [x, y] }: Solution): Point {
  return [x!, y!];
}

function distance(p: Point, q: Point): number {
  return Math.hypot(p[0] - q[0], p[1] - q[1]);
}

function unit(from: Point, to: Point): Point {
  const length = distance(from, to);
  return length === 0 ? [0, 0] : [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
}

/** The distance of a point from the line a to b, above zero on its left, mm. */
function sideOf(p: Point, a: Point, b: Point): number {
  const [ux, uy] = unit(a, b);
  return ux * (p[1] - a[1]) - uy * (p[0] - a[0]);
}
