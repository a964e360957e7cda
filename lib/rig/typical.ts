import { isMotorized, rigSchema, type Rig, type RigInput } from "./schema";

/**
 * What a rig of a generic kind and length usually measures, for those who have not measured theirs. Common practice
 * over many makes, told to the nearest 10 mm and tied to none; a real rig may differ by a hand's breadth anywhere and
 * by more in where things sit. Nothing here is a promise: pages say which numbers came from here.
 */

export type RigKind = Rig["kind"];

/** The kinds that are told apart by looking at them, smallest first. `class-b` is a van by another name. */
export const typicalKinds = ["van", "truck-camper", "class-c", "class-a", "folding-trailer", "travel-trailer", "fifth-wheel", "toy-hauler"] as const satisfies readonly RigKind[];

const FOOT = 304.8;

/** Lengths that people call such a rig by, in feet, hitch included. */
const CLASSES: Readonly<Record<RigKind, readonly number[]>> = {
  van: [17, 19, 21, 24],
  "class-b": [17, 19, 21, 24],
  "truck-camper": [18, 20, 22, 24],
  "class-c": [22, 25, 28, 31],
  "class-a": [27, 31, 35, 39, 43],
  "folding-trailer": [12, 15, 18, 21],
  "travel-trailer": [16, 19, 22, 25, 28, 31, 34, 37],
  "fifth-wheel": [25, 29, 33, 37, 41],
  "toy-hauler": [22, 26, 30, 34, 38, 42],
};

/** Shorter or longer than this nothing is towed or driven to a site, and no typical rig is made of what is typed. Overall, millimetres. */
export const typicalLengths = { shortest: 2_500, longest: 20_000 } as const;

/** The overall lengths to choose from, hitch included, in millimetres, shortest first. */
export function lengthClassesOf(kind: RigKind): readonly number[] {
  return CLASSES[kind].map((feet) => feet * FOOT);
}

/** The length of a kind that is met most: the class in the middle, the longer of two. Millimetres. */
export function usualLengthOf(kind: RigKind): number {
  const classes = lengthClassesOf(kind);
  return classes[Math.floor(classes.length / 2)]!;
}

/**
 * The typical rig of a kind, `overall` millimetres long with its hitch. Any length above the hitch is taken; far
 * outside the usual ones the result is only as good as the question.
 */
export function typicalRig(kind: RigKind, overall: number): Rig {
  const shape = SHAPES[kind];
  const hitch = isMotorized(kind) ? 0 : Math.min(shape.hitch, overall / 4);
  const length = overall - hitch;
  const classes = lengthClassesOf(kind);
  // Between the shortest and the longest class, 0 to 1: longer rigs are a little wider and taller.
  const share = Math.min(1, Math.max(0, (overall - classes[0]!) / (classes.at(-1)! - classes[0]!)));
  const size = { length, width: between(shape.width, share), height: between(shape.height, share), floor: shape.floor };
  const heavy = shape.plug50From !== null && feetOf(overall) >= shape.plug50From;
  return rigSchema.parse({
    id: `typical-${kind}`,
    kind,
    body: size,
    hitch: hitch > 0 ? { length: hitch, width: 600, from: 330, to: kind === "fifth-wheel" ? 1250 : 880 } : null,
    supports: supportsOf(kind, size, hitch),
    parts: partsOf(kind, size, overall),
    inlets: shape.inlets.map(({ kind: service, at, height }) => ({ kind: service, side: "left", u: round(length * at), height })),
    wants: [...shape.wants],
    gear: { powerCord: heavy ? 9140 : 7620, waterHose: 7620, sewerHose: shape.inlets.some((i) => i.kind === "sewer") ? 3050 : 0, liftSide: 100, liftAlong: isMotorized(kind) ? 100 : 250 },
    electric: electricOf(kind, heavy),
    tow: isMotorized(kind) ? null : shape.tow,
    party: { adults: 2 },
  } satisfies RigInput);
}

/** How far real rigs lie from the typical number, to either side; millimetres. */
export interface TypicalSpread {
  /** Overall: half the way to the next class, for a length nobody has told. */
  readonly length: number;
  readonly hitch: number;
  readonly width: number;
  readonly height: number;
  readonly floor: number;
  /** Where a part begins and ends along its wall: never more than two fifths of its width, so that it keeps one. */
  readonly place: number;
  /** How far a part reaches out, by its kind; `other` for kinds that are not named. */
  readonly depth: Readonly<Record<"slide" | "awning" | "entry" | "bed" | "ramp" | "other", number>>;
  readonly underside: number;
  readonly top: number;
  readonly inlet: { readonly along: number; readonly height: number };
  readonly gear: { readonly powerCord: number; readonly waterHose: number; readonly sewerHose: number; readonly liftSide: number; readonly liftAlong: number };
  readonly tow: number;
}

/**
 * How much trust a typical number of a kind deserves: most makes lie within this of it. Common practice over many makes,
 * as the numbers themselves, and no promise either: a rig outside of it is rare, not impossible.
 */
