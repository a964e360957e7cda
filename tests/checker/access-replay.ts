import { trainOf } from "@/lib/access";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { alongRim, distanceToLine, groundDepth, holds, thingsOf, type Thing, type Vector } from "./access-ground";

/**
 * A second reading of a way in, written apart from the engine: nothing but string and sticks, and points on outlines. The front axle is
 * moved a few millimetres at a time along given points; what hangs on a hitch is turned so that its axle stays on its line. Room is
 * measured from points set along each outline to polygons and circles, as one would with a tape.
 */
export interface ReplayTrain {
  readonly wheelbase: number;
  readonly units: readonly { readonly hitchBehindAxle: number; readonly hitchToAxle: number }[];
  /** For each body: boxes as [rear, front, half width, from, to] from its axle, and tires as [u, v]. */
  readonly boxes: readonly (readonly (readonly [number, number, number, number, number])[])[];
  readonly tires: readonly (readonly Vector[])[];
  /** Of the rig's own body, mm: no tire may meet what stands lower. */
  readonly floor: number;
}

/** The lengths of a rig as it drives, which the engine reads from its record. */
export function replayTrain(rig: Rig): ReplayTrain {
  const { combination, boxes, floor } = trainOf(rig);
  return {
    floor, wheelbase: combination.vehicle.wheelbase, units: combination.units,
    boxes: boxes.map((list) => list.map(({ u0, u1, halfWidth, from, to }) => [u0, u1, halfWidth, from, to] as const)),
    tires: combination.bodies.map(({ wheels }) => wheels.map(([u, v]) => [u, v] as const)),
  };
}

/** A body's axle and which way it faces. */
export interface Frame { readonly axle: Vector; readonly head: Vector }

/** Every body's axle and heading while the front axle goes from point to point, everything turned as `headings` at first. */
export function replay(train: ReplayTrain, front: readonly Vector[], headings: readonly number[]): Frame[][] {
  let frames = startAt(train, front[0]!, headings);
  return front.map((point, i) => (i === 0 ? frames : (frames = pull(train, frames, point))));
}

export function startAt(train: ReplayTrain, front: Vector, headings: readonly number[]): Frame[] {
  let pin = front;
  return headings.map((h, i) => {
    const head: Vector = [Math.cos(h), Math.sin(h)], reach = i === 0 ? train.wheelbase : train.units[i - 1]!.hitchToAxle;
    const axle: Vector = [pin[0] - reach * head[0], pin[1] - reach * head[1]], behind = train.units[i]?.hitchBehindAxle ?? 0;
    pin = [axle[0] - behind * head[0], axle[1] - behind * head[1]];
    return { axle, head };
  });
}

export function pull(train: ReplayTrain, frames: readonly Frame[], front: Vector): Frame[] {
  let pin = front;
  return frames.map(({ axle }, i) => {
    const reach = i === 0 ? train.wheelbase : train.units[i - 1]!.hitchToAxle, dx = pin[0] - axle[0], dy = pin[1] - axle[1], far = Math.hypot(dx, dy);
    const head: Vector = [dx / far, dy / far], next: Vector = [pin[0] - reach * head[0], pin[1] - reach * head[1]], behind = train.units[i]?.hitchBehindAxle ?? 0;
    pin = [next[0] - behind * head[0], next[1] - behind * head[1]];
    return { axle: next, head };
  });
}

export interface ReplayKeep { readonly clearance: number; readonly wireClearance: number; readonly headroom: number; readonly limbRoom: number; readonly wireRoom: number; readonly footing: number }

/** The least room at a moment: tires to the rim of the ground and to what is low, outlines to everything their heights meet. */
export function roomOf(train: ReplayTrain, frames: readonly Frame[], site: Site, keep: ReplayKeep, apart: number, depth = groundDepth): number {
  const things = knownThings(site);
  let room = Infinity;
  frames.forEach(({ axle, head }, i) => {
    const at = ([u, v]: Vector): Vector => [axle[0] + u * head[0] - v * head[1], axle[1] + u * head[1] + v * head[0]];
    for (const tire of train.tires[i]!) {
      const p = at(tire);
      room = Math.min(room, depth(site, p) - keep.footing);
      for (const thing of things) if (thing.nature !== "wheel-stop" && thing.from < train.floor + keep.headroom && thing.to > 0) room = Math.min(room, fromPoint(thing, p) - (thing.nature === "wire" ? keep.wireClearance : keep.clearance));
    }
    for (const [rear, front, half, from, to] of train.boxes[i]!) {
      const corners: Vector[] = [[front, half], [front, -half], [rear, -half], [rear, half]].map(([u, v]) => at([u!, v!])), middle = at([(front + rear) / 2, 0]), reach = Math.hypot((front - rear) / 2, half);
      for (const thing of things) {
        const above = thing.nature === "wire" ? keep.wireRoom : thing.nature === "crown" ? keep.limbRoom : keep.headroom, kept = thing.nature === "wire" ? keep.wireClearance : keep.clearance;
        if (to + above <= thing.from || from - keep.headroom >= thing.to || fromPoint(thing, middle) - reach - kept >= room) continue;
        room = Math.min(room, fromOutline(thing, corners, apart) - kept);
      }
    }
  });
  return room;
}

const things = new WeakMap<Site, Thing[]>();

function knownThings(site: Site): Thing[] {
  let list = things.get(site);
  if (!list) things.set(site, (list = thingsOf(site)));
  return list;
}

/** Below zero within. */
function fromPoint({ points, radius }: Thing, p: Vector): number {
  if (radius !== null) return Math.hypot(p[0] - points[0]![0], p[1] - points[0]![1]) - radius;
  if (points.length === 2) return distanceToLine(p, points[0]!, points[1]!);
  const rim = Math.min(...points.map((a, i) => distanceToLine(p, a, points[(i + 1) % points.length]!)));
  return holds(points, p) ? -rim : rim;
}

/** From a box to a thing, both by points on their rims; below zero, by no more than that, where they meet. */
function fromOutline(thing: Thing, corners: readonly Vector[], apart: number): number {
  const rim = alongRim(corners, apart), away = Math.min(...rim.map((p) => fromPoint(thing, p)));
  if (thing.radius !== null) return holds(corners, thing.points[0]!) ? -thing.radius : away;
  const inside = thing.points.some((p) => holds(corners, p)), ends = Math.min(...thing.points.map((p) => Math.min(...corners.map((a, i) => distanceToLine(p, a, corners[(i + 1) % 4]!)))));
  const crossed = thing.points.some((a, i) => corners.some((c, k) => crosses(a, thing.points[(i + 1) % thing.points.length]!, c, corners[(k + 1) % 4]!)));
  return inside || crossed ? Math.min(-1, away) : Math.min(away, ends);
}

function crosses(a: Vector, b: Vector, c: Vector, d: Vector): boolean {
  const side = (p: Vector, q: Vector, r: Vector) => (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]);
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}
