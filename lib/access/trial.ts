import type { Radians } from "@/lib/measure";
import { defaultTolerances, driveAlong, drawnLength, inLine, longestOverhang, makePath, reversePath, type Configuration, type Drive, type Path, type StartAngles, type TurningTolerances } from "@/lib/turning";
import { wayOut, type Choice } from "./family";
import { roomAt, type Judge } from "./judge";
import { headingNear, type Lane } from "./road";
import { parkedOn, type Train } from "./train";
import type { ParkedPose } from "./types";

/**
 * Which way a leg is driven. `back`: in reverse along a way out, which without slip is the same motion run backwards. `in`: forwards to
 * the pose. `out`: forwards from it.
 */
export type LegKind = "back" | "in" | "out";

/** A leg to be found: from or to a pose by a lane. */
export interface LegTask {
  readonly kind: LegKind;
  readonly pose: ParkedPose;
  /** As driven out, for `in` too. */
  readonly lane: Lane;
}

/** A drive that was tried: forwards out for `back` and `out`, forwards in for `in`. */
export interface Trial {
  readonly choice: Choice;
  readonly drive: Drive;
  readonly begin: StartAngles;
  /** The part of the drive that counts: from the pose until everything is in line on the road again, or the other way round. */
  readonly span: readonly [number, number];
  /** Where along the drive the curve begins and ends. */
  readonly turn: readonly [number, number];
}

/** What a choice is worth: the least room, and the least of it while in the curve or beyond. */
export interface Worth {
  readonly room: number;
  readonly turning: number;
}

/** In line means bent by no more than this, radians (5 degrees): from there a driver begins to back, or has arrived on the road. */
export const STRAIGHT_ENOUGH = (5 * Math.PI) / 180;
/** And parked means that the rig stands no more askew than this (3 degrees); a car towed behind it may be left at thrice that. */
const PARKED_ENOUGH = (3 * Math.PI) / 180;
const TOWED = 3;

/** Enough to compare ways by: a ten-thousandth of a radian at 12 m is a millimetre. */
export const SEARCHING: TurningTolerances = { ...defaultTolerances, angle: 1e-4 as Radians };

/** Every so many millimetres a drive is looked at while ways are compared. */
const LOOK = 600;

/** Null where the family has no such way. */
export function tryChoice(judge: Judge, task: LegTask, choice: Choice, tolerances = SEARCHING): Trial | { readonly short: number } {
  const { combination, sharpest } = judge.train, drawn = drawnLength(combination);
  // Twice its length brings any train in line that was not bent beyond reason; coming in, it is so from the first.
  const tail = task.kind === "in" ? drawn * 0.6 : drawn * 2 + longestOverhang(combination);
  const hand = handFor(task), parked = parkedOn(judge.train, task.pose, choice.bend * hand);
  const away = task.kind === "in" ? parked.angles.heading + Math.PI : parked.angles.heading;
  const steered = { wheelbase: combination.vehicle.wheelbase, sharpest: sharpest * (1 + 1e-9), inward: task.kind === "in" };
  const out = wayOut({ at: parked.at, heading: away as Radians }, task.lane, choice, hand, steered, tail);
  if ("short" in out) return out;
  const { path, turnBegins, turnEnds } = out;
  if (task.kind === "in") {
    const back = reversePath(path), begin = inLine(combination, back), drive = driveAlong(combination, back, begin, tolerances);
    return { choice, drive, begin, span: [0, drive.reached], turn: [back.length - turnEnds, back.length - turnBegins] };
  }
  const drive = driveAlong(combination, path, parked.angles, tolerances);
  return { choice, drive, begin: parked.angles, span: [0, inLineAgain(drive, turnEnds)], turn: [turnBegins, turnEnds] };
}

const hands = new WeakMap<LegTask, 1 | -1>();

function handFor(task: LegTask): 1 | -1 {
  let hand = hands.get(task);
  if (!hand) hands.set(task, (hand = handOf(task)));
  return hand;
}

/** Whether a way out leads to the left (1) or to the right (-1) of how the rig faces on its pose. */
function handOf({ pose, lane }: LegTask): 1 | -1 {
  const facing = pose.heading === "tail-in" ? Math.PI : 0;
  return Math.sin(headingNear(lane, [pose.x, pose.y]) - facing) >= 0 ? 1 : -1;
}

/** The same way driven as exactly as `tolerances` say, and no further than counts. */
export function driveExactly(judge: Judge, { choice, drive, begin, span, turn }: Trial, tolerances: TurningTolerances): Trial {
  const path = shortened(drive.path, span[1]), { combination } = judge.train;
  const exact = driveAlong(combination, path, begin, tolerances);
  return { choice, begin, drive: exact, span: [0, exact.reached], turn };
}

