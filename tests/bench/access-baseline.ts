import { trainOf, wayGroundOf, type Keep, type ParkedPose } from "@/lib/access";
import { judgeFor, roomAt, type Judge } from "@/lib/access/judge";
import { headingNear, type Lane } from "@/lib/access/road";
import { parkedOn } from "@/lib/access/train";
import type { Site } from "@/lib/park";
import { sitePoint } from "@/lib/plane";
import type { Rig } from "@/lib/rig";
import type { BodyPose } from "@/lib/turning";

/**
 * The obvious search for a way in, as one writes it first: from the pose, straight on for so much, then the wheels turned to a share of their
 * lock until the vehicle points along the road, every combination of a lattice; followed in small moves, room looked at every few of them.
 * The engine's own room at a moment, none of its curves, climbing or proof. It drives on along the road wherever it happens to come out.
 */
const AHEAD = { step: 500, most: 8000 }, SHARES = [1, 0.85, 0.7, 0.55, 0.4], BENDS = [0, 0.25, 0.5, 0.75];
/** The front axle's move, every how many of them room is looked at, the wheels' turn in a move as a share of the lock, and the longest way. Millimetres. */
const MOVE = 50, LOOK = 5, TURNED = 1 / 40, LONGEST = 60_000;
/** Along the road, and in line, within these (radians). */
const ALONG = 0.03, IN_LINE = 0.09;

/** The most room that some combination has, mm; null where none comes out along the road. Of rigs that back in. */
export function searchObviously(site: Site, rig: Rig, pose: ParkedPose, keep: Keep): number | null {
  const train = trainOf(rig), ground = wayGroundOf(site)!, judge = judgeFor(train, ground, keep), bends = train.rigBody === 1 ? BENDS.map((share) => share * (train.maxBend ?? 0)) : [0];
  let best: number | null = null;
  for (const lane of ground.front) for (const bend of bends) for (const share of SHARES) for (let ahead = 0; ahead <= AHEAD.most; ahead += AHEAD.step) {
    const room = driveOut(judge, pose, lane, { bend, lock: share * train.lock, ahead }, Math.min(keep.comfort, best ?? -Infinity));
    if (room !== null && (best === null || room > best)) best = room;
  }
  return best;
}

/** Null where it comes to no end, or has no more room than is had already. */
function driveOut(judge: Judge, pose: ParkedPose, lane: Lane, plan: { bend: number; lock: number; ahead: number }, enough: number): number | null {
  const { combination: { vehicle, units } } = judge.train, goal = headingNear(lane, [pose.x, pose.y]), base = pose.heading === "tail-in" ? Math.PI : 0, hand = Math.sin(goal - base) >= 0 ? 1 : -1;
  const parked = parkedOn(judge.train, pose, plan.bend * hand), headings: number[] = [parked.angles.heading];
  for (const hitch of parked.angles.hitches) headings.push(headings.at(-1)! - hitch);
  let [x, y] = parked.at, lock = 0, room = Infinity;
  for (let move = 0; move * MOVE < LONGEST; move++) {
    if (move % LOOK === 0) {
      room = Math.min(room, roomAt(judge, { poses: posesOf(judge, x, y, headings) } as never, enough));
      if (room <= enough) return null;
    }
    const off = Math.atan2(Math.sin(goal - headings[0]!), Math.cos(goal - headings[0]!));
    if (Math.abs(off) < ALONG && headings.every((h) => Math.abs(Math.sin(h - headings[0]!)) < IN_LINE)) return room;
    const wanted = move * MOVE < plan.ahead ? 0 : Math.max(-plan.lock, Math.min(plan.lock, off * 1.5));
    lock += Math.max(-plan.lock * TURNED, Math.min(plan.lock * TURNED, wanted - lock));
    const turn = (MOVE * Math.sin(lock)) / vehicle.wheelbase;
    let speed = MOVE * Math.cos(lock), turned = turn;
    x += MOVE * Math.cos(headings[0]! + lock);
    y += MOVE * Math.sin(headings[0]! + lock);
    for (let i = 0; i < units.length; i++) {
      const { hitchBehindAxle, hitchToAxle } = units[i]!, hitch = headings[i]! - headings[i + 1]!, next = (speed * Math.sin(hitch) - hitchBehindAxle * turned * Math.cos(hitch)) / hitchToAxle;
      speed = speed * Math.cos(hitch) + hitchBehindAxle * turned * Math.sin(hitch);
      headings[i]! += turned;
      turned = next;
    }
    headings[units.length]! += turned;
  }
  return null;
}

function posesOf({ train: { combination: { vehicle, units } } }: Judge, x: number, y: number, headings: readonly number[]): BodyPose[] {
  let px = x - vehicle.wheelbase * Math.cos(headings[0]!), py = y - vehicle.wheelbase * Math.sin(headings[0]!);
  return headings.map((heading, i): BodyPose => {
    const unit = units[i - 1];
    if (unit) {
      px -= unit.hitchBehindAxle * Math.cos(headings[i - 1]!) + unit.hitchToAxle * Math.cos(heading);
      py -= unit.hitchBehindAxle * Math.sin(headings[i - 1]!) + unit.hitchToAxle * Math.sin(heading);
    }
    return { axle: sitePoint(px, py), heading: heading as BodyPose["heading"] };
  });
}
