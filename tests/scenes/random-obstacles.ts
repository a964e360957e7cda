import type { SiteInput } from "@/lib/park/schema";
import type { Rig } from "@/lib/rig/schema";
import { between, chance, margin, pick, type Random } from "./random";

/** A box on the site between two heights. */
export interface Box {
  readonly x0: number;
  readonly x1: number;
  readonly y0: number;
  readonly y1: number;
  readonly from: number;
  readonly to: number;
}

type Obstacle = NonNullable<SiteInput["obstacles"]>[number];
type Hookup = NonNullable<SiteInput["hookups"]>[number];
type Outline = [number, number][];
const CLEARANCE = 150;

export function obstaclesNear(r: Random, boxes: readonly Box[], length: number): Obstacle[] {
  const count = pick(r, [0, 1, 1, 2, 2, 2, 3, 5]);
  const list: Obstacle[] = [];
  for (let i = 0; i < count; i++) {
    const made = obstacle(r, `o${i + 1}`, pick(r, boxes), length);
    if (!buried(made, boxes) || chance(r, 0.03)) list.push(made);
  }
  return list;
}

/** Hookups mostly on the left, about as far from the inlets as the guest's gear reaches. */
export function postsNear(r: Random, rig: Rig, placed: (u: number, v: number) => [number, number], boxes: readonly Box[]): Hookup[] {
  const list: Hookup[] = [];
  const body = boxes[0]!;
  for (const kind of ["power", "water", "sewer", "rinse-water"] as const) {
    const many = chance(r, 0.08) ? 0 : kind === "rinse-water" ? (chance(r, 0.15) ? 1 : 0) : chance(r, 0.15) ? 2 : 1;
    for (let i = 0; i < many; i++) list.push(hookup(r, `${kind}-${i + 1}`, kind, rig, placed, body));
  }
  return list;
}

function obstacle(r: Random, id: string, near: Box, length: number): Obstacle {
  const removable = chance(r, 0.3);
  const kind = pick(r, ["tree", "tree", "tree", "wire", "fire-ring", "rock", "post", "table", "fence", "wheel-stop", "shelter", "wall"]);
  switch (kind) {
    case "tree": return tree(r, id, near, removable);
    case "wire": return wire(r, id, near);
    case "fire-ring": return { id, kind, at: beside(r, near, 450, 3000), radius: 450, from: 0, to: 350, removable };
    case "rock": return { id, kind, at: beside(r, near, 400, CLEARANCE), radius: between(r, 200, 400), from: 0, to: between(r, 150, 700), removable };
    case "post": return { id, kind, at: beside(r, near, 80, CLEARANCE), radius: 80, from: 0, to: between(r, 600, 2500), removable };
    case "wheel-stop": return { id, kind, outline: rectangle(between(r, length - 700, length), -900, 200, 1800), from: 0, to: between(r, 100, 200), removable };
    case "shelter": return { id, kind, outline: polygon(r, near, "ell"), from: between(r, 1500, 4200), to: 4800, removable };
    case "wall": return { id, kind, outline: polygon(r, near, "ell"), from: 0, to: between(r, 300, 2500), removable };
    case "fence": return { id, kind, outline: polygon(r, near, "long"), from: 0, to: between(r, 900, 1800), removable };
    default: return { id, kind, outline: polygon(r, near, "box"), from: 0, to: 760, removable };
  }
}

/** Well inside something the rig has, and at its height: such an obstacle decides everything and tests nothing. */
function buried(o: Obstacle, boxes: readonly Box[]): boolean {
  if (o.kind === "wheel-stop") return false;
  const xs = o.outline?.map((p) => p[0]) ?? [-1, 1].map((k) => o.at![0] + k * (o.radius ?? o.trunkRadius!));
  const ys = o.outline?.map((p) => p[1]) ?? [-1, 1].map((k) => o.at![1] + k * (o.radius ?? o.trunkRadius!));
  const low = o.from ?? 0, high = o.to ?? o.crownTo!, kept = CLEARANCE - 100;
  return boxes.some((b) => Math.max(...xs) > b.x0 - kept && Math.min(...xs) < b.x1 + kept && Math.max(...ys) > b.y0 - kept && Math.min(...ys) < b.y1 + kept && high > b.from && low < b.to + 75);
}

function tree(r: Random, id: string, near: Box, removable: boolean): Obstacle {
  const trunkRadius = between(r, 80, 450), crownRadius = trunkRadius + between(r, 200, 3000);
  const overhead = chance(r, 0.6), low = overhead ? near.to + 300 + between(r, -60, 400) : between(r, 600, 5000);
  const at = overhead ? beside(r, near, trunkRadius, CLEARANCE) : beside(r, near, crownRadius, CLEARANCE);
  const crownFrom = Math.max(0, Math.round(low));
  return { id, kind: "tree", at, trunkRadius, crownRadius, crownFrom, crownTo: crownFrom + between(r, 1000, 8000), removable };
}

