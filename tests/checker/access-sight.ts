import { trainOf, type Leg, type Post } from "@/lib/access";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { distanceToLine, groundDepth, holds, thingsOf, type Thing, type Vector } from "./access-ground";
import type { Frame, ReplayTrain } from "./access-replay";

/**
 * A second reading of helpers' posts, written apart from the engine: sight by walking along the line of sight in short steps, safety on the
 * rig as it was pulled along by a string.
 */
const STEP = 20;
/** Heights between a driver's eye and a raised hand, mm. */
const LOW = 1300, HIGH = 1900;
/** A person reaches no lower into what hangs above, mm. */
const TALL = 1900;
const turn = (degrees: number) => (degrees * Math.PI) / 180;

/** Whether somebody at a point can be seen from the driver's seat of a train that stands so: through the open window or in a mirror. */
export function isSeen(site: Site, rig: Rig, train: ReplayTrain, frames: readonly Frame[], p: Vector): boolean {
  const { combination: { vehicle }, rigBody, driver } = trainOf(rig), [cab] = frames, side = driver === "left" ? 1 : -1;
  const [head, mirror] = rigBody === 0 ? [vehicle.wheelbase + 200, vehicle.wheelbase + 900] : [vehicle.wheelbase - 1100, vehicle.wheelbase - 500], out = vehicle.width / 2 + 150;
  const looks = [{ at: [head, (side * vehicle.width) / 2], hand: side, low: turn(25), high: turn(145) }, { at: [mirror, out], hand: 1, low: turn(135), high: turn(181) }, { at: [mirror, -out], hand: -1, low: turn(135), high: turn(181) }] as const;
  return looks.some(({ at: [u, v], hand, low, high }) => {
    const eye = placed(cab!, [u, v]), along = turnFrom(cab!, eye, p) * hand, angle = along < -Math.PI / 2 ? along + 2 * Math.PI : along;
    return angle >= low - SLACK && angle <= high + SLACK && !isHidden(site, train, frames, eye, p);
  });
}

/** Rounding of an angle. */
const SLACK = 1e-6;

/** What is wrong with a post by the rules of `placeSpotters`: each with its numbers. `moments` are those of the leg as driven, `along` each. */
export function faultsOfPost(site: Site, rig: Rig, train: ReplayTrain, leg: Leg, { at, span, away, onRoad }: Post, moments: readonly { readonly along: number; readonly frames: readonly Frame[] }[]): string[] {
  const faults: string[] = [], nearest = Math.min(...moments.map(({ frames }) => toTrain(train, frames, at).distance)), stride = leg.drive.reached / Math.min(40, Math.max(6, Math.ceil(leg.drive.reached / 900)));
  if (nearest < 1500 - 2) faults.push(`${Math.round(nearest)} mm from the rig`);
  if (nearest < away - 5) faults.push(`told ${Math.round(away)} mm away, is ${Math.round(nearest)}`);
  // Out of sight for no longer than between two of the moments that are looked at.
  let hidden = -Infinity, since = 0;
  for (const { along, frames } of moments) {
    if (along < span[0] - 1 || along > span[1] + 1) continue;
    if (isSeen(site, rig, train, frames, at)) hidden = -Infinity;
    else if (hidden === -Infinity) hidden = along;
    since = hidden === -Infinity ? since : Math.max(since, along - hidden);
  }
  if (since > stride) faults.push(`out of sight over ${Math.round(since)} mm`);
  for (const thing of thingsOf(site)) {
    if (thing.from >= TALL || thing.nature === "wire" || thing.nature === "wheel-stop") continue;
    if (away2d(thing, at) < 395) faults.push(`stands in ${thing.id}`);
    const pressed = moments.find(({ frames }) => isPressed(train, frames, at, thing));
    if (pressed) faults.push(`between the rig and ${thing.id} at ${Math.round(pressed.along)} mm`);
  }
  const known = groundDepth(site, at) >= -11 || (site.lot !== undefined && (holds(site.lot.outline, at) || isOnLine(site.lot.outline, at)));
  if (!known) faults.push("on unknown ground");
  if (!onRoad && isInRoad(site, at)) faults.push("in the road, which is not told");
  return faults;
}

