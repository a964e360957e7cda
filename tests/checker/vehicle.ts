import type { Site } from "@/lib/park/schema";
import { isMotorized, type Rig } from "@/lib/rig/schema";
import type { Policy } from "@/lib/fit/policy";
import type { Heading, Pose } from "@/lib/fit/types";
import { corners, depthInOutline, edges, insideOutline, type P, type Rect } from "./geometry";
import { clear, insideRoad, roadEdges, things } from "./slacks";
import { liftAsked } from "./ground";
import { footprint, hitchLength, solidsInForce, type Solid } from "./solids";

/** Kept between the rig and a vehicle that stands in line with it. */
const IN_LINE_GAP = 300;

/**
 * Slack of standing in line at a pose, -Infinity where it cannot. The rule leaves three things open, so there are
 * two readings: `strict` measures the gap from parts too, raises the vehicle as levelling raises the rig, keeps
 * wires at their own clearance and the setback from the road; `loose` does none of these.
 */
export function inLineSlack(site: Site, rig: Rig, policy: Policy, pose: Pose, nice: readonly string[], reading: "strict" | "loose"): number {
  const { tow } = rig;
  if (tow?.stays !== "on-site") return -Infinity;
  return Math.max(...inLineBoxes(site, rig, pose.heading, nice, reading).map((box) => standing(site, rig, policy, pose, box, reading)));
}

/** Ids of the stalls that take the vehicle, with how far inside the stall it lies when it stands in its middle. */
export function stallsFor(site: Site, rig: Rig): { id: string; slack: number }[] {
  const { tow } = rig;
  if (tow?.stays !== "on-site") return [];
  const all = (site.parking ?? []).map((stall) => ({ id: stall.id, slack: stallSlack(stall.outline, tow.length, tow.width) }));
  return all.filter((s) => s.slack > -Infinity);
}

export function vehicleCount(rig: Rig): number {
  const own = isMotorized(rig.kind) ? 1 : 0;
  return own + (rig.tow && rig.tow.stays !== "elsewhere" ? 1 : 0);
}

/** The road end of a back-in is the end that faces the road; on a pull-through both ends are. */
function inLineBoxes(site: Site, rig: Rig, heading: Heading, nice: readonly string[], reading: "strict" | "loose"): Pick<Solid, "u" | "v">[] {
  const { length, width } = rig.tow!;
  const solids = solidsInForce(rig, nice).filter((s) => reading === "strict" || s.kind === "body" || s.kind === "hitch");
  const front = Math.max(rig.body.length + hitchLength(rig), ...solids.map((s) => s.u[1]));
  const rear = Math.min(0, ...solids.map((s) => s.u[0]));
  const v: [number, number] = [-width / 2, width / 2];
  const ahead = { u: [front + IN_LINE_GAP, front + IN_LINE_GAP + length] as const, v };
  const behind = { u: [rear - IN_LINE_GAP - length, rear - IN_LINE_GAP] as const, v };
  if (site.entry === "pull-through") return [ahead, behind];
  return [heading === "tail-in" ? ahead : behind];
}

function standing(site: Site, rig: Rig, policy: Policy, pose: Pose, box: Pick<Solid, "u" | "v">, reading: "strict" | "loose"): number {
  const rect = footprint(pose, box);
  const setback = reading === "strict" ? policy.roadSetback : 0;
  const onPad = Math.min(...corners(rect).map((c) => depthInOutline(c, site.pad.outline)));
  const inside = Math.min(...roadEdges(site).flatMap((edge) => corners(rect).map((c) => insideRoad(site, edge, c))));
  return Math.min(onPad, inside - setback, clearance(site, rig, policy, rect, reading));
}

function clearance(site: Site, rig: Rig, policy: Policy, rect: Rect, reading: "strict" | "loose"): number {
  const lift = liftAsked(site, rig, policy);
  const rise = reading === "strict" ? lift.side + lift.along : 0;
  const kept = reading === "strict" ? policy : { ...policy, wireClearance: policy.clearance };
  const vehicle: Solid = { id: "vehicle", kind: "vehicle", must: true, u: [0, 0], v: [0, 0], from: 0, to: rig.tow!.height };
  return Math.min(Infinity, ...things(site).map((t) => clear(vehicle, rect, t, rise, kept, true) ?? Infinity));
}

/** Along the longest side; the rectangle is tried wherever a corner of the stall would let it lie. */
function stallSlack(outline: readonly P[], length: number, width: number): number {
  const sides = edges(outline).map(([a, b]) => [b[0] - a[0], b[1] - a[1]] as const);
  const longest = sides.reduce((m, s) => (Math.hypot(...s) > Math.hypot(...m) ? s : m));
  const n = Math.hypot(...longest), c = longest[0] / n, s = longest[1] / n;
  const turned = outline.map(([x, y]) => [c * x + s * y, c * y - s * x] as P);
  if (turned.length === 4) {
    const box = boxAround(turned);
    const rectangular = turned.every((p) => Math.min(Math.abs(p[0] - box.x0), Math.abs(p[0] - box.x1)) < 1 && Math.min(Math.abs(p[1] - box.y0), Math.abs(p[1] - box.y1)) < 1);
    if (rectangular) return Math.min(box.x1 - box.x0 - length, box.y1 - box.y0 - width) / 2;
  }
  return fitsSomewhere(turned, length, width) ? 0 : -Infinity;
}

function fitsSomewhere(outline: readonly P[], length: number, width: number): boolean {
  const box = boxAround(outline);
  const xs = [...outline.flatMap((p) => [p[0], p[0] - length]), box.x0], ys = [...outline.flatMap((p) => [p[1], p[1] - width]), box.y0];
  for (let i = 0; i <= 40; i++) {
    xs.push(box.x0 + ((box.x1 - box.x0 - length) * i) / 40);
    ys.push(box.y0 + ((box.y1 - box.y0 - width) * i) / 40);
  }
  return xs.some((x) => ys.some((y) => inside({ x0: x, x1: x + length, y0: y, y1: y + width }, outline)));
}

function inside(rect: Rect, outline: readonly P[]): boolean {
  const shrunk = { x0: rect.x0 + 1e-3, x1: rect.x1 - 1e-3, y0: rect.y0 + 1e-3, y1: rect.y1 - 1e-3 };
  const free = (p: P) => !(p[0] > shrunk.x0 && p[0] < shrunk.x1 && p[1] > shrunk.y0 && p[1] < shrunk.y1);
  return corners(shrunk).every((c) => insideOutline(c, outline)) && outline.every(free);
}

function boxAround(points: readonly P[]): Rect {
  const xs = points.map((p) => p[0]), ys = points.map((p) => p[1]);
  return { x0: Math.min(...xs), x1: Math.max(...xs), y0: Math.min(...ys), y1: Math.max(...ys) };
}
