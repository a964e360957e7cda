import type { ParkedPose } from "@/lib/access";
import { siteSchema, type Site, type SiteInput } from "@/lib/park";
import { isMotorized, rigSchema, typicalRig, type Rig, type RigInput } from "@/lib/rig";
import { between, chance, pick, randomFrom, type Random } from "./random";
import type { WayScene } from "./way-scenes";

type Point = [number, number];
type Approach = NonNullable<SiteInput["approach"]>;

/**
 * Ways in of every sort that a record may hold: back-ins and pull-throughs, roads with several corners, mouths in pieces that overlap or all but
 * meet, pads with a bay, walls, ditches that only tires mind, wires, limbs and gates about as high as the rig, towed cars, odd vehicles.
 */
export function wildWayScene(seed: number): WayScene {
  const r = randomFrom(seed * 7919 + 13), rig = wildRig(r), through = chance(r, 0.35);
  const whole = rig.body.length + (rig.hitch?.length ?? 0), length = whole + between(r, 200, 5000) + (through ? 3000 : 0), half = rig.body.width / 2 + between(r, 200, 1400), mouth = half + between(r, 0, 4000);
  const road = wildRoad(r, -1, 0, mouth), far = through ? wildRoad(r, 1, length, mouth) : undefined;
  const site = siteSchema.parse({
    id: `wild-${seed}`, entry: through ? "pull-through" : "back-in", ...(through && chance(r, 0.4) ? { enterFrom: "either" as const } : {}),
    ground: { along: 0, across: 0 }, pad: { outline: padOf(r, length, half) }, obstacles: obstaclesOf(r, rig, length, mouth),
    hookups: chance(r, 0.5) ? [{ id: "ped", kind: "water", at: [between(r, 2000, length), half + between(r, 100, 900)], height: 600, postRadius: 80, postHeight: 900 }] : [],
    approach: { road, ...(far && chance(r, 0.85) ? { exitRoad: far } : {}), driveable: [...mouthOf(r, road, 0, half, mouth), ...(far ? mouthOf(r, far, length, half, mouth) : [])], heightLimits: limitsOf(r, rig) },
  } satisfies SiteInput);
  return { site, rig, poses: posesOf(r, site, rig, length) };
}

/** Of bodies, mm. */
const LENGTHS = {
  "travel-trailer": [4800, 11_000], "fifth-wheel": [7500, 12_800], "toy-hauler": [6500, 12_500], "folding-trailer": [3200, 6000],
  "class-a": [7600, 13_000], "class-b": [5200, 7300], "class-c": [6400, 10_300], van: [5000, 6800], "truck-camper": [5600, 7500],
} as const;

function wildRig(r: Random): Rig {
  const kind = pick(r, ["travel-trailer", "travel-trailer", "fifth-wheel", "toy-hauler", "folding-trailer", "class-a", "class-b", "class-c", "van", "truck-camper"] as const);
  const [least, most] = LENGTHS[kind], rig = typicalRig(kind, between(r, least, most));
  const drive: NonNullable<RigInput["drive"]> = {
    driver: pick(r, ["left", "left", "right"] as const), ...(chance(r, 0.25) ? { turningCircle: between(r, 9000, 24_000) } : {}), ...(chance(r, 0.2) ? { wheelbase: between(r, 2600, 5200) } : {}),
    ...(chance(r, 0.2) ? { hitchBehindAxle: between(r, -800, 2200) } : {}), ...(chance(r, 0.2) ? { maxHitchAngle: between(r, 30, 85) } : {}),
  };
  const tow = isMotorized(kind) && chance(r, 0.3) ? { length: between(r, 3600, 5000), width: 1800, height: 1500, stays: "hitched" as const } : undefined;
  return rigSchema.parse({ ...rig, drive, ...(tow ? { tow } : {}) });
}

/** Beside a line across the pad's end at `x`, on the side `out`; up to three corners. */
function wildRoad(r: Random, out: 1 | -1, x: number, mouth: number): Approach["road"] {
  const width = between(r, 3200, 9000), lean = between(r, -30, 30) / 100, middle = x + out * (width / 2 + Math.abs(lean) * mouth + between(r, 0, 400));
  const corners = chance(r, 0.5) ? [-22_000, 22_000] : [-22_000, between(r, -9000, -3000), between(r, 2000, 9000), 22_000];
  const line = corners.map((y, i): Point => [middle + lean * y + (i > 0 && i < corners.length - 1 ? between(r, -800, 800) : out * between(r, 0, 6000)), y]);
  return { centreline: chance(r, 0.5) ? line : line.reverse(), width, traffic: pick(r, ["both", "both", "both", "toward-left", "toward-right"] as const) };
}

