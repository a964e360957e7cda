import { mm, type Mm, type Radians } from "@/lib/measure";
import type { Combination } from "./combination";

/**
 * What is known exactly, to hold the integration to and to answer quick questions. All of it follows from the right angles between an
 * axle's way and the line to the centre it turns about.
 */

/** One vehicle or unit in its steady state on a circle: its axle rolls at `axleRadius`, bent by `hitch` behind what draws it. */
export interface SteadyUnit {
  readonly axleRadius: Mm;
  /** The vehicle's: 0. */
  readonly hitch: Radians;
}

/**
 * The steady state behind a front axle that rolls round and round at a radius; null where there is none, a drawbar being as long as
 * its hitch's radius, or longer: the train then folds up. (A drawbar that just reaches the centre counts as none.)
 */
export function steadyTurn({ vehicle, units }: Combination, frontRadius: number): SteadyUnit[] | null {
  const { wheelbase } = vehicle;
  if (!(frontRadius > wheelbase)) return null;
  let radius = Math.sqrt(frontRadius ** 2 - wheelbase ** 2);
  const steady: SteadyUnit[] = [{ axleRadius: mm(radius), hitch: 0 as Radians }];
  for (const { hitchBehindAxle, hitchToAxle } of units) {
    const hitchRadius = Math.hypot(radius, hitchBehindAxle);
    if (!(hitchToAxle < hitchRadius)) return null;
    const hitch = Math.atan2(hitchBehindAxle, radius) + Math.asin(hitchToAxle / hitchRadius);
    radius = Math.sqrt(hitchRadius ** 2 - hitchToAxle ** 2);
    steady.push({ axleRadius: mm(radius), hitch: hitch as Radians });
  }
  return steady;
}

/** A trailer pulled straight by its hitch: `tan(bend / 2)` falls by a factor e for each length from hitch to axle. */
export function bendAfterStraight(bend: Radians, hitchToAxle: number, driven: number): Radians {
  return (2 * Math.atan(Math.tan(bend / 2) * Math.exp(-driven / hitchToAxle))) as Radians;
}

/**
 * Path direction less heading of a vehicle whose front axle has rolled `driven` along a circle wider than its wheelbase. With t the tangent
 * of half that angle the motion is a Riccati equation, `t' = curvature (1 + t^2) / 2 - t / wheelbase`; its two steady states
 * turn it into a ratio that decays exponentially.
 */
export function aheadAfterArc(ahead: Radians, wheelbase: number, curvature: number, driven: number): Radians {
  if (curvature === 0) return bendAfterStraight(ahead, wheelbase, driven);
  const root = Math.sqrt(1 - (curvature * wheelbase) ** 2);
  if (!(root > 0)) throw new RangeError(`a circle must be wider than the wheelbase of ${wheelbase} mm, got a radius of ${1 / curvature}`);
  const settled = (1 - root) / (curvature * wheelbase), unstable = (1 + root) / (curvature * wheelbase), t = Math.tan(ahead / 2);
  const ratio = ((t - settled) / (t - unstable)) * Math.exp((-root * driven) / wheelbase);
  return (2 * Math.atan((settled - ratio * unstable) / (1 - ratio))) as Radians;
}

/**
 * Steady offtracking by the sum of squares (the Western Highway Institute's form, from memory): front axle's radius less
 * the last axle's. Null where there is no steady state.
 */
export function sumOfSquaresOfftracking({ vehicle, units }: Combination, frontRadius: number): Mm | null {
  const sum = units.reduce((left, { hitchBehindAxle, hitchToAxle }) => left - hitchBehindAxle ** 2 + hitchToAxle ** 2, vehicle.wheelbase ** 2);
  return frontRadius ** 2 > sum ? mm(frontRadius - Math.sqrt(frontRadius ** 2 - sum)) : null;
}