function wire(r: Random, id: string, near: Box): Obstacle {
  const from = Math.max(2500, Math.round(near.to + 1400 + between(r, -300, 300)));
  const across = chance(r, 0.5), [cx, cy] = beside(r, near, 25, 900);
  const outline = across ? slanted(r, cx, cy, 25, 9000) : slanted(r, cx, cy, 9000, 25);
  return { id, kind: "wire", outline, from, to: from + 50, removable: false };
}

/** A place next to a box so that a disc of that radius is about `clearance` away from it. */
function beside(r: Random, box: Box, radius: number, clearance: number): [number, number] {
  const away = radius + clearance + margin(r);
  const x = between(r, Math.floor(box.x0), Math.ceil(box.x1)), y = between(r, Math.floor(box.y0), Math.ceil(box.y1));
  const spot: [number, number][] = [[x, box.y1 + away], [x, box.y0 - away], [box.x1 + away, y], [box.x0 - away, y]];
  const [sx, sy] = pick(r, spot);
  return [Math.round(sx), Math.round(sy)];
}

function polygon(r: Random, near: Box, form: "box" | "long" | "ell"): Outline {
  const long = form === "long" ? between(r, 2000, 8000) : between(r, 600, 2400), wide = form === "long" ? 100 : between(r, 500, 1600);
  const half = Math.min(long, wide) / 2;
  const [cx, cy] = beside(r, near, half, CLEARANCE);
  if (form !== "ell") return slanted(r, cx, cy, long / 2, wide / 2);
  const x = Math.round(cx - long / 2), y = Math.round(cy - wide / 2), t = Math.round(Math.min(long, wide) / 3);
  const ell: Outline = [[x, y], [x + long, y], [x + long, y + t], [x + t, y + t], [x + t, y + wide], [x, y + wide]];
  return chance(r, 0.5) ? ell : ell.map(([px, py]) => [px, Math.round(2 * cy - py)] as [number, number]).reverse();
}

/** A box that is often turned a little. Whole millimetres. */
function slanted(r: Random, cx: number, cy: number, hx: number, hy: number): Outline {
  const turn = chance(r, 0.5) ? 0 : (r.next() - 0.5) * 1.2;
  const c = Math.cos(turn), s = Math.sin(turn);
  return ([[-hx, -hy], [hx, -hy], [hx, hy], [-hx, hy]] as Outline).map(([x, y]) => [Math.round(cx + c * x - s * y), Math.round(cy + s * x + c * y)]);
}

function rectangle(x: number, y: number, dx: number, dy: number): Outline {
  return [[x, y], [x + dx, y], [x + dx, y + dy], [x, y + dy]];
}

function hookup(r: Random, id: string, kind: Hookup["kind"], rig: Rig, placed: (u: number, v: number) => [number, number], body: Box): Hookup {
  const at = hookupPlace(r, kind, rig, placed, body);
  const post = kind === "power" ? { postRadius: 150, postHeight: between(r, 900, 1400) } : kind !== "sewer" && chance(r, 0.6) ? { postRadius: 60, postHeight: between(r, 300, 900) } : {};
  switch (kind) {
    case "power": return { id, kind, at, height: between(r, 600, 1200), receptacles: pick(r, [[30, 50], [20, 30, 50], [30], [20, 30], [20], [50]] as (50 | 30 | 20)[][]), volts: chance(r, 0.9) ? 120 : null, ...post };
    case "water": return { id, kind, at, height: between(r, 300, 900), pressure: chance(r, 0.7) ? between(r, 280, 720) : null, ...post };
    case "sewer": return { id, kind, at, height: between(r, 0, 150), groundZ: chance(r, 0.25) ? between(r, -600, 150) : null };
    case "rinse-water": return { id, kind, at, height: between(r, 300, 900), pressure: 400, ...post };
  }
}

/** Beside the body, at a distance from the first inlet of its kind that makes the run about as long as the gear. */
function hookupPlace(r: Random, kind: Hookup["kind"], rig: Rig, placed: (u: number, v: number) => [number, number], body: Box): [number, number] {
  const inlet = rig.inlets.find((i) => i.kind === kind);
  const half = rig.body.width / 2;
  const left = chance(r, 0.85) ? 1 : -1;
  const out = half + (chance(r, 0.7) ? 200 + Math.max(-180, margin(r)) : between(r, 300, 4000));
  if (!inlet || chance(r, 0.3)) return round(placed(between(r, -500, rig.body.length), left * out));
  const reach = { power: rig.gear.powerCord, water: rig.gear.waterHose, sewer: rig.gear.sewerHose }[inlet.kind];
  const free = reach - (inlet.kind === "sewer" ? 0 : inlet.height + 700) + (chance(r, 0.5) ? between(r, -1500, 300) : between(r, -4000, 2500));
  const along = Math.sqrt(Math.max(0, free * free - (out - half) * (out - half)));
  const u = (inlet.u ?? (inlet.side === "rear" ? 0 : rig.body.length)) + (chance(r, 0.5) ? along : -along);
  return round(placed(Math.max(-3000, Math.min(rig.body.length + 3000, u)), left * out));
  function round(p: [number, number]): [number, number] {
    const y = chance(r, 0.97) ? p[1] : (body.y0 + body.y1) / 2;
    return [Math.round(p[0]), Math.round(y)];
  }
}
