import { bodyPoint, placed, type BodyPoint, type BodyPose, type Configuration } from "@/lib/turning";
import { keptFrom } from "@/lib/park";
import { boxToPoint } from "./separation";
import type { Train, TrainBox } from "./train";
import type { Standing } from "./way-ground";
import type { Point } from "@/lib/plane";

/** What a driver looks through. */
export type View = "window" | "near-mirror" | "far-mirror";

/** One way of looking out of the vehicle that steers: from where, and between which directions from straight ahead (radians, to the left). */
interface Outlook {
  readonly view: View;
  readonly eye: BodyPoint;
  readonly from: number;
  readonly to: number;
}

const degrees = (d: number) => (d * Math.PI) / 180;

/**
 * Common practice for cabs, mm and degrees: the driver's head behind the front axle, mirrors a little ahead of it and a hand outside the
 * body. Through the open side window one sees from ahead of the door to well behind it; in a mirror from along the wall outward.
 */
const CAB = { headBehindAxle: 1100, headAside: 450, mirrorBehindAxle: 500, mirrorOut: 150, window: [25, 145], mirror: [135, 181] } as const;
/** In a motorized rig the driver sits ahead of or over the front axle. */
const COACH = { ...CAB, headBehindAxle: -200, mirrorBehindAxle: -900 } as const;
/** From a driver's eye to a helper's raised hand; what spans none of these heights hides nobody, mm. */
const SEEN = { from: 1300, to: 1900 } as const;

/** What a driver of a train has to look through, the plainest first. */
export function outlooksOf({ combination: { vehicle }, rigBody, driver }: Train): Outlook[] {
  const cab = rigBody === 0 ? COACH : CAB, side = driver === "left" ? 1 : -1, mirror = vehicle.width / 2 + cab.mirrorOut;
  const span = ([a, b]: readonly [number, number], s: number) => (s > 0 ? { from: degrees(a), to: degrees(b) } : { from: -degrees(b), to: -degrees(a) });
  const mirrorU = vehicle.wheelbase - cab.mirrorBehindAxle;
  return [
    { view: "window", eye: bodyPoint(vehicle.wheelbase - cab.headBehindAxle, side * (vehicle.width / 2)), ...span(cab.window, side) },
    { view: "near-mirror", eye: bodyPoint(mirrorU, side * mirror), ...span(cab.mirror, side) },
    { view: "far-mirror", eye: bodyPoint(mirrorU, -side * mirror), ...span(cab.mirror, -side) },
  ];
}

/** Solids that hide a person standing behind them, and boxes of the train that do. */
export interface Hiding {
  readonly outlooks: readonly Outlook[];
  readonly boxes: readonly (readonly TrainBox[])[];
  readonly standing: readonly Standing[];
}

export function hidingOf(train: Train, standing: readonly Standing[]): Hiding {
  const none = { clearance: 0, wireClearance: 0, headroom: 0, limbRoom: 0, wireRoom: 0 };
  return { outlooks: outlooksOf(train), boxes: train.boxes.map((boxes) => boxes.filter(({ from, to }) => from < SEEN.to && to > SEEN.from)), standing: standing.filter(({ solid }) => solid.nature !== "wire" && keptFrom(solid, SEEN, none, 0) !== null) };
}

/** Through what the driver sees somebody at a point at a moment; null where through nothing. Touching a corner hides. */
export function viewOf({ outlooks, boxes, standing }: Hiding, { poses }: Configuration, p: Point): View | null {
  const cab = poses[0]!, c = Math.cos(cab.heading), s = Math.sin(cab.heading);
  for (const { view, eye, from, to } of outlooks) {
    const [ex, ey] = placed(cab, eye), dx = p[0] - ex, dy = p[1] - ey;
    let angle = Math.atan2(dy * c - dx * s, dx * c + dy * s);
    if (angle < from) angle += 2 * Math.PI;
    if (angle > to && angle - 2 * Math.PI >= from) angle -= 2 * Math.PI;
    if (angle < from || angle > to) continue;
    const hidden = poses.some((pose, i) => boxes[i]!.some((box) => crossesBox(pose, box, [ex, ey], p))) || standing.some(({ solid }) => hides(solid.footprint, [ex, ey], p));
    if (!hidden) return view;
  }
  return null;
}

/** Whether the line of sight passes through a box of the train; along its wall from an eye that lies on it does not. */
function crossesBox({ axle, heading }: BodyPose, box: TrainBox, from: Point, to: Point): boolean {
  const c = Math.cos(heading), s = Math.sin(heading);
  const seen = ([x, y]: Point): Point => [(x - axle[0]) * c + (y - axle[1]) * s, (y - axle[1]) * c - (x - axle[0]) * s];
  const [ax, ay] = seen(from), [bx, by] = seen(to);
  let enter = 0, leave = 1;
  for (const [p, d, low, high] of [[ax, bx - ax, box.u0, box.u1], [ay, by - ay, -box.halfWidth, box.halfWidth]] as const) {
    if (Math.abs(d) < 1e-9) {
      if (p <= low + SKIN || p >= high - SKIN) return false;
      continue;
    }
    const t0 = (low + SKIN - p) / d, t1 = (high - SKIN - p) / d;
    enter = Math.max(enter, Math.min(t0, t1));
    leave = Math.min(leave, Math.max(t0, t1));
  }
  return leave > enter;
}

/** A window lies in the wall: so much of the wall hides nothing, mm. */
const SKIN = 1;

function hides(footprint: Standing["solid"]["footprint"], from: Point, to: Point): boolean {
  if (distanceTo(from, to, [footprint.x, footprint.y]) > footprint.radius) return false;
  if (footprint.shape === "disc") return true;
  return footprint.pieces.some((piece) => piece.some((a, i) => cross(from, to, a, piece[(i + 1) % piece.length]!)));
}

function distanceTo(a: Point, b: Point, p: Point): number {
  const dx = b[0] - a[0], dy = b[1] - a[1], t = Math.min(1, Math.max(0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / (dx * dx + dy * dy)));
  return Math.hypot(p[0] - a[0] - t * dx, p[1] - a[1] - t * dy);
}

function cross(a: Point, b: Point, c: Point, d: Point): boolean {
  const side = (p: Point, q: Point, r: Point) => (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]);
  return side(a, b, c) * side(a, b, d) <= 0 && side(c, d, a) * side(c, d, b) <= 0;
}

/** From a point to the nearest box of the train at a moment, mm; below zero within. */
export function fromTrain(boxes: readonly (readonly TrainBox[])[], { poses }: Configuration, [x, y]: Point): number {
  let least = Infinity;
  poses.forEach(({ axle, heading }, i) => {
    const c = Math.cos(heading), s = Math.sin(heading), dx = x - axle[0], dy = y - axle[1];
    for (const box of boxes[i]!) least = Math.min(least, boxToPoint(box, dx * c + dy * s, dy * c - dx * s));
  });
  return least;
}
