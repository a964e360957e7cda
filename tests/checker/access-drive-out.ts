import type { Side } from "@/lib/access";
import type { Site } from "@/lib/park";
import type { Vector } from "./access-ground";
import { pull, roomOf, startAt, type ReplayKeep, type ReplayTrain } from "./access-replay";

/**
 * The obvious search: from the pose, drive out with one angle of the front wheels after some straight way, until the front points along
 * the road, then steer for the road's direction; every combination of a coarse lattice. Gives the most room it met, null where it met no end.
 */
export function searchByDriving(site: Site, side: Side, train: ReplayTrain & { readonly steer: number; readonly front: (bend: number) => { readonly at: Vector; readonly headings: readonly number[] } }, keep: ReplayKeep): number | null {
  const line = site.approach!.road.centreline, up = line.at(-1)![1] > line[0]![1] ? 1 : -1;
  const road = Math.atan2((line.at(-1)![1] - line[0]![1]) * up, (line.at(-1)![0] - line[0]![0]) * up), goal = side === "left" ? road + Math.PI : road, hand = Math.sin(goal - Math.PI) >= 0 ? 1 : -1;
  let best: number | null = null;
  for (const bend of train.units.length > 0 ? [0, 0.35, 0.7] : [0]) for (const share of [1, 0.8, 0.6]) for (let ahead = 0; ahead <= 6000; ahead += 600) {
    const found = driveOut(site, train, keep, train.front(bend * hand), { goal, hand, lock: share * train.steer, ahead }, best ?? -1e9);
    if (found !== null && (best === null || found > best)) best = found;
  }
  return best;
}

/** Rolled between two looks, mm. */
const ROLL = 200;

function driveOut(site: Site, train: ReplayTrain, keep: ReplayKeep, start: { readonly at: Vector; readonly headings: readonly number[] }, plan: { goal: number; hand: number; lock: number; ahead: number }, enough: number): number | null {
  let frames = startAt(train, start.at, start.headings), front = start.at, lock = 0, room = Infinity;
  for (let rolled = 0; rolled < 60_000; rolled += ROLL) {
    room = Math.min(room, roomOf(train, frames, site, keep, 300));
    if (room <= enough) return null;
    const { head } = frames[0]!, off = Math.atan2(Math.sin(plan.goal - Math.atan2(head[1], head[0])), Math.cos(plan.goal - Math.atan2(head[1], head[0])));
    const last = frames.at(-1)!.head, lag = Math.abs(Math.atan2(last[0] * head[1] - last[1] * head[0], last[0] * head[0] + last[1] * head[1]));
    if (Math.abs(off) < 0.03 && lag < 0.09) return room;
    const wanted = rolled < plan.ahead ? 0 : Math.max(-plan.lock, Math.min(plan.lock, off * 1.5));
    lock += Math.max(-plan.lock / 10, Math.min(plan.lock / 10, wanted - lock));
    const way = Math.atan2(head[1], head[0]) + lock;
    front = [front[0] + ROLL * Math.cos(way), front[1] + ROLL * Math.sin(way)];
    frames = pull(train, frames, front);
  }
  return null;
}
