import { z } from "zod";
import { across, extent, length, list, optional, radiansFromDegrees, type Radians } from "@/lib/measure";
import { makeCombination, type Combination } from "./combination";
import { defaultTolerances } from "./tolerances";
import { makeTurn, passesHitchLimit, type Arc } from "./turn";

/** More units than this are drawn nowhere on a road. */
export const MAX_UNITS = 8;
/** Ten times round: any train that has a steady state has long reached it. */
export const MAX_DEGREES = 3600;
/** Axle to axle, or hitch to axle. Shorter ones are another unit or a slip, and a motion in steps of their size takes forever. */
const SHORTEST = 100;
/** No vehicle and no drawbar is longer, mm. */
const LONGEST = 100_000;

const base = extent.min(SHORTEST, `must be at least ${SHORTEST} mm: are these millimetres?`).max(LONGEST, `is more than ${LONGEST / 1000} m: are these millimetres?`);
const number = (what: string) => z.number({ error: (issue) => `${what}, got ${JSON.stringify(issue.input) ?? "nothing"}` });
const degrees = number("must be an angle in degrees").gt(0, "must be more than 0 degrees");

const unitSchema = z.object({
  hitchBehindAxle: number("must be a distance in millimetres").min(-LONGEST).max(LONGEST).describe("From the (rear) axle of what draws it back to the hitch (mm). Below zero for a hitch ahead of that axle."),
  hitchToAxle: base.describe("From the hitch to the middle of this unit's axles (mm)."),
  width: extent.max(LONGEST).describe("Of its body (mm)."),
  rearOverhang: length.max(LONGEST).describe("Body behind the axle (mm). The body begins at the hitch."),
}, "must be an object: { hitchBehindAxle, hitchToAxle, width, rearOverhang }");

/** A turn to be judged: lengths in millimetres, angles in degrees. */
export const turningRequestSchema = z
  .object({
    vehicle: z.object({
      width: extent.max(LONGEST).describe("Of its body (mm)."),
      wheelbase: base.describe("From the front axle to the middle of the rear axles (mm)."),
      frontOverhang: length.max(LONGEST).describe("Body ahead of the front axle (mm)."),
      rearOverhang: length.max(LONGEST).describe("Body behind the rear axle (mm)."),
      units: list(unitSchema, MAX_UNITS, "must be a list of units").describe(`What it draws, first to last, at most ${MAX_UNITS}. Left out: nothing.`),
    }, "must be an object: { width, wheelbase, frontOverhang, rearOverhang, units }").describe("A front-steered vehicle with what it draws."),
    arc: z.object({
      radius: extent.describe("Of the arc that the middle of the front axle follows (mm). More than the wheelbase."),
      degrees: degrees.max(MAX_DEGREES, `must be at most ${MAX_DEGREES} degrees`).describe("How far it turns. To the left or to the right makes no difference."),
    }, "must be an object: { radius, degrees }").describe("The middle of the front axle drives straight, then this arc, then straight until the last unit has come out of it."),
    maxHitchAngle: optional(degrees.max(180, "must be at most 180 degrees")).describe("The bend at a hitch beyond which it jackknifes (degrees). Left out: 90."),
  }, "must be an object: { vehicle, arc }")
  .check(across(({ vehicle, arc }, fault) => {
    const wheelbase: unknown = vehicle?.wheelbase, radius: unknown = arc?.radius;
    if (typeof wheelbase !== "number" || typeof radius !== "number" || !(radius > 0) || radius > wheelbase) return;
    fault(["arc", "radius"], `must be more than the wheelbase of ${wheelbase} mm, got ${radius}: the front wheels cannot follow a circle that tight`);
  }));

export type TurningRequest = z.infer<typeof turningRequestSchema>;
export type TurningRequestInput = z.input<typeof turningRequestSchema>;

/** Lengths in millimetres, to a hundredth. */
export const turningAnswerSchema = z.object({
  insideRadius: z.number().describe("Least distance of the last axle's middle from the arc's center, less half the width of the last unit (mm). Below zero where its body passes over the center."),
  outsideRadius: z.number().describe("Greatest distance of any body corner from the arc's center while that corner is beside the arc, between the lines from the center through the arc's ends (mm)."),
  maxOfftracking: z.number().describe("How far the last axle's middle runs inside the front axle's circle at the most (mm); 0 where it never does."),
  jackknifes: z.boolean().describe("Some hitch bends further than maxHitchAngle. The other numbers are then of the motion as if it could."),
});

export type TurningAnswer = Readonly<z.infer<typeof turningAnswerSchema>>;

/** A call is answered while others wait: so many steps take a quarter of a second at the most. Eight ordinary trailers going ten times round take 1,300. */
const TOLERANCES = { ...defaultTolerances, budget: 2_000 };
/** What takes more, as a train folded up that goes on spinning, is followed to a tenth of a millimetre at 100 m instead of a thousandth. */
const COARSER = { ...TOLERANCES, angle: 1e-6 as Radians };

/** Bends beyond this many degrees where the request names no other limit. */
const JACKKNIFE = 90;

/** Null where the turn takes more steps than are allowed: only shapes far from any vehicle's can bring that about. */
export function answerTurning(request: TurningRequest): TurningAnswer | null {
  const combination = combinationOf(request), arc = arcOf(request), exact = makeTurn(combination, arc, TOLERANCES);
  const turn = exact.ended === "budget" ? makeTurn(combination, arc, COARSER) : exact;
  if (turn.ended === "budget") return null;
  const limit = radiansFromDegrees(request.maxHitchAngle ?? JACKKNIFE);
  return {
    insideRadius: hundredths(turn.insideRadius),
    outsideRadius: hundredths(turn.outsideRadius),
    maxOfftracking: hundredths(turn.maxOfftracking),
    jackknifes: passesHitchLimit(turn, limit, TOLERANCES),
  };
}

function combinationOf({ vehicle }: TurningRequest): Combination {
  return makeCombination({ vehicle, units: vehicle.units });
}

function arcOf({ arc }: TurningRequest): Arc {
  return { radius: arc.radius as Arc["radius"], angle: radiansFromDegrees(arc.degrees) as Radians };
}

function hundredths(value: number): number {
  return Math.round(value * 100) / 100;
}
