import { bodySpeed, defaultTolerances, leastAlong, type Configuration, type Drive } from "@/lib/turning";
import { fastestPoints, roomAt, type Judge } from "./judge";
import { LOCK_ENOUGH } from "./trial";

/** What is known of a drive's room. */
export interface Proof {
  /** The least that was met, and where. */
  readonly room: number;
  readonly along: number;
  /** No moment has less. */
  readonly bound: number;
}

/** How far apart the least met and the least possible may lie: a quarter of the room, within these, mm. */
const APART = { share: 0.25, least: 20, most: 100 } as const;
/** And where that leaves open whether the drive holds. */
const FINE = 2;
/** Moments looked at before an answer is left open. */
const BUDGET = 20_000;
/** Bends are measured at arm's length, so that one tolerance serves both, mm. */
const ARM = 3000;

/** The least room over a whole drive, between the moments as well: no point of the train outruns the bounds of `lib/turning`. */
export function proveRoom(judge: Judge, drive: Drive): Proof {
  const speed = Math.max(...judge.train.boxes.map((_, body) => bodySpeed(drive, body, fastestPoints(judge, body))));
  const least = (distance: number) => leastAlong(drive, (c) => roomAt(judge, c), speed, { ...defaultTolerances, distance: distance as never, budget: BUDGET });
  const guess = Math.min(...Array.from({ length: 17 }, (_, i) => roomAt(judge, drive.at((drive.reached * i) / 16))));
  let found = least(Math.min(APART.most, Math.max(APART.least, guess * APART.share)));
  if (found.value >= -judge.keep.touch && found.bound < -judge.keep.touch) found = least(FINE);
  return { room: found.value, along: found.along, bound: found.bound };
}

/**
 * Whether the front wheels turn no further than they can. Their angle follows the path's curvature and nears what that asks for, so it can only
 * pass the limit on pieces that bend more than the vehicle can. Those are looked at this often: between two looks the angle strays from a line
 * by `bend * step^2 / 8`, a ten-thousandth of a radian.
 */
export function steersWithin({ train }: Judge, { path, at }: Drive): boolean {
  return path.pieces.every(({ from, to, length }, i) => {
    if (Math.max(Math.abs(from), Math.abs(to)) <= train.sharpest) return true;
    const looks = Math.max(4, Math.ceil(length / STEERED));
    return Array.from({ length: looks + 1 }, (_, k) => at(path.starts[i]! + (length * k) / looks).steer).every((steer) => Math.abs(steer) <= train.lock + LOCK_ENOUGH);
  });
}

const STEERED = 120;

/** The sharpest bend of any hitch over a drive, radians, and whether it is proven to stay within the train's limit. */
export function proveBend({ train }: Judge, drive: Drive): { sharpest: number; holds: boolean } {
  const { vehicle, units } = train.combination, { maxBend } = train;
  if (units.length === 0 || maxBend === null) return { sharpest: 0, holds: true };
  const bendOf = ({ hitches }: Configuration) => Math.max(...hitches.map(Math.abs));
  const { wheelbase } = vehicle, { hitchBehindAxle, hitchToAxle } = units[0]!;
  // Both units turn at the most this fast together (see lib/turning/motion.ts).
  const rate = 1 / wheelbase + Math.hypot(1, hitchBehindAxle / wheelbase) / hitchToAxle;
  const { value, bound } = leastAlong(drive, (c) => -bendOf(c) * ARM, rate * ARM, { ...defaultTolerances, distance: FINE as never, budget: BUDGET });
  return { sharpest: -value / ARM, holds: -bound / ARM <= maxBend + FINE / ARM };
}
