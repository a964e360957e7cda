import type { RigInput } from "@/lib/rig/schema";
import { between, chance, pick, some, type Random } from "./random";

const trailers = ["travel-trailer", "fifth-wheel", "folding-trailer", "toy-hauler"] as const;
const motorized = ["class-a", "class-b", "class-c", "van", "truck-camper"] as const;
const amperes = [50, 30, 20, 15] as const;

type Part = NonNullable<RigInput["parts"]>[number];
type Inlet = NonNullable<RigInput["inlets"]>[number];
type Side = Part["side"];

export function randomRig(r: Random): RigInput {
  const trailer = chance(r, 0.6);
  const kind = trailer ? pick(r, trailers) : pick(r, motorized);
  const small = kind === "van" || kind === "class-b" || kind === "truck-camper" || kind === "folding-trailer";
  const length = small ? between(r, 4800, 7200) : between(r, 5500, 12500);
  const width = small ? between(r, 1900, 2300) : between(r, 2200, 2600);
  const body = { length, width, height: small ? between(r, 1900, 3100) : between(r, 2900, 4100), floor: between(r, 200, 450) };
  const hitch = trailer ? randomHitch(r, kind) : null;
  return {
    id: "rig", kind, body, hitch,
    supports: supports(r, trailer, body, hitch?.length ?? 0),
    parts: parts(r, kind, body),
    inlets: inlets(r, body),
    wants: some(r, ["power", "water", "sewer"], 0.65),
    gear: randomGear(r),
    electric: electric(r),
    tow: randomTow(r, trailer),
    party: { adults: between(r, 1, 4), children: between(r, 0, 3), pets: between(r, 0, 2), tents: chance(r, 0.1) ? 1 : 0, accessible: chance(r, 0.04) },
    wishes: some(r, ["pull-through", "shade"], 0.2),
  };
}

function randomHitch(r: Random, kind: string): NonNullable<RigInput["hitch"]> | null {
  if (kind === "fifth-wheel") return chance(r, 0.5) ? null : { length: between(r, 200, 900), width: 600, from: 1100, to: 1500 };
  return { length: between(r, 800, 1500), width: between(r, 300, 900), from: between(r, 250, 400), to: between(r, 600, 1000) };
}

function supports(r: Random, trailer: boolean, body: RigInput["body"], hitch: number): RigInput["supports"] {
  const { length, width } = body, side = Math.round(width / 2) - between(r, 100, 250);
  const axle = (u: number) => [side, -side].map((v) => ({ kind: "tyre" as const, at: [Math.round(u), v] as [number, number] }));
  const jack = (u: number, v: number) => ({ kind: "jack" as const, at: [Math.round(u), v] as [number, number] });
  if (!trailer) {
    const list = [...axle(length * 0.25), ...axle(length * 0.85)];
    return chance(r, 0.4) ? [...list, jack(length * 0.15, side), jack(length * 0.15, -side), jack(length * 0.9, side), jack(length * 0.9, -side)] : list;
  }
  const axles = between(r, 1, 3), list = [];
  for (let i = 0; i < axles; i++) list.push(...axle(length * 0.38 + i * 900));
  if (chance(r, 0.6)) list.push(jack(400, side), jack(400, -side));
  if (chance(r, 0.3)) list.push(jack(length - 600, side), jack(length - 600, -side));
  list.push(jack(length + hitch * 0.6, 0));
  return list;
}

