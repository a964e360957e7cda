import { describe, expect, it } from "vitest";
import { degreesFromRadians, mm, radiansFromDegrees } from "@/lib/measure";
import { sitePoint } from "@/lib/plane";
import { bendAfterStraight, defaultTolerances, driveAlong, makeCombination, makePath, makeTurn, steadyTurn, straight, sumOfSquaresOfftracking, type Combination } from "@/lib/turning";
import { answerTurning, turningRequestSchema } from "@/lib/turning/request";
import { pullThrough } from "../checker/pulled-train";

const FOOT = 304.8;

/**
 * Minimum design vehicles of AASHTO, A Policy on Geometric Design of Highways and Streets (Green Book), 2011 dimensions; feet. Inside radii read
 * in restatements, those of MH and P/T from memory; all centreline radii (CTR) from memory. The 2004 edition's trailer of P/T
 * is 19.0 ft from hitch to axle: do not mix. Overhangs do not touch the inside radius and are not the book's.
 */
const PUBLISHED = [
  { name: "P, passenger car", ctr: 21.0, wheelbase: 11.0, width: 7.0, inside: 14.4, status: "read, CTR from memory" },
  { name: "City bus", ctr: 37.8, wheelbase: 25.0, width: 8.5, inside: 24.5, status: "read, CTR from memory" },
  { name: "WB-62, tractor and semitrailer", ctr: 41.0, wheelbase: 19.5, width: 8.5, unit: { behind: 0, toAxle: 41.0 }, inside: 7.4, status: "read, CTR from memory" },
  { name: "MH, motor home", ctr: 36.0, wheelbase: 20.0, width: 8.0, inside: 26.0, status: "from memory" },
  { name: "P/T, car and camper trailer", ctr: 30.0, wheelbase: 11.0, width: 8.0, unit: { behind: 5.0, toAxle: 17.7 }, inside: 18.3, status: "from memory" },
];

function requestFor({ wheelbase, width, unit, ctr }: (typeof PUBLISHED)[number]) {
  const units = unit ? [{ hitchBehindAxle: unit.behind * FOOT, hitchToAxle: unit.toAxle * FOOT, width: width * FOOT, rearOverhang: 3 * FOOT }] : [];
  return turningRequestSchema.parse({ vehicle: { width: width * FOOT, wheelbase: wheelbase * FOOT, frontOverhang: 3 * FOOT, rearOverhang: 3 * FOOT, units }, arc: { radius: ctr * FOOT, degrees: 180 } });
}

describe("inside radius of a 180 degree turn (AASHTO Green Book, 2011)", () => {
  it.each(PUBLISHED)("$name: $inside ft ($status)", (published) => {
    expect(Math.abs(answerTurning(requestFor(published))!.insideRadius / FOOT - published.inside)).toBeLessThanOrEqual(0.05);
  });

  it.each(PUBLISHED)("$name: a train pulled in small moves agrees to 2 mm, outside radius included", (published) => {
    const { vehicle, arc } = requestFor(published), answer = answerTurning(requestFor(published))!;
    const pulled = pullThrough(vehicle, arc.radius, arc.degrees, 1);
    expect(Math.abs(answer.insideRadius - (pulled.nearest - vehicle.width / 2))).toBeLessThan(2);
    expect(Math.abs(answer.outsideRadius - pulled.outermost)).toBeLessThan(2);
    expect(answer.maxOfftracking).toBeCloseTo(arc.radius - vehicle.width / 2 - answer.insideRadius, 1);
  });
});

const one = (wheelbase: number, behind: number, toAxle: number): Combination => makeCombination({
  vehicle: { wheelbase, frontOverhang: 900, rearOverhang: 900, width: 2000 }, units: [{ hitchBehindAxle: behind, hitchToAxle: toAxle, width: 2400, rearOverhang: 1500 }],
});

// tan(bend / 2) = tan(bend0 / 2) exp(-s / d): the tractrix of a straight line; 30 degrees and d = 17.7 ft.
describe("a trailer pulled straight", () => {
  const d = 17.7 * FOOT;

  it.each([[17.7, 11.259], [35.4, 4.154]])("bends by %d ft later: %d degrees, in closed form and integrated", (feet, degrees) => {
    expect(degreesFromRadians(bendAfterStraight(radiansFromDegrees(30), d, feet * FOOT))).toBeCloseTo(degrees, 3);
    const train = one(4000, 1500, d), path = makePath({ at: sitePoint(0, 0), heading: radiansFromDegrees(0) }, [straight(feet * FOOT)]);
    const drive = driveAlong(train, path, { heading: radiansFromDegrees(0), hitches: [radiansFromDegrees(30)] }, defaultTolerances);
    expect(degreesFromRadians(drive.at(feet * FOOT).hitches[0]!)).toBeCloseTo(degrees, 3);
    expect(drive.at(feet * FOOT).hitches[0]).toBeCloseTo(bendAfterStraight(radiansFromDegrees(30), d, feet * FOOT), 7);
  });
});

// Steady: sin(bend) = d / R for a hitch over the axle; none when d >= R. One trailer: LaValle, Planning Algorithms (2006), section 13.1.2.4 (read).
describe("going round and round", () => {
  const radius = mm(12_000), round = { radius, angle: radiansFromDegrees(1440) };

  it("settles at sin(bend) = d / R, R the hitch's radius", () => {
    const train = one(4000, 0, 6000), hitchRadius = Math.sqrt(12_000 ** 2 - 4000 ** 2);
    const turn = makeTurn(train, round, defaultTolerances);
    if (turn.ended !== "done") throw new Error(turn.ended);
    expect(turn.sharpestHitches[0]).toBeCloseTo(Math.asin(6000 / hitchRadius), 6);
    expect(steadyTurn(train, 12_000)![1]!.hitch).toBeCloseTo(Math.asin(6000 / hitchRadius), 12);
    expect(steadyTurn(one(4000, 0, hitchRadius), 12_000)).toBeNull();
    expect(steadyTurn(one(4000, 0, hitchRadius - 1), 12_000)).not.toBeNull();
  });

  // Western Highway Institute, offtracking by the sum of squares (from memory): R - sqrt(R^2 - (L1^2 - S^2 + T^2)).
  it.each([[4000, 1500, 6000], [3600, -900, 9000], [6100, 0, 7000]])("offtracks by the sum of squares: %d, %d, %d", (wheelbase, behind, toAxle) => {
    const train = one(wheelbase, behind, toAxle), formula = 12_000 - Math.sqrt(12_000 ** 2 - (wheelbase ** 2 - behind ** 2 + toAxle ** 2));
    expect(sumOfSquaresOfftracking(train, 12_000)).toBeCloseTo(formula, 9);
    expect(12_000 - steadyTurn(train, 12_000)!.at(-1)!.axleRadius).toBeCloseTo(formula, 9);
    const turn = makeTurn(train, round, defaultTolerances);
    if (turn.ended !== "done") throw new Error(turn.ended);
    const { poses } = turn.drive.at(turn.drive.path.starts[2]!);
    expect(12_000 - Math.hypot(poses[1]!.axle[0], poses[1]!.axle[1] - 12_000)).toBeCloseTo(formula, 2);
  });
});
