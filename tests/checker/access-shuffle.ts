import type { ParkedPose } from "@/lib/access";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { trainOf } from "@/lib/access";
import { distanceToLine, type Vector } from "./access-ground";
import { replayTrain, roomOf, type Frame, type ReplayKeep, type ReplayTrain } from "./access-replay";

/**
 * A search by brute force for any way at all, shuffling included: from the pose, forwards and in reverse, wheels left, straight or right, from
 * every place that was not come to before. Places are told apart by squares and sectors, the most promising taken first. Written apart from the engine.
 */
export interface Shuffled {
  /** Whether it came to stand on the road, along it. */
  readonly reached: boolean;
  /** Places gone on from, and whether there were any left. */
  readonly places: number;
  readonly exhausted: boolean;
}

/** Squares (mm) and sectors (radians) in which places count as the same; rolled at once, in so many looks, mm. */
const SQUARE = 250, SECTOR = Math.PI / 36, ROLL = 900, LOOKS = 3;
/** A place along the road is within so much of its direction, radians. */
const ALONG = 0.3;
/** Moves of the string, mm. */
const MOVE = 50;

interface Place {
  readonly frames: readonly Frame[];
  readonly rolled: number;
}

/** Every moment has at least `room`. Gives up after so many places. */
export function searchByShuffling(site: Site, rig: Rig, pose: ParkedPose, keep: ReplayKeep, room: number, most: number): Shuffled {
  const train = replayTrain(rig), { lock, maxBend } = trainOf(rig), seen = new Set<string>(), open = new Queue();
  const holds = (frames: readonly Frame[]) => (maxBend === null || bendOf(frames) <= maxBend) && roomOf(train, frames, site, keep, 200) >= room;
  for (const bend of train.units.length > 0 ? [0, 0.35, -0.35, 0.7, -0.7] : [0]) {
    const frames = framesAt(train, rig, pose, bend);
    if (holds(frames)) open.add({ frames, rolled: 0 }, 0);
  }
  let places = 0;
  for (let place = open.take(); place && places < most; place = open.take()) {
    const key = keyOf(place.frames);
    if (seen.has(key)) continue;
    seen.add(key);
    places++;
    if (isOnRoad(site, train, place.frames, keep.footing)) return { reached: true, places, exhausted: false };
    for (const gear of [1, -1]) for (const steer of [0, lock, -lock]) {
      const frames = rolledOn(train, place.frames, gear, steer, holds);
      if (frames && !seen.has(keyOf(frames))) open.add({ frames, rolled: place.rolled + ROLL }, place.rolled + ROLL + 2 * toRoad(site, frames));
    }
  }
  return { reached: false, places, exhausted: places < most };
}

/** Null where some look on the way has too little room. */
function rolledOn(train: ReplayTrain, frames: readonly Frame[], gear: number, steer: number, holds: (frames: readonly Frame[]) => boolean): readonly Frame[] | null {
  let now = frames;
  for (let look = 0; look < LOOKS; look++) {
    for (let rolled = 0; rolled < ROLL / LOOKS; rolled += MOVE) now = moved(train, now, gear * MOVE, steer);
    if (!holds(now)) return null;
  }
  return now;
}

/** A small move of the steering vehicle's rear axle, everything behind it turned by what its hitch is moved across, about its own axle. */
function moved(train: ReplayTrain, frames: readonly Frame[], by: number, steer: number): Frame[] {
  const turn = (by * Math.tan(steer)) / train.wheelbase;
  let speed = by, turned = turn, pin: Vector = [0, 0];
  return frames.map(({ axle, head }, i) => {
    if (i === 0) {
      const middle = rotated(head, turn / 2), next: Vector = [axle[0] + by * middle[0], axle[1] + by * middle[1]], facing = rotated(head, turn), behind = train.units[0]?.hitchBehindAxle ?? 0;
      pin = [next[0] - behind * facing[0], next[1] - behind * facing[1]];
      return { axle: next, head: facing };
    }
    const { hitchBehindAxle, hitchToAxle } = train.units[i - 1]!, before = frames[i - 1]!.head, sin = before[1] * head[0] - before[0] * head[1], cos = before[0] * head[0] + before[1] * head[1];
    const across = (speed * sin - hitchBehindAxle * turned * cos) / hitchToAxle;
    speed = speed * cos + hitchBehindAxle * turned * sin;
    turned = across;
    const facing = rotated(head, across), next: Vector = [pin[0] - hitchToAxle * facing[0], pin[1] - hitchToAxle * facing[1]], behind = train.units[i]?.hitchBehindAxle ?? 0;
    pin = [next[0] - behind * facing[0], next[1] - behind * facing[1]];
    return { axle: next, head: facing };
  });
}