/** A moment's worth: room, less for what a hitch or the front wheels turn beyond their limits, in mm at arm's length. */
export function momentRoom(judge: Judge, c: Configuration, enough?: number): number {
  const over = turnedBeyond(judge, c);
  return over > 0 ? -1 - over * ARM : roomAt(judge, c, enough);
}

/** Radians beyond the limits; 0 or less within them. On a bent road the wheels are turned already where they are turned in further: a curve right for a straight one may ask for too much. */
function turnedBeyond({ train: { maxBend, lock } }: Judge, { steer, hitches }: Configuration): number {
  const over = Math.abs(steer) - lock - LOCK_ENOUGH;
  return maxBend === null ? over : Math.max(over, ...hitches.map((bend) => Math.abs(bend) - (maxBend - BEND_SPARE)));
}

const ARM = 3000;
/**
 * A hitch may be bent so much more between two looks than at either, radians. Where it is bent most it bends no further, and there the wheels, turned back
 * by 0.6 radians over 2 m on a wheelbase of 3.7 m, change by 8e-8 a mm how much it bends a mm: 0.004 over half of `LOOK`. What is found then holds.
 */
const BEND_SPARE = 0.005;
/** Of the wheels turned all the way, radians: a tenth of a degree, which no maker's circle is good for. */
export const LOCK_ENOUGH = Math.PI / 1800;

/** Looks at moments far apart first, so that a bad way is left early; once below `enough` it looks no further. */
export function worthOf(judge: Judge, { drive, span, turn }: Trial, kind: LegKind, enough: number): Worth {
  const n = Math.max(8, Math.ceil((span[1] - span[0]) / LOOK));
  let room = kind === "in" ? parkedRoom(judge.train, drive.at(span[1])) : Infinity, turning = room;
  // The wheels turn most where a piece of the curve ends, which may lie between two looks.
  for (const along of drive.path.starts) {
    const over = along > turn[0] && along < span[1] ? turnedBeyond(judge, drive.at(along)) : 0;
    if (over > 0) room = Math.min(room, -1 - over * ARM);
  }
  for (const stride of STRIDES) {
    for (let i = stride[0]; i <= n; i += stride[1]) {
      const along = span[0] + ((span[1] - span[0]) * i) / n, here = momentRoom(judge, drive.at(along), enough);
      if (here < room) room = here;
      if (kind === "in" ? along <= turn[1] : along >= turn[0]) turning = Math.min(turning, here);
      // What was not looked at is worth no more than what was: else a way left early might pass for a better one.
      if (room < enough) return { room, turning: Math.min(turning, room) };
    }
  }
  return { room, turning };
}

const STRIDES = [[0, 4], [2, 4], [1, 2]] as const;

/** Whether the rig stands as its pose asks at the end of a way in, to what a coarse drive and an exact one may differ by. */
export function isParked(train: Train, end: Configuration): boolean {
  return askewOf(train, end) <= PARKED_ENOUGH + 10 * SEARCHING.angle;
}

/** The same while ways are compared: below zero by how much it is askew. */
function parkedRoom(train: Train, end: Configuration): number {
  const over = askewOf(train, end) - PARKED_ENOUGH;
  return over > 0 ? -1 - over * ARM : Infinity;
}

function askewOf({ rigBody }: Train, { steer, hitches }: Configuration): number {
  const bend = Math.max(0, ...hitches.map(Math.abs));
  return Math.max(Math.abs(steer), rigBody === 1 ? bend : bend / TOWED);
}

function inLineAgain(drive: Drive, from: number): number {
  for (let along = from; along < drive.reached; along += LOOK) {
    const { steer, hitches } = drive.at(along);
    if (Math.abs(steer) <= STRAIGHT_ENOUGH && hitches.every((h) => Math.abs(h) <= STRAIGHT_ENOUGH)) return along;
  }
  return drive.reached;
}

function shortened({ start, pieces, starts, length }: Path, to: number): Path {
  if (to >= length) return makePath(start, pieces);
  return makePath(start, pieces.flatMap((piece, i) => {
    const rest = to - starts[i]!;
    if (rest <= 1e-6) return [];
    if (rest >= piece.length) return [piece];
    return [{ length: rest as typeof piece.length, from: piece.from, to: (piece.from + ((piece.to - piece.from) * rest) / piece.length) as typeof piece.to }];
  }));
}
