import { mm, type Mm } from "@/lib/measure";
import { convexHull, nearestOfOutlines, sitePoint, type SitePoint } from "@/lib/plane";
import type { Body } from "./combination";
import type { Drive } from "./drive";
import { placed, seenFrom, type BodyPoint, type BodyPose } from "./frames";
import { leastAlong, type Least } from "./least-along";
import { motionBounds, type MotionBound } from "./motion";
import type { TurningTolerances } from "./tolerances";

/** The ground that one body passes over, in convex pieces that overlap. Filled together they are the swept area. */
export interface SweptArea {
  readonly pieces: readonly (readonly SitePoint[])[];
  /** No point of the swept area is further than this from the pieces, and no point of the pieces further from it. */
  readonly error: Mm;
}

/** The line that one tire rolls along. */
export interface WheelTrack {
  readonly line: readonly SitePoint[];
  /** The tire's middle is never further than this from the line. */
  readonly error: Mm;
}

/**
 * The area that a body sweeps. Each piece is the hull of the body at two moments. Why the error holds: where no corner strays more than
 * `e` from its chord, no point of the body does, as each is a mean of the corners. And a point of the hull between points p and q of the body stands
 * no further than `turn * |p - q| / 4 + e` from where the mean of p and q passes.
 */
export function sweptArea(drive: Drive, body: number, tolerances: TurningTolerances): SweptArea {
  const { corners } = drive.combination.bodies[body]!, across = diameterOf(corners), bend = greatestBend(boundOf(drive, body), corners);
  const half = tolerances.outline / 2;
  const { cuts, error } = cutEvenly(drive, Math.sqrt((8 * half) / bend), tolerances.budget, (from, to) => (turnedBetween(drive, body, from, to) * across) / 4, half);
  const at = cuts.map((along) => outlineAt(drive.at(along).poses[body]!, corners));
  const chords = Math.max(...cuts.slice(1).map((to, i) => (bend * (to - cuts[i]!) ** 2) / 8));
  return { pieces: at.slice(1).map((outline, i) => convexHull([...at[i]!, ...outline]) as SitePoint[]), error: mm(error + chords) };
}

/** The tracks of a body's tires, in the order of its wheels. */
export function wheelTracks(drive: Drive, body: number, tolerances: TurningTolerances): WheelTrack[] {
  const { wheels } = drive.combination.bodies[body]!, bend = greatestBend(boundOf(drive, body), wheels);
  const { cuts } = cutEvenly(drive, Math.sqrt((8 * tolerances.outline) / bend), tolerances.budget, () => 0, 0);
  const poses = cuts.map((along) => drive.at(along).poses[body]!);
  const error = mm(Math.max(...cuts.slice(1).map((to, i) => (bend * (to - cuts[i]!) ** 2) / 8)));
  return wheels.map((wheel) => ({ line: poses.map((pose) => placed(pose, wheel)), error }));
}

/**
 * How near a body comes to a point over a drive: proven to within the tolerance, however near it passes between two
 * moments. Below zero where the body passes over it, by how deep the point lies in it then.
 */
export function bodyToPoint(drive: Drive, body: number, point: SitePoint, tolerances: TurningTolerances): Least {
  const { corners } = drive.combination.bodies[body]!;
  return leastAlong(drive, (c) => depthOutside(seenFrom(c.poses[body]!, point), corners), greatestSpeed(boundOf(drive, body), corners), tolerances);
}

/** The same to a filled outline; 0 where the body meets it. */
export function bodyToOutline(drive: Drive, body: number, outline: readonly SitePoint[], tolerances: TurningTolerances): Least {
  const { corners } = drive.combination.bodies[body]!;
  return leastAlong(drive, (c) => nearestOfOutlines(outlineAt(c.poses[body]!, corners), outline).distance, greatestSpeed(boundOf(drive, body), corners), tolerances);
}

/** How near any of a body's tires (their middles) comes to a point. */
export function wheelsToPoint(drive: Drive, body: number, [x, y]: SitePoint, tolerances: TurningTolerances): Least {
  const { wheels } = drive.combination.bodies[body]!;
  const nearest = (pose: BodyPose) => Math.min(...wheels.map((w) => { const [px, py] = placed(pose, w); return Math.hypot(px - x, py - y); }));
  return leastAlong(drive, (c) => nearest(c.poses[body]!), greatestSpeed(boundOf(drive, body), wheels), tolerances);
}

/** A speed that no such point of a body exceeds, for each millimetre of the front axle's way; of other points fixed to it where they are given. */
export function bodySpeed(drive: Drive, body: number, points?: readonly BodyPoint[]): number {
  const { corners, wheels } = drive.combination.bodies[body]!;
  return greatestSpeed(boundOf(drive, body), points ?? [...corners, ...wheels]);
}

function boundOf({ combination, path }: Drive, body: number): MotionBound {
  return motionBounds(combination, Math.max(...path.pieces.map(({ from, to }) => Math.max(Math.abs(from), Math.abs(to)))))[body]!;
}

function greatestSpeed({ speed, turn }: MotionBound, points: readonly BodyPoint[]): number {
  return Math.max(...points.map(([u, v]) => Math.hypot(speed + turn * Math.abs(v), turn * u)));
}

/** Of the second derivative of where a point is. */
function greatestBend({ speed, turn, speedChange, turnChange }: MotionBound, points: readonly BodyPoint[]): number {
  const lever = Math.max(...points.map(([u, v]) => Math.hypot(u, v)));
  return speedChange + speed * turn + (turnChange + turn ** 2) * lever;
}

/**
 * Moments no further apart than `longest`, and closer where `excess` between two of them is above `allowed`. At most
 * `budget` of them; the greatest excess left is told.
 */
function cutEvenly(drive: Drive, longest: number, budget: number, excess: (from: number, to: number) => number, allowed: number): { cuts: number[]; error: number } {
  const parts = Math.min(budget, Math.max(1, Math.ceil(drive.reached / longest)));
  const cuts = [0];
  let error = 0;
  for (let i = 1; i <= parts; i++) {
    const from = cuts.at(-1)!, to = (drive.reached * i) / parts, over = excess(from, to);
    const more = Math.min(Math.max(1, Math.ceil(over / Math.max(allowed, Number.MIN_VALUE))) * (over > allowed ? 2 : 1), Math.max(1, budget - cuts.length));
    for (let k = 1; k <= more; k++) {
      const next = from + ((to - from) * k) / more;
      error = Math.max(error, more === 1 ? over : excess(cuts.at(-1)!, next));
      cuts.push(next);
    }
  }
  return { cuts, error };
}

function turnedBetween(drive: Drive, body: number, from: number, to: number): number {
  return Math.abs(drive.at(to).poses[body]!.heading - drive.at(from).poses[body]!.heading);
}

function diameterOf(corners: Body["corners"]): number {
  const [a, , c] = corners;
  return Math.hypot(a[0] - c[0], a[1] - c[1]);
}

function outlineAt(pose: BodyPose, corners: Body["corners"]): SitePoint[] {
  return corners.map((corner) => placed(pose, corner)).map(([x, y]) => sitePoint(x, y));
}

/** Signed distance to an upright box, below zero inside. */
function depthOutside([u, v]: BodyPoint, [[front, halfWidth], , [rear]]: Body["corners"]): number {
  const du = Math.max(u - front, rear - u), dv = Math.abs(v) - halfWidth;
  return du > 0 && dv > 0 ? Math.hypot(du, dv) : Math.max(du, dv);
}
