import { mm, type Mm, type Radians } from "@/lib/measure";
import { sitePoint, type SitePoint } from "@/lib/plane";
import { drawnLength, longestOverhang, type Combination } from "./combination";
import { driveAlong, inLine, type Configuration, type Drive } from "./drive";
import { greatestOf, momentsOf, type Sample } from "./extremes";
import { placed, wrapped } from "./frames";
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
    outsideRadius: mm(outermost({ drive, moments, centre, angle }, tolerances)),
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
 * most a little later, as the bend travels down the train, and every overhang has to come by. A test drives twice as far.
 */
export function straightsFor(combination: Combination): { before: Mm; after: Mm } {
  const drawn = drawnLength(combination), overhang = longestOverhang(combination);
  return { before: mm(drawn + overhang), after: mm(STRAIGHTENING * drawn + overhang) };
}

interface Scene {
  readonly drive: Drive;
  readonly moments: readonly Configuration[];
  readonly centre: SitePoint;
  readonly angle: Radians;
}

function outermost(scene: Scene, { extreme }: TurningTolerances): number {
  let most = -Infinity;
  scene.drive.combination.bodies.forEach(({ corners }, body) => {
    for (const corner of corners) {
      const at = (c: Configuration) => placed(c.poses[body]!, corner);
      const valueAt = (along: number) => distance(at(scene.drive.at(along)), scene.centre);
      for (const run of runsBesideArc(scene, at)) most = Math.max(most, greatestOf(run, valueAt, extreme).value);
    }
  });
  return most;
}

/** The stretches over which a point is beside the arc, sampled at the moments and at both ends of each stretch. */
function runsBesideArc({ drive, moments, centre, angle }: Scene, at: (c: Configuration) => SitePoint): Sample[][] {
  const roundOf = ([x, y]: SitePoint) => Math.atan2(y - centre[1], x - centre[0]) + Math.PI / 2;
  const seen = (along: number, point: SitePoint) => ({ along, value: distance(point, centre), direction: roundOf(point) });
  const runs: Sample[][] = [];
  let before = seen(moments[0]!.along, at(moments[0]!)), round: number = wrapped(before.direction), open = false;
  for (const moment of moments.slice(1)) {
    // How far round the point has come, counted on from moment to moment so that a second round is not taken for the first.
    const here = seen(moment.along, at(moment)), from = before, begun = round, next = begun + wrapped(here.direction - from.direction);
    const crossing = (level: number) => {
      const along = crossingOf((s) => begun + wrapped(roundOf(at(drive.at(s))) - from.direction) - level, from.along, here.along);
      return seen(along, at(drive.at(along)));
    };
    if (Math.max(begun, next) >= 0 && Math.min(begun, next) <= angle) {
      if (!open) runs.push([begun < 0 ? crossing(0) : begun > angle ? crossing(angle) : from]);
      runs.at(-1)!.push(next < 0 ? crossing(0) : next > angle ? crossing(angle) : here);
    }
    open = next >= 0 && next <= angle;
    before = here;
    round = next;
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
