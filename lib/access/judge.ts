import { keptFrom } from "@/lib/park";
import { nearestOnOutline, sitePoint, type Point } from "@/lib/plane";
import { placed, type BodyPoint, type BodyPose, type Configuration } from "@/lib/turning";
import { boxToPoint, boxToRing, pointToRing } from "./separation";
import type { Surface } from "./surface";
import { cornersOf, type Train, type TrainBox } from "./train";
import type { Keep, Meeting } from "./types";
import type { Standing, WayGround } from "./way-ground";

/** What one box of the train keeps from, each with the clearance kept. */
interface Guard {
  readonly box: TrainBox;
  /** Middle of the box along u, and the circle about it. */
  readonly middle: number;
  readonly reach: number;
  readonly against: readonly Against[];
}

interface Against {
  readonly id: string;
  readonly x: number;
  readonly y: number;
  readonly radius: number;
  /** Null for a disc. */
  readonly pieces: readonly (readonly Point[])[] | null;
  readonly keep: number;
}

/** What the bodies and wheels of a train keep from on a ground: room at any moment of a drive. */
export interface Judge {
  readonly train: Train;
  readonly surface: Surface;
  readonly keep: Keep;
  readonly guards: readonly (readonly Guard[])[];
  /** For each body: what its tires may not meet and the boxes above them do not keep from already. */
  readonly underfoot: readonly (readonly Against[])[];
}

export function judgeFor(train: Train, { surface, standing }: WayGround, keep: Keep): Judge {
  const guards = train.boxes.map((boxes) => boxes.map((box): Guard => {
    const { u0, u1, halfWidth } = box;
    return { box, middle: (u0 + u1) / 2, reach: Math.hypot((u1 - u0) / 2, halfWidth), against: standing.flatMap((s) => againstOf(s, keptFrom(s.solid, box, keep, 0))) };
  }));
  const ceiling = train.floor + keep.headroom;
  const underfoot = train.boxes.map((boxes) => standing.flatMap((s) => {
    const { nature, from, to } = s.solid;
    if (nature === "wheel-stop" || from >= ceiling || to <= 0 || keptFrom(s.solid, boxes[0]!, keep, 0) !== null) return [];
    return againstOf(s, keep.clearance);
  }));
  return { train, surface, keep, guards, underfoot };
}

/** The least room at a moment, mm; looks no further once it is below `enough`. */
export function roomAt(judge: Judge, { poses }: Configuration, enough = -Infinity): number {
  let room = Infinity;
  for (let i = 0; i < poses.length; i++) {
    const { axle: [x, y], heading } = poses[i]!, c = Math.cos(heading), s = Math.sin(heading);
    for (const [u, v] of judge.train.combination.bodies[i]!.wheels) {
      const wx = x + u * c - v * s, wy = y + u * s + v * c;
      room = Math.min(room, judge.surface.depth(wx, wy) - judge.keep.footing);
      for (const thing of judge.underfoot[i]!) if (isNearer(thing, wx, wy, room + thing.radius + thing.keep)) room = Math.min(room, fromPoint(thing, wx, wy));
      if (room < enough) return room;
    }
    for (const guard of judge.guards[i]!) {
      const mx = x + guard.middle * c, my = y + guard.middle * s;
      for (const thing of guard.against) {
        if (!isNearer(thing, mx, my, room + thing.radius + guard.reach + thing.keep)) continue;
        room = Math.min(room, fromBox(guard.box, thing, x, y, c, s));
        if (room < enough) return room;
      }
    }
  }
  return room;
}

/** Asked of everything at every moment: by squares, as a root costs more than the rest. */
function isNearer({ x, y }: Against, px: number, py: number, than: number): boolean {
  return than > 0 && (x - px) * (x - px) + (y - py) * (y - py) < than * than;
}