function padOf(r: Random, length: number, half: number): Point[] {
  const plain: Point[] = [[0, -half], [length, -half], [length, half], [0, half]];
  if (chance(r, 0.7)) return plain;
  // A bay beside the pad: a car stands there, and the outline is concave.
  const from = between(r, 1500, 4000), to = from + between(r, 2500, 5000), deep = half + between(r, 800, 2600);
  return [[0, -half], [length, -half], [length, half], [Math.min(to, length - 500), half], [Math.min(to, length - 500), deep], [from, deep], [from, half], [0, half]];
}

/** The ground between road and pad, in one piece or in two that overlap, meet, or leave a gap. */
function mouthOf(r: Random, { centreline }: Approach["road"], x: number, half: number, mouth: number): Point[][] {
  const at = centreline.reduce((sum, p) => sum + p[0], 0) / centreline.length, deep = x + Math.sign(x - at) * between(r, 500, 3500), gap = pick(r, [-300, 0, 0, 60, 140]);
  const ring = (from: number, to: number, a: number, b: number): Point[] => [[from, -a], [to, -b], [to, b], [from, a]];
  if (chance(r, 0.5)) return [ring(at, x, mouth, mouth), ring(x, deep, mouth, half)];
  const split = x + Math.sign(deep - x) * gap;
  return [ring(at, x, mouth, mouth), ring(split, Math.sign(x - at) > 0 ? Math.max(split + 400, deep) : Math.min(split - 400, deep), mouth, half)];
}

function obstaclesOf(r: Random, rig: Rig, length: number, mouth: number): NonNullable<SiteInput["obstacles"]> {
  return Array.from({ length: between(r, 0, 6) }, (_, i) => {
    const side = chance(r, 0.5) ? 1 : -1, at: Point = [between(r, -9000, length), side * (mouth + between(r, -1200, 2500))], id = `thing-${i}`;
    switch (between(r, 0, 4)) {
      case 0: return { id, kind: "tree", at, trunkRadius: between(r, 100, 400), crownRadius: between(r, 600, 3000), crownFrom: rig.body.height + between(r, -900, 900), crownTo: 14_000 };
      case 1: { const w = between(r, 300, 4000), h = between(r, 200, 900), a = between(r, 0, 31) / 10, c = Math.cos(a), s = Math.sin(a); return { id, kind: pick(r, ["wall", "rock", "table"]), outline: ([[0, 0], [w, 0], [w, h], [0, h]] as Point[]).map(([u, v]): Point => [at[0] + u * c - v * s, at[1] + u * s + v * c]), from: 0, to: between(r, 100, 2200) }; }
      case 2: return { id, kind: "fire-ring", at, radius: between(r, 300, 600), from: 0, to: 350 };
      case 3: return { id, kind: "rock", at: [at[0], at[1] * 0.6] as Point, radius: between(r, 80, 350), from: 0, to: between(r, 60, 500) };
      default: return { id, kind: "post", at, radius: between(r, 50, 200), from: 0, to: between(r, 500, 1600) };
    }
  });
}

/** About as high as what has to pass below them. */
function limitsOf(r: Random, rig: Rig): Approach["heightLimits"] {
  return Array.from({ length: chance(r, 0.35) ? between(r, 1, 2) : 0 }, (_, i) => {
    const kind = pick(r, ["wire", "limb", "gate"]), needed = rig.body.height + (kind === "wire" ? 1400 : kind === "limb" ? 300 : 75), x = between(r, -7000, 3000);
    return { id: `limit-${i}`, kind, across: [[x, between(r, -14_000, 2000)], [x + between(r, -2000, 2000), between(r, 2500, 14_000)]] as [Point, Point], ...(chance(r, 0.9) ? { height: needed + between(r, -300, 500) } : {}) };
  });
}

function posesOf(r: Random, site: Site, rig: Rig, length: number): ParkedPose[] {
  const whole = rig.body.length + (rig.hitch?.length ?? 0), play = Math.max(0, length - whole - 300), aside = () => between(r, -300, 300);
  const tail = (): ParkedPose => ({ x: length - between(r, 0, play), y: aside(), heading: "tail-in" }), nose = (): ParkedPose => ({ x: between(r, 0, play), y: aside(), heading: "nose-in" });
  const turned = site.entry === "pull-through" ? site.enterFrom === "either" && chance(r, 0.4) : !isMotorized(rig.kind) || chance(r, 0.6);
  return Array.from({ length: between(r, 1, 3) }, turned ? tail : nose);
}