/** Whether a point lies on an outline itself. */
function isOnLine(outline: readonly Vector[], at: Vector): boolean {
  return outline.some((a, i) => distanceToLine(at, a, outline[(i + 1) % outline.length]!) < 1);
}

/** So near a rig one steps back from it, and so far back, mm. */
const NEAR = 3000, BACK = 1800;

/** Whether a step back, straight away from a rig that is near, ends at a thing. */
function isPressed(train: ReplayTrain, frames: readonly Frame[], at: Vector, thing: Thing): boolean {
  if (away2d(thing, at) > BACK) return false;
  const { distance, point } = toTrain(train, frames, at);
  if (distance > NEAR || distance === 0) return false;
  const dx = (at[0] - point[0]) / distance, dy = (at[1] - point[1]) / distance;
  for (let r = 0; r <= BACK; r += 50) if (away2d(thing, [at[0] + r * dx, at[1] + r * dy]) < 0) return true;
  return false;
}

function isHidden(site: Site, train: ReplayTrain, frames: readonly Frame[], from: Vector, to: Vector): boolean {
  const n = Math.ceil(Math.hypot(to[0] - from[0], to[1] - from[1]) / STEP), things = thingsOf(site).filter((t) => t.from < HIGH && t.to > LOW && t.nature !== "wire");
  for (let k = 1; k < n; k++) {
    const p: Vector = [from[0] + ((to[0] - from[0]) * k) / n, from[1] + ((to[1] - from[1]) * k) / n];
    if (things.some((thing) => away2d(thing, p) < -1)) return true;
    if (frames.some((frame, i) => train.boxes[i]!.some(([rear, front, half, low, high]) => { const [u, v] = seenFrom(frame, p); return low < HIGH && high > LOW && u > rear + 5 && u < front - 5 && Math.abs(v) < half - 5; }))) return true;
  }
  return false;
}

function toTrain(train: ReplayTrain, frames: readonly Frame[], p: Vector): { distance: number; point: Vector } {
  let best = { distance: Infinity, point: p };
  frames.forEach((frame, i) => train.boxes[i]!.forEach(([rear, front, half]) => {
    const [u, v] = seenFrom(frame, p), cu = Math.min(front, Math.max(rear, u)), cv = Math.min(half, Math.max(-half, v)), distance = Math.hypot(u - cu, v - cv);
    if (distance < best.distance) best = { distance, point: placed(frame, [cu, cv]) };
  }));
  return best;
}

/** From a thing in plan; below zero within. A line has no inside. */
function away2d({ points, radius }: Thing, p: Vector): number {
  if (radius !== null) return Math.hypot(p[0] - points[0]![0], p[1] - points[0]![1]) - radius;
  const rim = Math.min(...points.map((a, i) => distanceToLine(p, a, points[(i + 1) % points.length]!)));
  return points.length > 2 && holds(points, p) ? -rim : rim;
}

function isInRoad({ approach }: Site, p: Vector): boolean {
  return [approach!.road, ...(approach!.exitRoad ? [approach!.exitRoad] : [])].some(({ centreline, width }) => centreline.slice(1).some((b, i) => distanceToLine(p, centreline[i]!, b) < width / 2 - 50));
}

function placed({ axle, head }: Frame, [u, v]: Vector): Vector {
  return [axle[0] + u * head[0] - v * head[1], axle[1] + u * head[1] + v * head[0]];
}

function seenFrom({ axle, head }: Frame, [x, y]: Vector): Vector {
  const dx = x - axle[0], dy = y - axle[1];
  return [dx * head[0] + dy * head[1], dy * head[0] - dx * head[1]];
}

function turnFrom({ head }: Frame, from: Vector, to: Vector): number {
  const dx = to[0] - from[0], dy = to[1] - from[1];
  return Math.atan2(head[0] * dy - head[1] * dx, head[0] * dx + head[1] * dy);
}
