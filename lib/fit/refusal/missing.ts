import { elementAt, sitePoint, type Element, type Point } from "@/lib/plane";
import type { Footprint } from "@/lib/park";
import type { RigBox } from "@/lib/rig";
import type { Approach } from "../approach";
import type { Constraint } from "../constraints";
import { offsetsOf } from "../form";
import { place } from "../frames";
import { limitOf } from "../limit";
import type { Missing, Pose } from "../types";
import type { Demand } from "./demands";
import { closestPair } from "./margins";

/**
 * What is missing where a demand fails, as a line to draw. For things that stand: from the point of the rig that is
 * in the way, or too far out, to where it would have to be; the line is as long as the shortfall. For a service: the
 * run on the ground. Null where there is nothing to measure between two points.
 */
export function missingAt(approach: Approach, demand: Demand, x: number, y: number): Missing | null {
  switch (demand.kind) {
    case "hard": return ofConstraint(approach, demand.constraint, x, y);
    case "need": return demand.test === "power" ? null : ofRun(approach, demand, x, y);
    case "vehicle": return ofVehicle(approach, x, y);
  }
}

function ofConstraint(approach: Approach, constraint: Constraint, x: number, y: number): Missing | null {
  const lowest = lowestOf([...constraint.elements, ...constraint.covered], x, y);
  if (!lowest || lowest.value >= 0) return null;
  const way = uphill(lowest.element, x, y), pose: Pose = { x, y, heading: approach.heading };
  const from = constraint.part === "supports"
    ? limitOf(approach.setting, constraint, lowest.value, pose).from
    : foremost(approach, boxesOf(approach, constraint.part), footprintsOf(approach, constraint), way, pose);
  return along(from, way, -lowest.value);
}

function ofVehicle(approach: Approach, x: number, y: number): Missing | null {
  const places = approach.inLine(new Set()).flatMap(({ box, elements }) => {
    const lowest = lowestOf(elements, x, y);
    return lowest ? [{ box, lowest }] : [];
  });
  const [first, ...rest] = places;
  if (!first) return null;
  const { box, lowest } = rest.reduce((a, b) => (b.lowest.value > a.lowest.value ? b : a), first);
  if (lowest.value >= 0) return null;
  const way = uphill(lowest.element, x, y);
  return along(foremost(approach, [box], [], way, { x, y, heading: approach.heading }), way, -lowest.value);
}

function ofRun({ setting: { policy } }: Approach, { need, test }: Extract<Demand, { kind: "need" }>, x: number, y: number): Missing | null {
  const pair = closestPair(need, x, y);
  if (!pair) return null;
  const { points } = pair.lineAt(x, y), path = pair.pathAt(x, y);
  const short = test === "fall" ? -pair.fallAt(x, y, path) : pair.routeOf(path) - policy.longest[need.service];
  const line = points.map(([px, py]) => sitePoint(px, py));
  const from = line[0], to = line.at(-1);
  return from && to && short > 0 ? { from, to, short, line } : null;
}

interface Lowest {
  readonly element: Element;
  readonly value: number;
}

function lowestOf(elements: readonly Element[], x: number, y: number): Lowest | null {
  return elements.reduce<Lowest | null>((least, element) => {
    const value = elementAt(element, x, y);
    return least === null || value < least.value ? { element, value } : least;
  }, null);
}

/** Over which a distance is taken to change at one rate, mm. */
const STEP = 0.01;

/** The way in which an element grows fastest: the shortest way out. Signed distances grow by one for one that way. */
function uphill(e: Element, x: number, y: number): Point {
  const gx = elementAt(e, x + STEP, y) - elementAt(e, x - STEP, y), gy = elementAt(e, x, y + STEP) - elementAt(e, x, y - STEP);
  const length = Math.hypot(gx, gy);
  return length > 0 ? [gx / length, gy / length] : [1, 0];
}

function along(from: Point, [ux, uy]: Point, short: number): Missing {
  return { from: sitePoint(from[0], from[1]), to: sitePoint(from[0] + ux * short, from[1] + uy * short), short };
}

/** The boxes a constraint speaks of: one part, or ("rig") all that has to be out. */
function boxesOf({ setting: { form } }: Approach, part: string): RigBox[] {
  return form.boxes.filter((b) => (part === "rig" ? b.need === "must" : b.id === part));
}

function footprintsOf({ setting: { terrain } }: Approach, { other }: Constraint): Footprint[] {
  const hookup = terrain.site.hookups.find((h) => h.id === other);
  const solids = terrain.barriers.find((b) => b.id === other)?.solids.map((s) => s.footprint) ?? [];
  return solids.length > 0 || !hookup ? solids : [{ shape: "disc", x: hookup.at[0], y: hookup.at[1], radius: 0 }];
}

/**
 * The point of the boxes that lies furthest against the way out: a corner, or, where a whole side does, the point of
 * it beside the middle of what stands there.
 */
function foremost({ heading }: Approach, boxes: readonly RigBox[], beside: readonly Footprint[], [ux, uy]: Point, pose: Pose): Point {
  const corners = boxes.map((box) => {
    const { x0, x1, y0, y1 } = offsetsOf(box, heading);
    const x: readonly [number, number] = [pose.x + x0, pose.x + x1], y: readonly [number, number] = [pose.y + y0, pose.y + y1];
    const px = Math.abs(ux) < FLAT ? middleBeside(x, beside, 0) : ux > 0 ? x[0] : x[1];
    const py = Math.abs(uy) < FLAT ? middleBeside(y, beside, 1) : uy > 0 ? y[0] : y[1];
    return { at: [px, py] as Point, reach: px * ux + py * uy };
  });
  const [first, ...rest] = corners;
  return first ? rest.reduce((a, b) => (b.reach < a.reach ? b : a), first).at : place(pose, 0, 0);
}

/** Less than this of a unit sideways and the whole side of a box is level with the way out. */
const FLAT = 1e-3;

/** The middle of what a side and the things beside it share along one axis; of the side where they share nothing. */
function middleBeside([low, high]: readonly [number, number], beside: readonly Footprint[], axis: 0 | 1): number {
  const spans = beside.map((f): [number, number] => {
    if (f.shape === "outline") return [Math.min(...f.outline.map((p) => p[axis])), Math.max(...f.outline.map((p) => p[axis]))];
    const middle = axis === 0 ? f.x : f.y;
    return [middle - f.radius, middle + f.radius];
  });
  const shared = spans.map(([a, b]) => [Math.max(low, a), Math.min(high, b)] as const).find(([a, b]) => a <= b);
  return shared ? (shared[0] + shared[1]) / 2 : (low + high) / 2;
}
