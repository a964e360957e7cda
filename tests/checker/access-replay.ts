import type { ParkedPose, Side } from "@/lib/access";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";

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
  readonly tires: readonly (readonly (readonly [number, number])[])[];
}

type Vector = readonly [number, number];
interface Frame { readonly axle: Vector; readonly head: Vector }

/** Every body's axle and heading while the front axle goes from point to point, everything turned as `headings` at first. */
export function replay(train: ReplayTrain, front: readonly Vector[], headings: readonly number[]): Frame[][] {
  let frames = startAt(train, front[0]!, headings);
  return front.map((point, i) => (i === 0 ? frames : (frames = pull(train, frames, point))));
}

function startAt(train: ReplayTrain, front: Vector, headings: readonly number[]): Frame[] {
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

/** The least room at a moment: tires to the edge of the ground by `groundDepth`, outlines to everything their heights meet. */
export function roomOf(train: ReplayTrain, frames: readonly Frame[], site: Site, keep: ReplayKeep, apart: number): number {
  let room = Infinity;
  frames.forEach(({ axle, head }, i) => {
    const at = ([u, v]: Vector): Vector => [axle[0] + u * head[0] - v * head[1], axle[1] + u * head[1] + v * head[0]];
    for (const tire of train.tires[i]!) room = Math.min(room, groundDepth(site, at(tire)) - keep.footing);
    for (const [rear, front, half, from, to] of train.boxes[i]!) {
      const corners: Vector[] = [[front, half], [front, -half], [rear, -half], [rear, half]].map(([u, v]) => at([u!, v!])), rim = alongRim(corners, apart);
      for (const thing of thingsOf(site)) {
        const above = thing.nature === "wire" ? keep.wireRoom : thing.nature === "crown" ? keep.limbRoom : keep.headroom;
        if (to + above <= thing.from || from - keep.headroom >= thing.to) continue;
        const away = thing.radius === null ? Math.min(...rim.map((p) => distanceToLine(p, thing.points[0]!, thing.points[1]!))) : holds(corners, thing.points[0]!) ? -thing.radius : Math.min(...rim.map((p) => Math.hypot(p[0] - thing.points[0]![0], p[1] - thing.points[0]![1]))) - thing.radius;
        room = Math.min(room, away - (thing.nature === "wire" ? keep.wireClearance : keep.clearance));
      }
    }
  });
  return room;
}

/** How far inside the ground: from the point, in so many directions, step by step until there is no ground. Coarse, and never too little by more than a step. */
export function groundDepth(site: Site, p: Vector, directions = 48, step = 10, most = 700): number {
  if (!isGround(site, p)) return -1;
  let least = most;
  for (let k = 0; k < directions; k++) {
    const c = Math.cos((2 * Math.PI * k) / directions), s = Math.sin((2 * Math.PI * k) / directions);
    for (let r = 0; r < least; r += step) if (!isGround(site, [p[0] + r * c, p[1] + r * s])) least = r;
  }
  return least;
}

function isGround(site: Site, p: Vector): boolean {
  const { road, driveable } = site.approach!, { centreline } = road;
  if (holds(site.pad.outline, p) || driveable.some((outline) => holds(outline, p))) return true;
  return centreline.some((a, i) => {
    const b = centreline[i + 1];
    if (!b) return false;
    // Straight on beyond the ends of the centreline; a round elbow at its corners.
    const dx = b[0] - a[0], dy = b[1] - a[1], t = ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / (dx * dx + dy * dy);
    const low = i === 0 ? -Infinity : 0, high = i === centreline.length - 2 ? Infinity : 1, q = Math.min(high, Math.max(low, t));
    return Math.hypot(p[0] - a[0] - q * dx, p[1] - a[1] - q * dy) <= road.width / 2;
  });
}

interface Thing { readonly nature: "plain" | "crown" | "wire"; readonly from: number; readonly to: number; readonly points: readonly Vector[]; readonly radius: number | null }

function thingsOf(site: Site): Thing[] {
  const stand = site.obstacles.flatMap((o): Thing[] => {
    if (!o.at) return [];
    if (o.kind !== "tree") return [{ nature: "plain", from: o.from!, to: o.to!, points: [o.at], radius: o.radius! }];
    return [{ nature: "plain", from: 0, to: o.crownTo!, points: [o.at], radius: o.trunkRadius! }, { nature: "crown", from: o.crownFrom!, to: o.crownTo!, points: [o.at], radius: o.crownRadius! }];
  });
  return [...stand, ...site.approach!.heightLimits.flatMap((l): Thing[] => (l.height === undefined ? [] : [{ nature: l.kind === "wire" ? "wire" : "plain", from: l.height, to: Infinity, points: l.across, radius: null }]))];
}

function alongRim(corners: readonly Vector[], apart: number): Vector[] {
  return corners.flatMap((a, i) => {
    const b = corners[(i + 1) % corners.length]!, n = Math.max(1, Math.ceil(Math.hypot(b[0] - a[0], b[1] - a[1]) / apart));
    return Array.from({ length: n }, (_, k): Vector => [a[0] + ((b[0] - a[0]) * k) / n, a[1] + ((b[1] - a[1]) * k) / n]);
  });
}

function holds(outline: readonly Vector[], [x, y]: Vector): boolean {
  let inside = false;
  outline.forEach(([ax, ay], i) => {
    const [bx, by] = outline[(i + 1) % outline.length]!;
    if (ay > y !== by > y && x < ax + ((bx - ax) * (y - ay)) / (by - ay)) inside = !inside;
  });
  return inside;
}

function distanceToLine(p: Vector, a: Vector, b: Vector): number {
  const dx = b[0] - a[0], dy = b[1] - a[1], t = Math.min(1, Math.max(0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / (dx * dx + dy * dy)));
  return Math.hypot(p[0] - a[0] - t * dx, p[1] - a[1] - t * dy);
}

/**
 * The obvious search: from the pose, drive out with one angle of the front wheels after some straight way, until the front points along
 * the road, then steer for the road's direction; every combination of a coarse lattice. Gives the most room it met, null where it met no end.
 */
export function searchByDriving(site: Site, rig: Rig, pose: ParkedPose, side: Side, train: ReplayTrain & { readonly steer: number; readonly front: (bend: number) => { readonly at: Vector; readonly headings: readonly number[] } }, keep: ReplayKeep): number | null {
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
