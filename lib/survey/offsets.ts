import { sitePoint, type Point } from "@/lib/plane";
import { ellipseOf, apartUnlessOne } from "./spread";
import { surveyTolerances, type SurveyTolerances } from "./tolerances";
import { note, refused, type Known, type Placement, type Rows, type Shared, type Spread, type Surveyed } from "./types";

/** How far along a base and across it to the left a point lies, mm, each with its standard error. */
export interface Offset {
  readonly along: number;
  readonly across: number;
  readonly alongError: number;
  readonly acrossError: number;
}

/** A point by its offsets from the base that runs from one known point toward another. Refused where the two are one place. */
export function placeByOffsets(offset: Offset, [a, b]: readonly [Known, Known], shared: Shared = apartUnlessOne, { onePlace }: SurveyTolerances = surveyTolerances): Surveyed<Placement> {
  const dx = b.at[0] - a.at[0], dy = b.at[1] - a.at[1], base = Math.hypot(dx, dy);
  if (base <= onePlace) return refused(note("offsets:one-place", [a.name, b.name]));
  const t: Point = [dx / base, dy / base], n: Point = [-t[1], t[0]];
  const at = sitePoint(a.at[0] + offset.along * t[0] + offset.across * n[0], a.at[1] + offset.along * t[1] + offset.across * n[1]);
  // The base turns by n · (db − da) / base, and the point with it, at right angles to where it lies.
  const arm: Point = [(offset.along * n[0] - offset.across * t[0]) / base, (offset.along * n[1] - offset.across * t[1]) / base];
  const withB: Rows = [[arm[0] * n[0], arm[0] * n[1]], [arm[1] * n[0], arm[1] * n[1]]];
  const withA: Rows = [[1 - withB[0][0], -withB[0][1]], [-withB[1][0], 1 - withB[1][1]]];
  const follows = [{ from: a, rows: withA }, { from: b, rows: withB }];
  const read = readingSpread(offset, t, n), known = carriedSpread(follows, shared);
  const spread = { xx: read.xx + known.xx, xy: read.xy + known.xy, yy: read.yy + known.yy };
  return { ok: true, value: { at, spread, ellipse: ellipseOf(spread), follows }, warnings: [] };
}

function readingSpread({ alongError, acrossError }: Offset, t: Point, n: Point): Spread {
  const a = alongError ** 2, c = acrossError ** 2;
  return { xx: a * t[0] * t[0] + c * n[0] * n[0], xy: a * t[0] * t[1] + c * n[0] * n[1], yy: a * t[1] * t[1] + c * n[1] * n[1] };
}

/** What the errors of the known points come to at a point that follows them. */
export function carriedSpread(follows: Placement["follows"], shared: Shared): Spread {
  let xx = 0, xy = 0, yy = 0;
  for (const a of follows) {
    for (const b of follows) {
      const m = timesTransposed(times(a.rows, shared(a.from, b.from)), b.rows);
      xx += m[0][0]; xy += (m[0][1] + m[1][0]) / 2; yy += m[1][1];
    }
  }
  return { xx, xy, yy };
}

export function times([[a, b], [c, d]]: Rows, [[e, f], [g, h]]: Rows): Rows {
  return [[a * e + b * g, a * f + b * h], [c * e + d * g, c * f + d * h]];
}

function timesTransposed(a: Rows, [[e, f], [g, h]]: Rows): Rows {
  return times(a, [[e, g], [f, h]]);
}
