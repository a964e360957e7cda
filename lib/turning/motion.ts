import type { Radians } from "@/lib/measure";
import { sitePoint } from "@/lib/plane";
import type { Combination } from "./combination";
import type { BodyPose } from "./frames";
import type { PathPoint } from "./path";

/**
 * The motion without slip: every axle rolls the way its unit faces, and the middle of the front axle rolls along the
 * path. (One trailer: LaValle, Planning Algorithms, 2006, section 13.1.2.4; the rest is the same step again for each hitch.)
 *
 * `angles[0]` is the path's direction less the vehicle's heading, `angles[i]` the heading of what draws unit i less the
 * heading of unit i. With them the equations do not know where on the ground they are, and hold still on a circle.
 */
export type Angles = ArrayLike<number>;

/** Change of the angles for each millimetre that the front axle rolls; written to `out`. */
export function writeRates({ vehicle, units }: Combination, curvature: number, angles: Angles, out: Float64Array): void {
  let speed = Math.cos(angles[0]!), turn = Math.sin(angles[0]!) / vehicle.wheelbase;
  out[0] = curvature - turn;
  for (let i = 0; i < units.length; i++) {
    const { hitchBehindAxle: behind, hitchToAxle } = units[i]!;
    const c = Math.cos(angles[i + 1]!), s = Math.sin(angles[i + 1]!);
    const nextTurn = (speed * s - behind * turn * c) / hitchToAxle;
    speed = speed * c + behind * turn * s;
    out[i + 1] = turn - nextTurn;
    turn = nextTurn;
  }
}

/** Whether every axle rolls forward, so that hitch angles draw in towards a steady state. */
export function rollsForward({ vehicle, units }: Combination, angles: Angles): boolean {
  let speed = Math.cos(angles[0]!), turn = Math.sin(angles[0]!) / vehicle.wheelbase;
  for (let i = 0; speed > 0 && i < units.length; i++) {
    const { hitchBehindAxle: behind, hitchToAxle } = units[i]!;
    const c = Math.cos(angles[i + 1]!), s = Math.sin(angles[i + 1]!), nextTurn = (speed * s - behind * turn * c) / hitchToAxle;
    speed = speed * c + behind * turn * s;
    turn = nextTurn;
  }
  return speed > 0;
}

/** Where everything stands when the front axle is at a point of its path. Exact: nothing is summed up along the way. */
export function posesOf({ vehicle, units }: Combination, { at, heading }: PathPoint, angles: Angles): BodyPose[] {
  let facing = heading - angles[0]!;
  let x = at[0] - vehicle.wheelbase * Math.cos(facing), y = at[1] - vehicle.wheelbase * Math.sin(facing);
  const poses: BodyPose[] = [{ axle: sitePoint(x, y), heading: facing as Radians }];
  units.forEach(({ hitchBehindAxle, hitchToAxle }, i) => {
    const next = facing - angles[i + 1]!;
    x -= hitchBehindAxle * Math.cos(facing) + hitchToAxle * Math.cos(next);
    y -= hitchBehindAxle * Math.sin(facing) + hitchToAxle * Math.sin(next);
    poses.push({ axle: sitePoint(x, y), heading: next as Radians });
    facing = next;
  });
  return poses;
}

/** What no motion along a path with curvature up to `sharpest` exceeds, for each millimetre of the front axle's way. */
export interface MotionBound {
  /** Of the axle. */
  readonly speed: number;
  /** Radians of heading. */
  readonly turn: number;
  /** Changes of the two. */
  readonly speedChange: number;
  readonly turnChange: number;
}

/** For each body in order. From the equations of `writeRates` by the triangle inequality: safe, and loose for long trains. */
export function motionBounds({ vehicle, units }: Combination, sharpest: number): MotionBound[] {
  const steer = sharpest + 1 / vehicle.wheelbase;
  let last: MotionBound = { speed: 1, turn: 1 / vehicle.wheelbase, speedChange: steer, turnChange: steer / vehicle.wheelbase };
  return [last, ...units.map(({ hitchBehindAxle, hitchToAxle }) => {
    const behind = Math.abs(hitchBehindAxle), speed = Math.hypot(last.speed, behind * last.turn), turn = speed / hitchToAxle;
    const speedChange = Math.hypot(last.speedChange, behind * last.turnChange) + (last.turn + turn) * speed;
    return (last = { speed, turn, speedChange, turnChange: speedChange / hitchToAxle });
  })];
}
