import type { SiteInput } from "@/lib/park/schema";
import { isMotorized, type Rig } from "@/lib/rig/schema";
import { between, chance, margin, pick, type Random } from "./random";
import { obstaclesNear, postsNear, type Box } from "./random-obstacles";

type Outline = [number, number][];

/**
 * A site made for a rig, so that what decides lies close: the pad a little too long or a little too short for
 * where the rig would stand, obstacles about a clearance away, hookups about a cord away.
 */
export function randomSite(r: Random, rig: Rig): SiteInput {
  const motorized = isMotorized(rig.kind);
  const entry = chance(r, 0.6) ? ("back-in" as const) : ("pull-through" as const);
  const enterFrom = entry === "pull-through" && chance(r, 0.4) ? ("either" as const) : undefined;
  const noseIn = entry === "pull-through" ? !(enterFrom && chance(r, 0.4)) : motorized && chance(r, 0.5);
  const length = padLength(r, rig, noseIn), half = padHalf(r, rig);
  const nominal = nominalPose(rig, noseIn, length);
  const placed = (u: number, v: number): [number, number] => (noseIn ? [nominal + u, v] : [nominal - u, -v]);
  const boxes = rigBoxes(rig, placed);
  return {
    id: "site", label: "S-1", loop: "S", entry, enterFrom,
    pad: { outline: padOutline(r, length, half), surface: pick(r, ["gravel", "paved", "grass"]) },
    roadEdge: roadEdge(r), exitEdge: entry === "pull-through" && chance(r, 0.6) ? exitEdge(r, length + (noseIn ? overhangs(rig).front : overhangs(rig).rear)) : null,
    lot: chance(r, 0.4) ? { outline: lotOutline(r, boxes, length, half) } : null,
    ground: ground(r, length, half),
    obstacles: obstaclesNear(r, boxes, length),
    hookups: postsNear(r, rig, placed, boxes),
    parking: chance(r, 0.35) ? [{ id: "stall", outline: stall(r, rig, half) }] : null,
    rules: chance(r, 0.3) ? rules(r, rig) : null,
  };
}

/** Where the rig's rear face would stand: on the centreline, as deep in the site as its supports allow. */
function nominalPose(rig: Rig, noseIn: boolean, length: number): number {
  const us = rig.supports.map((s) => s.at[0]);
  return Math.round(noseIn ? length - 200 - Math.max(...us) : length - 200 + Math.min(...us));
}

function padLength(r: Random, rig: Rig, noseIn: boolean): number {
  const us = rig.supports.map((s) => s.at[0]);
  const spread = Math.max(...us) - Math.min(...us), { rear, front } = overhangs(rig);
  const inLine = rig.tow?.stays === "on-site" && chance(r, 0.4) ? rig.tow.length + 300 : 0;
  return Math.round(Math.max(2500, spread + 200 + Math.max(150, noseIn ? rear : front) + inLine + margin(r)));
}

/** How far body, hitch, must parts and a hitched vehicle reach beyond the outermost supports. */
function overhangs(rig: Rig): { rear: number; front: number } {
  const us = rig.supports.map((s) => s.at[0]), ahead = rig.body.length + (rig.hitch?.length ?? 0);
  const hitched = rig.tow?.stays === "hitched" ? rig.tow.length : 0, motorized = isMotorized(rig.kind);
  const deep = (side: "rear" | "front") => Math.max(0, ...rig.parts.filter((p) => p.side === side && p.need === "must").map((p) => p.depth));
  return {
    rear: Math.max(deep("rear"), motorized ? hitched : 0) + Math.min(...us),
    front: Math.max(ahead + (motorized ? 0 : hitched), rig.body.length + deep("front")) - Math.max(...us),
  };
}

function padHalf(r: Random, rig: Rig): number {
  const vs = rig.supports.map((s) => Math.abs(s.at[1]));
  return Math.round(Math.max(...vs) + 150 + margin(r) / 2);
}

/** `half` is what the supports need to either side of the centreline; other shapes than a box take more in places. */
function padOutline(r: Random, length: number, half: number): Outline {
  const flare = between(r, 200, 1500), bite = between(r, 50, 500), rect: Outline = [[0, -half], [length, -half], [length, half], [0, half]];
  const form = pick(r, ["rect", "rect", "rect", "flared", "bitten", "slanted", "wedge"]);
  if (form === "bitten" || form === "wedge") half += chance(r, 0.8) ? bite : 0;
  switch (form) {
    case "flared": return [[0, -half - flare], [Math.round(length * 0.3), -half], [length, -half], [length, half], [Math.round(length * 0.3), half], [0, half + flare]];
    case "bitten": return [[0, -half], [length, -half], [length, half], [Math.round(length * 0.7), half], [Math.round(length * 0.6), half - bite], [Math.round(length * 0.4), half - bite], [Math.round(length * 0.35), half], [0, half]];
    case "slanted": return [[0, -half - 200], [length, -half], [length + 100, half + 150], [-between(r, 0, 800), half]];
    case "wedge": return [[0, -half], [length, -half + bite], [length + 300, 0], [length, half], [0, half]];
    default: return rect;
  }
}