/** The least room at a moment with what meets what there. */
export function meetingAt(judge: Judge, { poses }: Configuration): Meeting {
  let best: Meeting | null = null;
  const offer = (room: number, make: () => Omit<Meeting, "room">) => {
    if (best === null || room < best.room) best = { ...make(), room };
  };
  poses.forEach((pose, i) => {
    const { axle: [x, y], heading } = pose, c = Math.cos(heading), s = Math.sin(heading);
    for (const wheel of judge.train.combination.bodies[i]!.wheels) {
      const at = placed(pose, wheel);
      offer(judge.surface.depth(at[0], at[1]) - judge.keep.footing, () => meeting("wheels", "ground", at, judge.surface.nearestOnRim(at)));
      for (const thing of judge.underfoot[i]!) offer(fromPoint(thing, at[0], at[1]), () => meeting("wheels", thing.id, at, nearestOfThing(thing, at)));
    }
    for (const { box, against } of judge.guards[i]!) for (const thing of against) {
      offer(fromBox(box, thing, x, y, c, s), () => {
        const [a, b] = nearestBetween(outlineOf(pose, box), thing);
        return meeting(box.part, thing.id, a, b);
      });
    }
  });
  return best!;
}

/** The corners of every box of a body, which no other of its points outruns. */
export function fastestPoints({ train }: Judge, body: number): BodyPoint[] {
  return [...train.combination.bodies[body]!.wheels, ...train.boxes[body]!.flatMap(cornersOf)];
}

export function outlineOf(pose: BodyPose, box: TrainBox): Point[] {
  return cornersOf(box).map((corner) => placed(pose, corner));
}

function againstOf({ id, solid: { footprint } }: Standing, keep: number | null): Against[] {
  if (keep === null) return [];
  const { x, y, radius } = footprint;
  return [{ id, x, y, radius, pieces: footprint.shape === "disc" ? null : footprint.pieces, keep }];
}

const scratch = Array.from({ length: 65 }, (_, n) => new Float64Array(2 * n));

function fromBox(box: TrainBox, thing: Against, x: number, y: number, c: number, s: number): number {
  if (thing.pieces === null) {
    const dx = thing.x - x, dy = thing.y - y;
    return boxToPoint(box, dx * c + dy * s, dy * c - dx * s) - thing.radius - thing.keep;
  }
  let least = Infinity;
  for (const piece of thing.pieces) {
    const ring = scratch[piece.length] ?? new Float64Array(2 * piece.length);
    for (let i = 0; i < piece.length; i++) {
      const dx = piece[i]![0] - x, dy = piece[i]![1] - y;
      ring[2 * i] = dx * c + dy * s;
      ring[2 * i + 1] = dy * c - dx * s;
    }
    least = Math.min(least, boxToRing(box, ring));
  }
  return least - thing.keep;
}

function fromPoint(thing: Against, x: number, y: number): number {
  if (thing.pieces === null) return Math.hypot(thing.x - x, thing.y - y) - thing.radius - thing.keep;
  return Math.min(...thing.pieces.map((piece) => pointToRing(piece, x, y))) - thing.keep;
}

function meeting(part: Meeting["part"], other: string, from: Point, to: Point): Omit<Meeting, "room"> {
  return { part, other, from: sitePoint(from[0], from[1]), to: sitePoint(to[0], to[1]) };
}

function nearestOfThing({ x, y, radius, pieces }: Against, p: Point): Point {
  if (pieces) return pieces.map((piece) => nearestOnOutline(p, piece)).reduce((best, q) => (gap(q, p) < gap(best, p) ? q : best));
  const far = gap([x, y], p) || 1;
  return [x + ((p[0] - x) * radius) / far, y + ((p[1] - y) * radius) / far];
}

/** Nearest points of a body's outline and a thing; of rims, so that they are told where the two overlap as well. */
function nearestBetween(outline: readonly Point[], thing: Against): [Point, Point] {
  if (thing.pieces === null) {
    const a = nearestOnOutline([thing.x, thing.y], outline);
    return [a, nearestOfThing(thing, a)];
  }
  const pairs = [...outline.map((a): [Point, Point] => [a, nearestOfThing(thing, a)]), ...thing.pieces.flat().map((b): [Point, Point] => [nearestOnOutline(b, outline), b])];
  return pairs.reduce((best, pair) => (gap(...pair) < gap(...best) ? pair : best));
}

function gap(a: Point, b: Point): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1]);
}