function framesAt(train: ReplayTrain, rig: Rig, { x, y, heading }: ParkedPose, bend: number): Frame[] {
  const { rigAxle, rigBody } = trainOf(rig), facing = heading === "tail-in" ? -1 : 1, head: Vector = [facing, 0], axle: Vector = [x + facing * rigAxle, y];
  if (rigBody === 0 || train.units.length === 0) {
    let pin: Frame = { axle, head };
    return [pin, ...train.units.map((u) => (pin = { axle: [pin.axle[0] - facing * (u.hitchBehindAxle + u.hitchToAxle), y], head }))];
  }
  const { hitchBehindAxle, hitchToAxle } = train.units[0]!, towing = rotated(head, bend);
  return [{ axle: [axle[0] + facing * hitchToAxle + hitchBehindAxle * towing[0], y + hitchBehindAxle * towing[1]], head: towing }, { axle, head }];
}

function isOnRoad({ approach }: Site, train: ReplayTrain, frames: readonly Frame[], footing: number): boolean {
  const { centreline, width } = approach!.road;
  return frames.every(({ axle, head }, i) => train.tires[i]!.every(([u, v]) => toLine(centreline, [axle[0] + u * head[0] - v * head[1], axle[1] + u * head[1] + v * head[0]]).distance <= width / 2 - footing))
    && frames.every(({ axle, head }) => Math.abs(Math.sin(Math.atan2(head[1], head[0]) - toLine(centreline, axle).heading)) < ALONG);
}

/** How far the foremost axle and the last one are from the road's middle, the further of them. */
function toRoad({ approach }: Site, frames: readonly Frame[]): number {
  return Math.max(...frames.map(({ axle }) => toLine(approach!.road.centreline, axle).distance));
}

function toLine(line: readonly Vector[], p: Vector): { distance: number; heading: number } {
  return line.slice(1).map((b, i) => ({ distance: distanceToLine(p, line[i]!, b), heading: Math.atan2(b[1] - line[i]![1], b[0] - line[i]![0]) })).reduce((best, each) => (each.distance < best.distance ? each : best));
}

function bendOf(frames: readonly Frame[]): number {
  return Math.max(0, ...frames.slice(1).map(({ head }, i) => Math.abs(Math.atan2(frames[i]!.head[1] * head[0] - frames[i]!.head[0] * head[1], frames[i]!.head[0] * head[0] + frames[i]!.head[1] * head[1]))));
}

function rotated([x, y]: Vector, by: number): Vector {
  const c = Math.cos(by), s = Math.sin(by);
  return [x * c - y * s, x * s + y * c];
}

function keyOf(frames: readonly Frame[]): string {
  const [x, y] = frames[0]!.axle;
  return [Math.round(x / SQUARE), Math.round(y / SQUARE), ...frames.map(({ head }) => Math.round(Math.atan2(head[1], head[0]) / SECTOR))].join(" ");
}

/** The least first: a binary heap. */
class Queue {
  private readonly heap: { place: Place; cost: number }[] = [];

  add(place: Place, cost: number): void {
    let i = this.heap.push({ place, cost }) - 1;
    for (let up = (i - 1) >> 1; i > 0 && this.heap[up]!.cost > cost; i = up, up = (i - 1) >> 1) this.swap(i, up);
  }

  take(): Place | undefined {
    const first = this.heap[0], last = this.heap.pop();
    if (!first || !last || this.heap.length === 0) return first?.place;
    this.heap[0] = last;
    for (let i = 0, down = 1; down < this.heap.length; i = down, down = 2 * i + 1) {
      if (down + 1 < this.heap.length && this.heap[down + 1]!.cost < this.heap[down]!.cost) down++;
      if (this.heap[down]!.cost >= last.cost) break;
      this.swap(i, down);
    }
    return first.place;
  }

  private swap(a: number, b: number): void {
    [this.heap[a], this.heap[b]] = [this.heap[b]!, this.heap[a]!];
  }
}
