import type { Site } from "@/lib/park";
import type { AssumedField, Rig } from "@/lib/rig";
import { defaultTolerances } from "@/lib/turning";
import { judgeFor, meetingAt, type Judge } from "./judge";
import { findBarred } from "./necessary";
import { proveBend, proveRoom, steersWithin } from "./prove";
import { isBeyond, reverseLane, type Lane } from "./road";
import { findBest, type BestTrial } from "./search";
import { trainOf } from "./train";
import { driveExactly, isParked, type LegTask } from "./trial";
import type { Access, Keep, Leg, ParkedPose, Side, Tightest, Way } from "./types";
import { wayGroundOf, type WayGround } from "./way-ground";

/**
 * How a rig comes onto a site to stand on one of some poses, the best one taken first where they are as good. Null where the site has
 * no `approach`: nobody has measured the way in, and then nothing is said of it. `numbers` stand in for what is not known of the vehicle that steers.
 */
export function findAccess(site: Site, rig: Rig, poses: readonly ParkedPose[], keep: Keep, numbers: Partial<Record<AssumedField, number>> = {}): Access | null {
  const ground = wayGroundOf(site);
  if (!ground || poses.length === 0) return null;
  const train = trainOf(rig, numbers), judge = judgeFor(train, ground, keep);
  const tries = (["left", "right"] as const).flatMap((side) => wayFrom(judge, ground, poses, side) ?? []);
  const holding = tries.filter(({ holds }) => holds).map(({ way }) => way).sort((a, b) => preferred(a, b, keep));
  const { unmeasured } = ground, way = holding[0] ?? null;
  if (way) return { state: "found", way, other: holding[1] ?? null, nearest: null, barred: null, leave: leaveOf(way, ground), unmeasured };
  const barred = findBarred(judge, ground, poses), nearest = tries.map((t) => t.way).sort((a, b) => b.room - a.room)[0] ?? null;
  return { state: barred ? "no" : "not-found", way: null, other: null, nearest, barred, leave: null, unmeasured };
}

/** Room that differs by less is the same to a driver, and the side in sight then decides, mm. */
const AS_GOOD = 50;

function preferred(a: Way, b: Way, { comfort }: Keep): number {
  const more = Math.min(comfort, b.bound) - Math.min(comfort, a.bound);
  if (Math.abs(more) > AS_GOOD || a.sight === b.sight) return more;
  return a.sight === "sight" ? -1 : 1;
}

function leaveOf({ legs }: Way, { exit }: WayGround): Access["leave"] {
  return exit.length === 0 ? null : legs.length > 1 ? "found" : "not-found";
}

function wayFrom(judge: Judge, ground: WayGround, poses: readonly ParkedPose[], side: Side): { way: Way; holds: boolean } | null {
  const first = provenBest(judge, poses.flatMap((pose) => tasksIn(ground, pose).filter(({ lane }) => lane.from === side)));
  if (!first) return null;
  const { pose } = first.task, away = first.holds ? legOut(judge, ground, pose) : null;
  const legs = [first, ...(away?.holds ? [away] : [])];
  const tightest = legs.map(({ tightest }, leg) => ({ ...tightest, leg })).reduce((a, b) => (b.room < a.room ? b : a));
  const room = Math.min(...legs.map(({ leg }) => leg.room)), bound = Math.min(...legs.map(({ leg }) => leg.bound));
  return { holds: first.holds, way: { from: side, sight: side === judge.train.driver ? "sight" : "blind", pose, room, bound, tightest, legs: legs.map(({ leg }) => leg) } };
}

/** Off a pull-through by the road at its far end, whichever way it may be driven; toward the driver's side first, where both have room to spare. */
function legOut(judge: Judge, { terrain: { site }, front, exit }: WayGround, pose: ParkedPose): ProvenLeg | null {
  if (site.entry === "back-in" || exit.length === 0) return null;
  const inSightFirst = (a: Lane, b: Lane) => Number(b.from === judge.train.driver) - Number(a.from === judge.train.driver);
  return provenBest(judge, [...(pose.heading === "nose-in" ? exit : front)].sort(inSightFirst).map((lane) => ({ kind: "out", pose, lane })));
}

/** The legs by which a pose may be reached. A rig that faces the road was backed in, save on a pull-through that it entered from the far end. */
function tasksIn({ terrain: { site }, front, exit }: WayGround, pose: ParkedPose): LegTask[] {
  if (pose.heading === "tail-in" && site.entry === "back-in") return front.map((lane) => ({ kind: "back", pose, lane }));
  return (pose.heading === "nose-in" ? front : exit).map((lane) => ({ kind: "in", pose, lane: reverseLane(lane) }));
}

interface ProvenLeg {
  readonly task: LegTask;
  readonly leg: Leg;
  readonly tightest: Omit<Tightest, "leg">;
  readonly holds: boolean;
}

/** The best that holds; where none does, the best. Room only shrinks by looking closer, so what has too little by what was looked at is not proven. */
function provenBest(judge: Judge, tasks: readonly LegTask[]): ProvenLeg | null {
  const [best, ...others] = findBest(judge, tasks);
  if (!best) return null;
  const first = provenLeg(judge, best);
  if (first.holds) return first;
  for (const other of others) {
    if (other.worth.room < -judge.keep.touch) break;
    const next = provenLeg(judge, other);
    if (next.holds) return next;
  }
  return first;
}

/** The trial driven as exactly as can be, and its room proven between the moments that were looked at. */
function provenLeg(judge: Judge, { task, trial }: BestTrial): ProvenLeg {
  const { drive } = driveExactly(judge, trial, defaultTolerances), proof = proveRoom(judge, drive), bend = proveBend(judge, drive);
  const parked = task.kind !== "in" || isParked(judge.train, drive.at(drive.reached));
  const c = drive.at(proof.along), along = task.kind === "back" ? drive.reached - proof.along : proof.along;
  return {
    task,
    leg: { kind: task.kind, drive, room: proof.room, bound: proof.bound, sharpestBend: bend.sharpest, unsurveyed: unsurveyedOf(task.lane, trial.drive.path.pointAt, drive.reached) },
    tightest: { ...meetingAt(judge, c), along },
    holds: drive.complete && parked && bend.holds && steersWithin(judge, drive) && proof.bound >= -judge.keep.touch,
  };
}

/** Every so many millimetres the road's ends are looked for. */
const STRIDE = 500;

function unsurveyedOf({ road }: Lane, pointAt: (along: number) => { readonly at: readonly [number, number] }, length: number): number {
  let beyond = 0;
  for (let along = 0; along <= length; along += STRIDE) if (isBeyond(road, pointAt(along).at)) beyond += STRIDE;
  return beyond;
}