function roadEdge(r: Random): [[number, number], [number, number]] | null {
  if (chance(r, 0.5)) return null;
  const skew = between(r, -1800, 1800), back = Math.round(chance(r, 0.2) ? 0 : Math.abs(skew) * 0.45 + Math.max(0, margin(r) / 2));
  return chance(r, 0.5) ? [[skew - back, -3000], [-skew - back, 3000]] : [[-skew - back, 3000], [skew - back, -3000]];
}

function exitEdge(r: Random, length: number): [[number, number], [number, number]] {
  const skew = between(r, -1500, 1500), beyond = Math.round(Math.abs(skew) * 0.4) + margin(r);
  return [[length + beyond + skew, -3000], [length + beyond - skew, 3000]];
}

function lotOutline(r: Random, boxes: readonly Box[], length: number, half: number): Outline {
  const y1 = Math.max(half, ...boxes.map((b) => b.y1)) + margin(r), y0 = Math.min(-half, ...boxes.map((b) => b.y0)) - margin(r);
  const x1 = Math.max(length, ...boxes.map((b) => b.x1)) + margin(r), x0 = Math.min(0, ...boxes.map((b) => b.x0)) - between(r, 0, 3000);
  if (chance(r, 0.6)) return [[x0, y0], [x1, y0], [x1, y1], [x0, y1]];
  const step = between(r, 50, 1200), cut = Math.round(x0 + (x1 - x0) * (0.3 + 0.4 * r.next()));
  return [[x0, y0], [x1, y0 + 200], [x1, y1], [cut, y1], [cut - 150, y1 - Math.min(step, (y1 - y0) / 3)].map(Math.round) as [number, number], [x0, y1 - 50]];
}

function ground(r: Random, length: number, half: number): SiteInput["ground"] {
  const slope = () => Math.round((chance(r, 0.6) ? r.next() * 1.8 - 0.9 : r.next() * 7 - 3.5) * 100) / 100;
  const along = slope(), across = slope();
  if (chance(r, 0.7)) return { along, across };
  const spots: [number, number][] = [[0, -half], [length, -half], [length, half], [0, half], [Math.round(length / 2), 0]];
  const base = between(r, -50, 50);
  const heights = spots.slice(0, between(r, 3, 5)).map(([x, y]) => [x, y, Math.round(base + (along * x + across * y) / 100) + between(r, -15, 15)] as [number, number, number]);
  return { heights };
}

function stall(r: Random, rig: Rig, half: number): Outline {
  const length = (rig.tow?.length ?? 5500) + margin(r), width = (rig.tow?.width ?? 2000) + margin(r);
  const long = Math.round(Math.max(length, 500)), wide = Math.round(Math.max(width, 400)), y = half + 700;
  return chance(r, 0.7) ? [[1000, y], [1000 + long, y], [1000 + long, y + wide], [1000, y + wide]] : [[1000, y], [1000 + wide, y], [1000 + wide, y + long], [1000, y + long]];
}

function rules(r: Random, rig: Rig): NonNullable<SiteInput["rules"]> {
  const long = Math.round(rig.body.length + (rig.hitch?.length ?? 0));
  return {
    maxLength: chance(r, 0.5) ? Math.max(1000, long + between(r, -100, 1500)) : null,
    maxGuests: chance(r, 0.5) ? between(r, 4, 8) : null,
    maxVehicles: chance(r, 0.5) ? between(r, 1, 3) : null,
    pets: chance(r, 0.5) ? chance(r, 0.85) : null,
    tents: chance(r, 0.5) ? between(r, 0, 2) : null,
    accessible: chance(r, 0.12) ? true : null,
  };
}

/** Everything the rig has, where it would stand: what obstacles are put next to. */
function rigBoxes(rig: Rig, placed: (u: number, v: number) => [number, number]): Box[] {
  const half = rig.body.width / 2, { length, floor, height } = rig.body;
  const box = (u0: number, u1: number, v0: number, v1: number, from: number, to: number): Box => {
    const a = placed(u0, v0), b = placed(u1, v1);
    return { x0: Math.min(a[0], b[0]), x1: Math.max(a[0], b[0]), y0: Math.min(a[1], b[1]), y1: Math.max(a[1], b[1]), from, to };
  };
  const list = [box(0, length, -half, half, floor, height)];
  if (rig.hitch) list.push(box(length, length + rig.hitch.length, -rig.hitch.width / 2, rig.hitch.width / 2, rig.hitch.from, rig.hitch.to));
  for (const { side, span, depth, from, to } of rig.parts) {
    if (side === "left") list.push(box(span[0], span[1], half, half + depth, from, to));
    if (side === "right") list.push(box(span[0], span[1], -half - depth, -half, from, to));
    if (side === "rear") list.push(box(-depth, 0, span[0], span[1], from, to));
    if (side === "front") list.push(box(length, length + depth, span[0], span[1], from, to));
  }
  return list;
}
