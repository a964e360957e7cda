import { mm, type Mm, type Radians } from "@/lib/measure";
import type { SitePoint } from "@/lib/plane";
import type { Combination } from "./combination";
import { wrapped, type BodyPose } from "./frames";
import { integrate, stateWithin, type Step, type Stepping } from "./integrate";
import { posesOf, rollsForward, writeRates } from "./motion";
import type { Path } from "./path";
import type { TurningTolerances } from "./tolerances";

/** Which way everything faces at the start: the vehicle's heading, and by how much each unit lags behind what draws it. */
export interface StartAngles {
  readonly heading: Radians;
  readonly hitches: readonly Radians[];
}

/** Where everything stands at one moment. */
export interface Configuration {
  /** How far the front axle has come along its path. */
  readonly along: Mm;
  readonly front: SitePoint;
  /** How far the front wheels are turned, to the left above zero. In reverse too. */
  readonly steer: Radians;
  /** Heading of what draws a unit less the unit's own, for each unit: above zero where the train bends as in a left turn. */
  readonly hitches: readonly Radians[];
  /** The vehicle's, then the units'. */
  readonly poses: readonly BodyPose[];
}

export interface Drive {
  readonly combination: Combination;
  readonly path: Path;
  /** How far the drive was followed: the path's length, or less where the budget ran out. */
  readonly reached: Mm;
  readonly complete: boolean;
  readonly steps: readonly Step[];
  /** Steps tried on the way. */
  readonly tries: number;
  /** At any distance along the path; beyond what was reached, as at its end. */
  readonly at: (along: number) => Configuration;
}

/** Everything in line behind a front axle that sets out along its path. */
export function inLine({ units }: Combination, path: Path): StartAngles {
  return { heading: path.start.heading, hitches: units.map(() => 0 as Radians) };
}

/** The angles of a moment, to set out from. */
export function anglesOf({ hitches, poses }: Configuration): StartAngles {
  return { heading: poses[0]!.heading, hitches };
}

/**
 * Follows a path with the middle of the front axle. Driven forwards where the vehicle faces along the path, in reverse
 * where it faces the other way: the equations are the same. Pieces are followed one by one, as curvature jumps between them.
 */
export function driveAlong(combination: Combination, path: Path, start: StartAngles, tolerances: TurningTolerances): Drive {
  if (start.hitches.length !== combination.units.length) throw new RangeError(`needs ${combination.units.length} hitch angles to start from, got ${start.hitches.length}`);
  const steps: Step[] = [];
  let state: Float64Array = Float64Array.from([wrapped(path.start.heading - start.heading), ...start.hitches]), reached = 0, tries = 0;
  for (let i = 0; i < path.pieces.length; i++) {
    const { length, from, to } = path.pieces[i]!, begin = path.starts[i]!, end = path.starts[i + 1]!, growth = (to - from) / length;
    const stepping = steppingFor(combination, path, from === to, tolerances, tolerances.budget - tries);
    const run = integrate((along, angles, out) => writeRates(combination, from + growth * (along - begin), angles, out), begin, end, state, stepping);
    for (const step of run.steps) steps.push(step);
    state = run.end;
    reached = run.reached;
    tries += run.tries;
    if (reached < end) break;
  }
  return { combination, path, reached: mm(reached), complete: reached === path.length, steps, tries, at: configurations(combination, path, steps) };
}

/**
 * Steps no longer than this share of a unit: the drawbar's turn within one is then small enough to be looked at by a
 * few points.
 */
const STEP_SHARE = 0.5;

function steppingFor(combination: Combination, path: Path, even: boolean, { angle }: TurningTolerances, budget: number): Stepping {
  const { vehicle, units } = combination;
  const total = vehicle.wheelbase + units.reduce((sum, u) => sum + u.hitchToAxle, 0);
  return {
    errorPerLength: angle / path.length,
    longestStep: total * STEP_SHARE,
    budget,
    // On a circle or a straight a train rolling forwards only draws in further: what is left of the change is below the tolerance.
    isStill: (state, rates, rest) => even && (rates.every((r) => r === 0) || (rollsForward(combination, state) && rates.every((r) => Math.abs(r) * rest < angle / 10))),
  };
}

function configurations(combination: Combination, path: Path, steps: readonly Step[]): (along: number) => Configuration {
  const angles = new Float64Array(combination.units.length + 1), last = steps.at(-1)!;
  return (asked) => {
    const along = Math.min(last.from + last.length, Math.max(0, asked)), step = stepAt(steps, along);
    stateWithin(step, (along - step.from) / step.length, angles);
    const point = path.pointAt(along);
    return { along: mm(along), front: point.at, steer: steerOf(angles[0]!), hitches: Array.from(angles.subarray(1)) as Radians[], poses: posesOf(combination, point, angles) };
  };
}

/** Wheels have no front and back: in reverse the path leads the other way, the wheels do not. */
function steerOf(ahead: number): Radians {
  return Math.atan2(Math.sin(ahead) * Math.sign(Math.cos(ahead) || 1), Math.abs(Math.cos(ahead))) as Radians;
}

function stepAt(steps: readonly Step[], along: number): Step {
  let low = 0, high = steps.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (steps[middle]!.from <= along) low = middle;
    else high = middle - 1;
  }
  return steps[low]!;
}