function parts(r: Random, kind: string, body: RigInput["body"]): Part[] {
  const list: Part[] = [];
  const { length, width, floor, height } = body;
  const need = (must: number) => (chance(r, must) ? ("must" as const) : ("nice" as const));
  const along = (least: number, most: number): [number, number] => {
    const long = Math.min(between(r, least, most), length - 600);
    const start = between(r, 200, Math.max(200, length - long - 200));
    return [start, start + long];
  };
  const add = (part: Omit<Part, "id">) => list.push({ id: `${part.kind}-${list.length + 1}`, ...part });
  const slides = kind === "van" || kind === "folding-trailer" ? 0 : between(r, 0, 3);
  for (let i = 0; i < slides; i++) {
    const side: Side = pick(r, ["left", "left", "right", "rear"]);
    const span: [number, number] = side === "rear" ? [-between(r, 500, 1000), between(r, 500, 1000)] : along(900, 4500);
    add({ kind: "slide", side, span, depth: between(r, 300, 1100), from: floor + between(r, 100, 500), to: height - between(r, 200, 900), need: need(0.6) });
  }
  if (chance(r, 0.5)) add({ kind: "awning", side: chance(r, 0.85) ? "right" : "left", span: along(2000, 6000), depth: between(r, 1500, 3000), from: between(r, 1800, 2200), to: Math.min(height, between(r, 2600, 3300)), need: need(0.2) });
  if (chance(r, 0.7)) add({ kind: "entry", side: chance(r, 0.85) ? "right" : "rear", span: chance(r, 0.85) ? along(700, 900) : [-400, 400], depth: between(r, 600, 1000), from: 0, to: 2000, need: need(0.9) });
  if (kind === "folding-trailer") for (const side of ["rear", "front"] as const) add({ kind: "bed", side, span: [-Math.floor(width / 2) + 50, Math.floor(width / 2) - 50], depth: between(r, 900, 1400), from: 900, to: height - 100, need: need(0.7) });
  if (kind === "toy-hauler" && chance(r, 0.6)) add({ kind: "ramp", side: "rear", span: [-1000, 1000], depth: between(r, 1500, 2200), from: 0, to: 900, need: need(0.5) });
  return list;
}

function inlets(r: Random, body: RigInput["body"]): Inlet[] {
  const list: Inlet[] = [];
  const height: Record<Inlet["kind"], [number, number]> = { power: [500, 1000], water: [400, 900], sewer: [250, 600] };
  for (const kind of ["power", "water", "sewer"] as const) {
    const many = chance(r, 0.15) ? 2 : chance(r, 0.03) ? 0 : 1;
    for (let i = 0; i < many; i++) {
      const side = pick(r, i === 0 ? (["left", "left", "left", "left", "rear", "right"] as const) : (["right", "rear", "front"] as const));
      const end = side === "rear" || side === "front", half = Math.floor(body.width / 2) - 200;
      const place = end ? { v: between(r, -half, half) } : { u: between(r, 300, Math.round(body.length * 0.6)) };
      list.push({ kind, side, ...place, height: between(r, ...height[kind]) });
    }
  }
  return list;
}

function randomGear(r: Random): NonNullable<RigInput["gear"]> {
  const adapters = amperes.flatMap((a) => amperes.filter((b) => b !== a).map((b) => `${a}-to-${b}`));
  return {
    powerCord: pick(r, [7600, 7600, 9100, 15000]), waterHose: pick(r, [4600, 7600, 7600, 15000]), sewerHose: pick(r, [3000, 4600, 4600, 6100]),
    liftSide: pick(r, [0, 50, 90, 150]), liftAlong: pick(r, [0, 100, 250, 400]),
    adapters: some(r, adapters, 0.3), regulator: chance(r, 0.7),
  };
}

function electric(r: Random): NonNullable<RigInput["electric"]> {
  const loads = [];
  const count = between(r, 0, 4);
  for (let i = 0; i < count; i++) loads.push({ id: `load-${i + 1}`, va: pick(r, [324, 600, 1080, 1200, 1500, 1560, 1750]), need: chance(r, 0.35) ? ("must" as const) : ("nice" as const) });
  return { plug: pick(r, [50, 30, 30, 20, 15]), loads };
}

function randomTow(r: Random, trailer: boolean): RigInput["tow"] {
  if (chance(r, trailer ? 0.25 : 0.6)) return null;
  const stays = pick(r, ["on-site", "on-site", "elsewhere", "hitched"] as const);
  const overlap = trailer && chance(r, 0.3) ? between(r, 300, 1200) : undefined;
  return { length: between(r, 3600, 6200), width: between(r, 1700, 2050), height: between(r, 1450, 2000), overlap, stays };
}
