import { outlineFault, sitePoint, type Point, type SitePoint } from "@/lib/plane";
import { doubtful, leastSquares, type Linearised, type Solution } from "./least-squares";
import type { Matrix } from "./linear";
import { carriedCovariance } from "./propagation";
import { startingRing, type RingDistance } from "./ring-start";
import { surveyTolerances, type SurveyTolerances } from "./tolerances";
import { note, refused, type Agreement, type Spread, type Surveyed } from "./types";

export type { RingDistance } from "./ring-start";

export interface RingOptions {
  /** Corners that point into the outline; all others point out of it. */
  readonly inward?: readonly number[];
  readonly tolerances?: SurveyTolerances;
}

/** An outline by its sides and diagonals, in the site frame. */
export interface Ring {
  /** Counterclockwise from the corner to the right of the entry edge, seen from the road: that edge runs from the last one to it, with the origin in its middle and x square to it. */
  readonly corners: readonly SitePoint[];
  /** Of the corners as they lie to each other: relative to the frame that they make themselves. */
  readonly spreads: readonly Spread[];
  readonly distances: readonly Agreement[];
  /** Root mean square of the misfits over the redundancy, mm; null where nothing is checked. */
  readonly misfit: number | null;
  /** The most by which a distance differs from what all the others make it, mm; null where nothing is checked. */
  readonly closing: number | null;
  readonly redundancy: number;
}

/**
 * The outline that has these sides and diagonals. `count` corners are numbered from 0, which is where the entry edge
 * ends for who walks the ring counterclockwise; sides run from each corner to the next. Refused where a side is longer than the way
 * round, three distances make no triangle, too few hold the corners in place, or they contradict each other beyond their errors.
 */
export function closeRing(count: number, distances: readonly RingDistance[], options: RingOptions = {}): Surveyed<Ring> {
  const { inward = [], tolerances = surveyTolerances } = options;
  const start = startingRing(count, distances, inward, tolerances);
  if (!start.ok) return start;
  const end = leastSquares(unknownsOf(start.value), (values) => linearised(count, distances, values), tolerances);
  if (end.ended !== "settled") return refused(note(end.ended === "rounds" ? "ring:unsettled" : "ring:flat"));
  const { solution } = end, again = doubtful(solution, tolerances);
  if (again.length > 0) return refused(note("ring:disagree", again.map((i) => distances[i]!.name), Math.abs(solution.offBy[again[0]!] ?? 0)));
  const ring = ringOf(count, distances, solution);
  return outlineFault(ring.corners) ? refused(note("ring:crossed")) : { ok: true, value: ring, warnings: [] };
}

/** Corner 0 is held, and corner 1 on the line through it along x: what is left are the unknowns. */
function unknownsOf(corners: readonly Point[]): number[] {
  return [corners[1]![0], ...corners.slice(2).flat()];
}

function cornersOf(count: number, values: readonly number[]): Point[] {
  const placed: Point[] = [[0, 0], [values[0]!, 0]];
  for (let k = 2; k < count; k++) placed.push([values[2 * k - 3]!, values[2 * k - 2]!]);
  return placed;
}

/** A distance said to be exact is weighed as one of so much error, mm. */
const LEAST_ERROR = 0.01;

function linearised(count: number, distances: readonly RingDistance[], values: readonly number[]): Linearised {
  const corners = cornersOf(count, values);
  const misfits: number[] = [], slopes: number[][] = [];
  for (const { from, to, length } of distances) {
    const [ax, ay] = corners[from]!, [bx, by] = corners[to]!, between = Math.hypot(bx - ax, by - ay);
    const u: Point = between === 0 ? [0, 0] : [(bx - ax) / between, (by - ay) / between];
    const row = new Array<number>(2 * count - 3).fill(0);
    addSlope(row, from, u, -1);
    addSlope(row, to, u, 1);
    misfits.push(length - between);
    slopes.push(row);
  }
  const covariance = distances.map(({ error }, i) => distances.map((_, k) => (i === k ? Math.max(error, LEAST_ERROR) ** 2 : 0)));
  return { misfits, slopes, covariance };
}

function addSlope(row: number[], corner: number, [ux, uy]: Point, sign: 1 | -1): void {
  if (corner === 1) row[0]! += sign * ux;
  if (corner < 2) return;
  row[2 * corner - 3]! += sign * ux;
  row[2 * corner - 2]! += sign * uy;
}

function ringOf(count: number, distances: readonly RingDistance[], { values, covariance, misfits, standardized, offBy, redundancy }: Solution): Ring {
  const inFrame = (v: readonly number[]) => inSiteFrame(cornersOf(count, v)).flat();
  const carried: Matrix = carriedCovariance(inFrame, values, covariance);
  const flat = inFrame(values), corners = Array.from({ length: count }, (_, k) => sitePoint(flat[2 * k]!, flat[2 * k + 1]!));
  const checks = offBy.flatMap((off) => (off === null ? [] : [Math.abs(off)]));
  return {
    corners, redundancy,
    spreads: corners.map((_, k) => ({ xx: carried[2 * k]![2 * k]!, xy: carried[2 * k]![2 * k + 1]!, yy: carried[2 * k + 1]![2 * k + 1]! })),
    distances: distances.map(({ name }, i) => ({ name, misfit: misfits[i]!, standardized: standardized[i]!, offBy: offBy[i]! })),
    misfit: redundancy > 0 ? Math.sqrt(misfits.reduce((sum, m) => sum + m * m, 0) / redundancy) : null,
    closing: checks.length > 0 ? Math.max(...checks) : null,
  };
}

/** Turned and moved so that the edge from the last corner to the first lies on x = 0 with its middle in the origin. */
function inSiteFrame(corners: readonly Point[]): Point[] {
  const first = corners[0]!, last = corners.at(-1)!;
  const mx = (first[0] + last[0]) / 2, my = (first[1] + last[1]) / 2, edge = Math.hypot(last[0] - first[0], last[1] - first[1]);
  const yx = (last[0] - first[0]) / edge, yy = (last[1] - first[1]) / edge; // where +y points
  return corners.map(([x, y]) => [(x - mx) * yy - (y - my) * yx, (x - mx) * yx + (y - my) * yy]);
}