export function typicalSpread(kind: RigKind): TypicalSpread {
  const [first, second] = lengthClassesOf(kind);
  const van = SHAPES[kind] === vanShape;
  return {
    length: (second! - first!) / 2,
    hitch: 150,
    width: 50,
    // Air conditioners, racks and boxes on the roof make more of a difference on what is built on another's chassis.
    height: kind === "folding-trailer" ? 150 : van || kind === "truck-camper" ? 250 : 200,
    floor: 100,
    place: van ? 400 : 600,
    depth: { slide: 150, awning: 300, entry: 150, bed: 200, ramp: 250, other: 150 },
    underside: 150,
    top: 150,
    inlet: { along: van ? 400 : 600, height: 150 },
    gear: { powerCord: 1520, waterHose: 3050, sewerHose: 1520, liftSide: 50, liftAlong: 100 },
    tow: 600,
  };
}

/** What is known of a kind. Pairs are for the shortest and for the longest class; millimetres. */
interface Shape {
  readonly width: readonly [number, number];
  readonly height: readonly [number, number];
  readonly floor: number;
  /** From the coupler to the front wall; a fifth wheel's nose covers its pin. */
  readonly hitch: number;
  /** Middle of the axles (trailers) or the rear axle, and the front axle, as shares of the body from its rear. */
  readonly axles: readonly number[];
  /** Overall length in feet from which the plug is usually a 50 A one; null where it never is. */
  readonly plug50From: number | null;
  readonly inlets: readonly { readonly kind: "power" | "water" | "sewer"; readonly at: number; readonly height: number }[];
  readonly wants: readonly ("power" | "water")[];
  readonly tow: NonNullable<RigInput["tow"]> | null;
}

const pickup = { length: 5900, width: 2030, height: 1950, stays: "on-site" } as const;
const car = { length: 4800, width: 1900, height: 1750, stays: "on-site" } as const;
const trailerInlets: Shape["inlets"] = [{ kind: "power", at: 0.15, height: 700 }, { kind: "water", at: 0.26, height: 750 }, { kind: "sewer", at: 0.35, height: 420 }];
const motorInlets: Shape["inlets"] = [{ kind: "power", at: 0.1, height: 720 }, { kind: "water", at: 0.18, height: 800 }, { kind: "sewer", at: 0.24, height: 420 }];
const vanInlets: Shape["inlets"] = [{ kind: "power", at: 0.12, height: 800 }, { kind: "water", at: 0.18, height: 850 }];

const vanShape: Shape = { width: [2030, 2060], height: [2620, 2900], floor: 200, hitch: 0, axles: [0.19, 0.8], plug50From: null, inlets: vanInlets, wants: ["power"], tow: null };

const SHAPES: Readonly<Record<RigKind, Shape>> = {
  van: vanShape,
  "class-b": vanShape,
  "truck-camper": { width: [2100, 2400], height: [3050, 3500], floor: 330, hitch: 0, axles: [0.25, 0.84], plug50From: null, inlets: vanInlets, wants: ["power"], tow: null },
  "class-c": { width: [2390, 2500], height: [3250, 3560], floor: 280, hitch: 0, axles: [0.28, 0.86], plug50From: null, inlets: motorInlets, wants: ["power", "water"], tow: null },
  "class-a": { width: [2500, 2590], height: [3500, 3960], floor: 300, hitch: 0, axles: [0.27, 0.84], plug50From: 33, inlets: motorInlets, wants: ["power", "water"], tow: null },
  "folding-trailer": { width: [1980, 2200], height: [2550, 2700], floor: 350, hitch: 1200, axles: [0.45], plug50From: null, inlets: vanInlets, wants: ["power", "water"], tow: car },
  "travel-trailer": { width: [2130, 2490], height: [2900, 3450], floor: 400, hitch: 1070, axles: [0.44], plug50From: 33, inlets: trailerInlets, wants: ["power", "water"], tow: pickup },
  "fifth-wheel": { width: [2440, 2550], height: [3560, 4050], floor: 420, hitch: 300, axles: [0.36], plug50From: 32, inlets: trailerInlets, wants: ["power", "water"], tow: { ...pickup, length: 6300, overlap: 1500 } },
  "toy-hauler": { width: [2440, 2590], height: [3350, 3950], floor: 420, hitch: 1070, axles: [0.38], plug50From: 30, inlets: trailerInlets, wants: ["power", "water"], tow: { ...pickup, length: 6300 } },
};

type Body = Rig["body"];

/** Tyres a hand's breadth inside the walls; longer trailers stand on two or three axles and four corner jacks. */
function supportsOf(kind: RigKind, { length, width }: Body, hitch: number): RigInput["supports"] {
  const v = round(width / 2 - 200);
  const pair = (support: "tyre" | "jack", u: number) => [1, -1].map((side) => ({ kind: support, at: [round(u), side * v] as [number, number] }));
  const axles = SHAPES[kind].axles.map((share) => share * length);
  if (isMotorized(kind)) return axles.flatMap((u) => pair("tyre", u));
  const count = length < 5500 ? 1 : length < 10_500 ? 2 : 3;
  const tyres = Array.from({ length: count }, (_, i) => pair("tyre", axles[0]! + (i - (count - 1) / 2) * 860)).flat();
  // A fifth wheel stands on two legs behind its pin box, other trailers on the tongue jack.
  const front = kind === "fifth-wheel" ? pair("jack", length * 0.78) : [{ kind: "jack" as const, at: [round(length + hitch * 0.6), 0] as [number, number] }];
  return [...tyres, ...pair("jack", Math.min(350, length * 0.1)), ...front];
}

