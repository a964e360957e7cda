import { radiansFromDegrees, type Radians } from "@/lib/measure";
import { sitePoint, type SitePoint } from "@/lib/plane";
import { hitchOf, isMotorized, steeringOf, type AssumedField, type AssumedNumber, type Rig, type Steering } from "@/lib/rig";
import { bodyPoint, largestSteer, makeCombination, smallestFrontRadius, type BodyPoint, type Combination, type CombinationInput, type StartAngles } from "@/lib/turning";
import type { Meeting, ParkedPose } from "./types";

/** A box fixed to a vehicle or unit of the train, between two heights. Millimetres, in that body's frame. */
export interface TrainBox {
  readonly part: Meeting["part"];
  readonly u0: number;
  readonly u1: number;
  readonly halfWidth: number;
  readonly from: number;
  readonly to: number;
}

/** A rig as it drives: everything folded in, whatever draws it in front. */
export interface Train {
  readonly combination: Combination;
  /** For each body of the combination. */
  readonly boxes: readonly (readonly TrainBox[])[];
  /** No path of the front axle may bend more, 1/mm. */
  readonly sharpest: number;
  /** How far its wheels turn, radians. */
  readonly lock: Radians;
  readonly maxBend: Radians | null;
  readonly driver: "left" | "right";
  /** Which body of the combination is the rig itself, and where that body's axle lies along the rig frame's u. */
  readonly rigBody: 0 | 1;
  readonly rigAxle: number;
  /** How far what the rig stands on reaches from that axle's middle: ahead, behind, and to the left and right, mm. */
  readonly footprint: { readonly ahead: number; readonly behind: number; readonly left: number; readonly right: number };
  /** Of the rig's own body. */
  readonly floor: number;
  readonly assumed: readonly AssumedNumber[];
}

/** `numbers` stand in for what nobody has told of the rig. */
export function trainOf(rig: Rig, numbers: Partial<Record<AssumedField, number>> = {}): Train {
  const steering = steeringOf(rig, numbers), motorized = isMotorized(rig.kind), { drawn } = steering;
  const combination = makeCombination(inputOf(rig, steering));
  const tyres = rig.supports.filter(({ kind }) => kind === "tyre").map(({ at }) => at[0]);
  const trailerAxle = tyres.reduce((sum, u) => sum + u, 0) / tyres.length;
  return {
    combination, driver: steering.driver, floor: rig.body.floor, assumed: steering.assumed,
    boxes: motorized ? motorizedBoxes(rig, steering) : [[vehicleBox(steering)], trailerBoxes(rig, trailerAxle)],
    sharpest: 1 / smallestFrontRadius(combination.vehicle)!, lock: largestSteer(combination.vehicle)!,
    maxBend: drawn ? radiansFromDegrees(drawn.maxHitchAngle) : null,
    rigBody: motorized ? 0 : 1, rigAxle: motorized ? steering.rearOverhang : trailerAxle,
    footprint: footprintOf(rig, motorized ? steering.rearOverhang : trailerAxle),
  };
}

function footprintOf({ supports }: Rig, axle: number): Train["footprint"] {
  const us = supports.map(({ at }) => at[0]), vs = supports.map(({ at }) => at[1]);
  return { ahead: Math.max(...us) - axle, behind: axle - Math.min(...us), left: Math.max(...vs), right: -Math.min(...vs) };
}

/** A train on a pose: where the middle of its front axle stands, which way what steers faces, and the bends behind it. */
export interface Parked {
  readonly at: SitePoint;
  readonly angles: StartAngles;
}

/** `bend` at the hitch of a trailer, radians to the left; of no meaning for a rig that steers itself, whose towed car follows in line. */
export function parkedOn({ combination, rigBody, rigAxle }: Train, { x, y, heading }: ParkedPose, bend = 0): Parked {
  const { vehicle, units } = combination, unit = units[0], facing = heading === "tail-in" ? -1 : 1, base = heading === "tail-in" ? Math.PI : 0;
  if (rigBody === 0 || !unit) return { at: sitePoint(x + facing * (rigAxle + vehicle.wheelbase), y), angles: { heading: base as Radians, hitches: units.map(() => 0 as Radians) } };
  const hitch = x + facing * (rigAxle + unit.hitchToAxle), ahead = unit.hitchBehindAxle + vehicle.wheelbase, angle = base + bend;
  return { at: sitePoint(hitch + ahead * Math.cos(angle), y + ahead * Math.sin(angle)), angles: { heading: angle as Radians, hitches: [bend as Radians] } };
}

/** The corners of a box, in its body's frame. */
export function cornersOf({ u0, u1, halfWidth }: TrainBox): BodyPoint[] {
  return [bodyPoint(u1, halfWidth), bodyPoint(u1, -halfWidth), bodyPoint(u0, -halfWidth), bodyPoint(u0, halfWidth)];
}

function inputOf({ body, tow, kind }: Rig, s: Steering): CombinationInput {
  const { wheelbase, frontOverhang, rearOverhang, width, track, axleSpread, turningCircle, drawn } = s;
  const units = drawn ? [{ ...drawn, frontOverhang: Math.max(drawn.frontOverhang, 1 - drawn.hitchToAxle - drawn.rearOverhang), width: isMotorized(kind) ? tow!.width : body.width }] : [];
  return { vehicle: { wheelbase, frontOverhang, rearOverhang, width, track, axleSpread, turningCircle }, units };
}

/** Cars and pickups stand at least this high above the ground between their wheels, mm (common practice). */
const UNDER_CAR = 150;

function vehicleBox({ wheelbase, frontOverhang, rearOverhang, width, height }: Steering): TrainBox {
  return { part: "vehicle", u0: -rearOverhang, u1: wheelbase + frontOverhang, halfWidth: width / 2, from: UNDER_CAR, to: height };
}

function motorizedBoxes({ body, tow }: Rig, { rearOverhang, drawn }: Steering): TrainBox[][] {
  const own: TrainBox = { part: "body", u0: -rearOverhang, u1: body.length - rearOverhang, halfWidth: body.width / 2, from: body.floor, to: body.height };
  if (!drawn || !tow) return [[own]];
  return [[own], [{ part: "tow", u0: -drawn.rearOverhang, u1: drawn.hitchToAxle + drawn.frontOverhang, halfWidth: tow.width / 2, from: UNDER_CAR, to: tow.height }]];
}

function trailerBoxes(rig: Rig, axle: number): TrainBox[] {
  const { body, hitch } = rig, boxes: TrainBox[] = [{ part: "body", u0: -axle, u1: body.length - axle, halfWidth: body.width / 2, from: body.floor, to: body.height }];
  const tip = hitchOf(rig) - axle;
  if (hitch && tip > body.length - axle) boxes.push({ part: "hitch", u0: body.length - axle, u1: tip, halfWidth: hitch.width / 2, from: hitch.from, to: hitch.to });
  return boxes;
}
