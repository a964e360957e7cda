import { mm, type Mm, type Radians } from "@/lib/measure";
import { sitePoint, type SitePoint } from "@/lib/plane";
import { drawnLength, longestOverhang, type Combination } from "./combination";
import { driveAlong, inLine, type Configuration, type Drive } from "./drive";
import { greatestOf, momentsOf, type Sample } from "./extremes";
import { bodyPoint, placed } from "./frames";
import { arc, makePath, straight } from "./path";
import type { TurningTolerances } from "./tolerances";

/** What the middle of the front axle does: straight, an arc, straight. */
export interface Arc {
  readonly radius: Mm;
  /** Above zero. Left or right makes no difference. */
  readonly angle: Radians;
}

/** The room that one turn takes. */
export interface Turn {
  readonly ended: "done";
  /**
   * Least distance of the last axle's middle from the arc's centre, less half the width of the last unit (of the vehicle,
   * where nothing is drawn). Below zero where its body passes over the centre.
   */
  readonly insideRadius: Mm;
  /**
   * Greatest distance of any body corner from the arc's centre while the corner is beside the arc, that is between the
   * two lines from the centre through the arc's ends. (On the straights before and after, that distance says only how
   * far away the rig still is.)
   */
  readonly outsideRadius: Mm;
  /** How far the last axle's middle runs inside the arc at the most; 0 where it never does. */
  readonly maxOfftracking: Mm;
  /** The sharpest bend at each hitch, to either side. */
  readonly sharpestHitches: readonly Radians[];
  readonly sharpestSteer: Radians;
  readonly drive: Drive;
}

export type TurnOutcome = Turn | { readonly ended: "budget"; readonly reached: Mm; readonly length: Mm };

/**
 * Drives straight, then the arc, then straight, everything in line at first. Where the train has bent past a hitch's
 * limit the motion goes on as if it could, so that the numbers are of the whole turn: ask `passesHitchLimit`.
 * Throws `RangeError` where the arc is no wider than the wheelbase: the front wheels would have to stand across.
 */
export function makeTurn(combination: Combination, { radius, angle }: Arc, tolerances: TurningTolerances, straights = straightsFor(combination)): TurnOutcome {
  const { wheelbase } = combination.vehicle;
  if (!(radius > wheelbase)) throw new RangeError(`an arc's radius must be more than the wheelbase of ${wheelbase} mm, got ${radius}`);
  if (!(angle > 0)) throw new RangeError(`an arc must turn by more than 0 radians, got ${angle}`);
  const path = makePath({ at: sitePoint(-straights.before, 0), heading: 0 as Radians }, [straight(straights.before), arc(radius, angle), straight(straights.after)]);
  const drive = driveAlong(combination, path, inLine(combination, path), tolerances);
  if (!drive.complete) return { ended: "budget", reached: drive.reached, length: path.length };
  const moments = momentsOf(drive), centre = sitePoint(0, radius), last = combination.bodies.length - 1;
  const most = (quantity: (c: Configuration) => number) => greatestOf(moments.map((c) => ({ along: c.along, value: quantity(c) })), (along) => quantity(drive.at(along)), tolerances.extreme).value;
  const nearest = -most(({ poses }) => -distance(poses[last]!.axle, centre));
  return {
    ended: "done",
    insideRadius: mm(nearest - (combination.units.at(-1) ?? combination.vehicle).width / 2),
    outsideRadius: mm(outermost({ drive, moments, centre, arc: { radius, angle } }, tolerances)),
    maxOfftracking: mm(Math.max(0, radius - nearest)),
    sharpestHitches: combination.units.map((_, i) => most(({ hitches }) => Math.abs(hitches[i]!)) as Radians),
    sharpestSteer: most(({ steer }) => Math.abs(steer)) as Radians,
    drive,
  };
}

/** Whether some hitch bends beyond a limit. One that just reaches it does not. */
export function passesHitchLimit({ sharpestHitches }: Turn, limit: Radians, { hitch }: TurningTolerances): boolean {
  return sharpestHitches.some((angle) => angle > limit + hitch);
}

/** Of the train's drawn length, so many are driven straight after the arc. */
const STRAIGHTENING = 4;

/**
 * Straights that are long enough. Before the arc a train in line stays in line, so it only has to begin behind it. After it the
 * last axle is nearest to the centre before it has passed the arc's end, one drawn length on; hitches further back may bend
 * most a little later, as the bend travels down the train, and every overhang has to come by. A test drives twice as far. (A train that
 * has folded up past 90 degrees may stay so for any distance; its numbers are of so much of the way.)
 */