type Part = NonNullable<RigInput["parts"]>[number];

function partsOf(kind: RigKind, body: Body, overall: number): Part[] {
  const { length, width, height } = body;
  const feet = feetOf(overall);
  const span = (from: number, to: number): [number, number] => [round(length * from), round(length * to)];
  const slide = (id: string, side: "left" | "right", from: number, to: number, depth = 900): Part => ({ id, kind: "slide", side, span: span(from, to), depth, from: 750, to: Math.min(2850, round(height - 250)), need: "must" });
  const awning = (from: number, to: number): Part => ({ id: "awning", kind: "awning", side: "right", span: span(from, to), depth: Math.min(2440, round(length * (to - from))), from: 2100, to: Math.min(3000, round(height - 50)), need: "nice" });
  const door = (at: number, wide = 760): Part => ({ id: "door", kind: "entry", side: "right", span: [round(length * at), round(length * at) + wide], depth: 800, from: 0, to: 2000, need: "must" });
  const bed = (id: string, side: "front" | "rear"): Part => ({ id, kind: "bed", side, span: [round(-width / 2 + 100), round(width / 2 - 100)], depth: 1150, from: 950, to: 2300, need: "must" });
  const both = (from: number, first: Part, second: Part, secondFrom: number): Part[] => [...(feet >= from ? [first] : []), ...(feet >= secondFrom ? [second] : [])];
  switch (kind) {
    case "van": case "class-b":
      return [{ ...door(0.5, 1200), depth: 600 }, awning(0.25, 0.72)];
    case "truck-camper":
      return [{ id: "door", kind: "entry", side: "rear", span: [-380, 380], depth: 900, from: 0, to: 2600, need: "must" }, awning(0.06, 0.45)];
    case "class-c":
      return [...both(25, slide("slide", "left", 0.32, 0.62, 700), slide("bed-slide", "left", 0.04, 0.24, 650), 31), door(0.6), awning(0.15, 0.6)];
    case "class-a":
      return [...both(27, slide("slide", "left", 0.45, 0.76), slide("bed-slide", "right", 0.05, 0.25, 750), 33), door(0.84), awning(0.32, 0.8)];
    case "folding-trailer":
      return [bed("front-bed", "front"), bed("rear-bed", "rear"), door(0.45, 650)];
    case "travel-trailer":
      return [...both(22, slide("slide", "left", 0.5, 0.8), slide("rear-slide", "right", 0.06, 0.28, 750), 33), door(feet < 22 ? 0.3 : 0.66), awning(feet < 22 ? 0.3 : 0.28, 0.86)];
    case "fifth-wheel":
      return [...both(25, slide("slide", "left", 0.22, 0.52), slide("lounge-slide", "right", 0.1, 0.34), 29), door(0.6), awning(0.36, 0.66)];
    case "toy-hauler":
      return [
        { id: "ramp", kind: "ramp", side: "rear", span: [round(-width / 2 + 150), round(width / 2 - 150)], depth: 2130, from: 0, to: 2130, need: "nice" },
        ...both(26, slide("slide", "left", 0.5, 0.74), slide("bed-slide", "right", 0.82, 0.98, 650), 34), door(0.64), awning(0.3, 0.78),
      ];
  }
}

function electricOf(kind: RigKind, heavy: boolean): NonNullable<RigInput["electric"]> {
  const charger = { id: "battery-charger", va: 500, need: "must" } as const;
  // About 13.5 A at 120 V each once they run, and 12 A for heating water.
  const air = (id: string) => ({ id, va: 1620, need: "nice" }) as const;
  const heater = { id: "water-heater", va: 1440, need: "nice" } as const;
  if (heavy) return { plug: 50, loads: [charger, air("air-conditioner-1"), air("air-conditioner-2"), heater] };
  if (kind === "folding-trailer") return { plug: 30, loads: [charger, air("air-conditioner")] };
  return { plug: 30, loads: [charger, air("air-conditioner"), ...(SHAPES[kind] === vanShape ? [] : [heater])] };
}

function between([short, long]: readonly [number, number], share: number): number {
  return round(short + (long - short) * share);
}

/** In feet, to a thousandth: a length that was typed as 31 ft is no shade under it, whatever became of it in millimetres. */
function feetOf(overall: number): number {
  return Math.round((overall / FOOT) * 1000) / 1000;
}

/** To 10 mm: closer would pretend to a knowledge that nobody has. */
function round(value: number): number {
  return Math.round(value / 10) * 10;
}