export function straightsFor(combination: Combination): { before: Mm; after: Mm } {
  const drawn = drawnLength(combination), overhang = longestOverhang(combination);
  return { before: mm(drawn + overhang), after: mm(STRAIGHTENING * drawn + overhang) };
}

interface Scene {
  readonly drive: Drive;
  readonly moments: readonly Configuration[];
  readonly centre: SitePoint;
  readonly arc: Arc;
}

/** A point of a body at a moment: how far from the arc's centre, and how far round the arc from where it begins (radians). */
interface Seen extends Sample {
  readonly round: number;
}

function outermost(scene: Scene, { extreme }: TurningTolerances): number {
  const { drive, moments, centre } = scene, rounds = moments.map((c) => roundsOf(scene, c));
  let most = -Infinity;
  drive.combination.bodies.forEach(({ corners }, body) => {
    for (const corner of corners) {
      const seen = (c: Configuration, round: number): Seen => {
        const { axle } = c.poses[body]!, at = placed(c.poses[body]!, corner);
        return { along: c.along, value: distance(at, centre), round: round + subtended(axle, at, centre) };
      };
      const seenAt = (along: number) => { const c = drive.at(along); return seen(c, roundsOf(scene, c)[body]!); };
      const samples = moments.map((c, i) => seen(c, rounds[i]![body]!));
      for (const run of runsBesideArc(samples, seenAt, scene.arc.angle)) most = Math.max(most, greatestOf(run, (along) => seenAt(along).value, extreme).value);
    }
  });
  return most;
}

/**
 * How far round each axle is: the front axle's place on its way, and from there along the drawbars. So a long train's tail
 * that is a round behind is not taken for its head, nor a folded train that cuts across the centre for one that has not come yet.
 */
function roundsOf({ drive, centre, arc: { radius, angle } }: Scene, { along, front, poses }: Configuration): number[] {
  const [, begins, ends] = drive.path.starts as [number, number, number];
  let round = along < begins ? Math.atan((along - begins) / radius) : along > ends ? angle + Math.atan((along - ends) / radius) : (along - begins) / radius;
  let last = front;
  return poses.map((pose, i) => {
    const unit = drive.combination.units[i - 1];
    if (unit) {
      const hitch = placed(poses[i - 1]!, bodyPoint(-unit.hitchBehindAxle, 0));
      round += subtended(last, hitch, centre);
      last = hitch;
    }
    round += subtended(last, pose.axle, centre);
    last = pose.axle;
    return round;
  });
}

/** The angle from one point to another as seen from the centre, the shorter way: the one on which the line between them lies. */
function subtended(from: SitePoint, to: SitePoint, centre: SitePoint): number {
  const ax = from[0] - centre[0], ay = from[1] - centre[1], bx = to[0] - centre[0], by = to[1] - centre[1];
  return Math.atan2(ax * by - ay * bx, ax * bx + ay * by);
}

/** The stretches over which a point is beside the arc, sampled at the moments and at both ends of each stretch. */
function runsBesideArc(samples: readonly Seen[], seenAt: (along: number) => Seen, angle: number): Sample[][] {
  const runs: Sample[][] = [];
  for (let i = 1, open = false; i < samples.length; i++) {
    const from = samples[i - 1]!, to = samples[i]!;
    const crossing = (level: number) => seenAt(crossingOf((along) => seenAt(along).round - level, from.along, to.along));
    if (Math.max(from.round, to.round) >= 0 && Math.min(from.round, to.round) <= angle) {
      if (!open) runs.push([from.round < 0 ? crossing(0) : from.round > angle ? crossing(angle) : from]);
      runs.at(-1)!.push(to.round < 0 ? crossing(0) : to.round > angle ? crossing(angle) : to);
    }
    open = to.round >= 0 && to.round <= angle;
  }
  return runs;
}

/** Halvings of an interval until doubles have nothing left between its ends. */
const HALVINGS = 50;

function crossingOf(value: (along: number) => number, from: number, to: number): number {
  let a = from, b = to;
  const rising = value(to) > value(from);
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (a + b) / 2;
    if (value(middle) > 0 === rising) b = middle;
    else a = middle;
  }
  return (a + b) / 2;
}

function distance(a: SitePoint, b: SitePoint): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1]);
}
