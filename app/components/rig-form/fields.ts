import { parseLength, unitSystems, type BareUnit, type Units } from "@/lib/measure";
import { isMotorized, overallLength, steeringOf, typicalSpread, type Inlet, type Rig, type RigPart, type TypicalSpread } from "@/lib/rig";
import { catalogueOf, formatLength } from "@/lib/wording";
import type { Outline } from "./outline";
import type { Step } from "./steps";

/** One length that the form asks for. All numbers are in millimetres. */
export interface Field {
  /** Its name in the address and in the form. */
  readonly input: string;
  readonly step: Step;
  /** What is measured: words and drawing go by it. */
  readonly what: What;
  /** The part or inlet it belongs to. */
  readonly group?: string;
  /** What it is until somebody measures: of a kind, or of the rig that the park keeps. */
  readonly typical: number;
  /** How far real rigs lie from the typical number, to either side. */
  readonly spread: number;
  /** Where the number stands in the rig's record, such as `rig.parts.0.depth`; null where the record has it otherwise. */
  readonly path: string | null;
  /** The most it can be: beyond is a slip or another unit. */
  readonly most: number;
  readonly zero: boolean;
  /** A bare number counts in inches or centimetres. */
  readonly small: boolean;
  /** Nobody knows it, not even of a rig that the park keeps: the typical number is no measurement. */
  readonly untold?: boolean;
}

export type What =
  | "length" | "hitch" | "width" | "height" | "floor"
  | "start" | "end" | "depth" | "from" | "to"
  | "inletAt" | "inletHeight"
  | "powerCord" | "waterHose" | "sewerHose" | "liftSide" | "liftAlong"
  | "towLength" | SteerInput;

/** What steers, for the way in alone; asked for where it decides. */
export const steerInputs = ["turningCircle", "wheelbase", "hitchBehind"] as const;
export type SteerInput = (typeof steerInputs)[number];
/** Their names in the rig's record. */
export const driveNames = { turningCircle: "turningCircle", wheelbase: "wheelbase", hitchBehind: "hitchBehindAxle" } as const satisfies Record<SteerInput, string>;

export const countFields = ["adults", "children", "pets", "tents"] as const;
export type CountField = (typeof countFields)[number];

/** The dates of a stay, which a guest may give as well: no part of the rig, but of every address of its form and answer. */
export const nightInputs = ["arrive", "depart"] as const;

/** Wishes that a site can be judged by. */
export const wishes = ["pull-through", "back-in", "shade"] as const;

const field = (input: string, step: Step, what: What, typical: number, spread: number, path: string | null, most: number, more: Partial<Field> = {}): Field =>
  ({ input, step, what, typical, spread, path, most, zero: false, small: false, ...more });

/** The size of the rig; no hitch where there is none. A trailer's length is no number of its record: the body's is, without the hitch. */
export function sizeFields(rig: Rig): Field[] {
  const spread = typicalSpread(rig.kind);
  const { body, hitch } = rig;
  return [
    field("length", "size", "length", overallLength(rig), spread.length, isMotorized(rig.kind) ? "rig.body.length" : null, 30_000),
    ...(hitch ? [field("hitch", "size", "hitch", hitch.length, spread.hitch, "rig.hitch.length", 30_000, { zero: true })] : []),
    field("width", "size", "width", body.width, spread.width, "rig.body.width", 4000),
    field("height", "size", "height", body.height, spread.height, "rig.body.height", 6000),
    field("floor", "size", "floor", body.floor, spread.floor, "rig.body.floor", 1500, { zero: true, small: true }),
  ];
}

/** What opens out: along a side wall measured from the rear wall, along an end wall from its driver's side. */
export function partFields({ rig, parts }: Outline): Field[] {
  const spread = typicalSpread(rig.kind);
  return parts.flatMap(({ part, index }) => {
    const name = `part-${part.id}`, wall = wallOf(rig, part.side);
    const path = (last: string) => (index === null ? null : `rig.parts.${index}.${last}`);
    const along = isEnd(part.side) ? () => null : path;
    const [start, end] = fromWall(rig, part.side, part.span);
    const place = Math.min(spread.place, (end - start) * 0.4);
    const group = { group: part.id };
    return [
      field(`${name}.start`, "opens", "start", start, place, along("span.0"), wall, { ...group, zero: true }),
      field(`${name}.end`, "opens", "end", end, place, along("span.1"), wall, group),
      field(`${name}.depth`, "opens", "depth", part.depth, depthSpread(spread, part.kind), path("depth"), 4000, group),
      field(`${name}.from`, "opens", "from", part.from, part.from === 0 ? 0 : spread.underside, path("from"), 5000, { ...group, zero: true }),
      field(`${name}.to`, "opens", "to", part.to, spread.top, path("to"), 5000, group),
    ];
  });
}

function depthSpread({ depth }: TypicalSpread, kind: string): number {
  return depth[kind as keyof typeof depth] ?? depth.other;
}

export function inletFields({ rig, inlets }: Outline): Field[] {
  const { inlet: spread } = typicalSpread(rig.kind);
  return inlets.flatMap(({ key, inlet, index }) => {
    if (!inlet) return [];
    const name = `inlet-${key}`, path = (last: string) => (index === null ? null : `rig.inlets.${index}.${last}`);
    return [
      field(`${name}.at`, "hookups", "inletAt", inletAlong(rig, inlet), spread.along, isEnd(inlet.side) ? null : path("u"), wallOf(rig, inlet.side), { group: key, zero: true }),
      field(`${name}.height`, "hookups", "inletHeight", inlet.height, spread.height, path("height"), 2500, { group: key, zero: true }),
    ];
  });
}

/** Cord, hoses and blocks; a hose for what the rig has no outlet for is not asked for. */
export function gearFields({ rig, inlets }: Outline): Field[] {
  const { gear } = typicalSpread(rig.kind);
  const has = (service: Inlet["kind"]) => inlets.some(({ inlet }) => inlet?.kind === service);
  const own = (name: keyof typeof gear, most: number, small = false) => field(name, "hookups", name, rig.gear[name], gear[name], `rig.gear.${name}`, most, { zero: true, small });
  return [
    ...(has("power") ? [own("powerCord", 60_000)] : []),
    ...(has("water") ? [own("waterHose", 100_000)] : []),
    ...(has("sewer") ? [own("sewerHose", 30_000)] : []),
    own("liftSide", 1000, true),
    own("liftAlong", 1500, true),
  ];
}

export function towFields({ rig }: Outline): Field[] {
  return rig.tow ? [field("towLength", "party", "towLength", rig.tow.length, typicalSpread(rig.kind).tow, "rig.tow.length", 15_000)] : [];
}

/** What steers the rig: no part of the fit, so that none of it is asked for there (`spread` 0). A fifth wheel's hitch lies over the axle, where no tape behind the bumper tells it. */
export function steerFields(rig: Rig): Field[] {
  const steering = steeringOf(rig), asked = steerInputs.filter((input) => input === "turningCircle" || (!isMotorized(rig.kind) && (input === "wheelbase" || rig.kind !== "fifth-wheel")));
  return asked.map((input) => {
    const name = driveNames[input];
    const typical = name === "hitchBehindAxle" ? steering.drawn!.hitchBehindAxle : steering[name];
    return field(input, "party", input, typical, 0, `rig.drive.${name}`, MOST_STEERING[input], { untold: rig.drive?.[name] === undefined });
  });
}

const MOST_STEERING: Readonly<Record<SteerInput, number>> = { turningCircle: 60_000, wheelbase: 12_000, hitchBehind: 5000 };

export function isEnd(side: RigPart["side"]): boolean {
  return side === "rear" || side === "front";
}

/** How long the wall is: side walls along the body, end walls across it. */
export function wallOf({ body }: Rig, side: RigPart["side"]): number {
  return isEnd(side) ? body.width : body.length;
}

/** A span as the form asks for it, and back: on an end wall from its driver's side, where the record counts left of the middle. */
export function fromWall(rig: Rig, side: RigPart["side"], [a, b]: readonly [number, number]): [number, number] {
  return isEnd(side) ? [rig.body.width / 2 - b, rig.body.width / 2 - a] : [a, b];
}

function inletAlong(rig: Rig, { side, u, v }: Inlet): number {
  return isEnd(side) ? rig.body.width / 2 - (v ?? 0) : (u ?? 0);
}

export function bareUnit({ small }: Pick<Field, "small">, units: Units): BareUnit {
  return units === "metric" ? (small ? "cm" : "m") : small ? "in" : "ft";
}

/** The number that stands until something is typed, as it is shown. */
export function typicalText({ typical }: Field, units: Units): string {
  return formatLength(typical, units, "nearest");
}

export type Read = { readonly ok: true; readonly value: number } | { readonly ok: false; readonly fault: string };

/**
 * What was typed into a field. `measured` says that the number standing there was measured: a text that still says it
 * then counts as that, to the millimetre, in whichever units it says it. A typical number is never that exact.
 */
export function readLength(text: string, asked: Field, units: Units, measured: boolean): Read {
  if (measured && isAsShown(text, asked, units)) return { ok: true, value: asked.typical };
  const { lengthFault, guestRig: { faults } } = catalogueOf();
  const parsed = parseLength(text, bareUnit(asked, units));
  if (!parsed.ok) return { ok: false, fault: lengthFault(parsed.fault, parsed.text, units) };
  if (parsed.mm === 0 && !asked.zero) return { ok: false, fault: faults.zero };
  if (parsed.mm > asked.most) return { ok: false, fault: faults.tooLarge(asked.what, formatLength(parsed.mm, units, "nearest"), formatLength(asked.most, units, "down")) };
  return { ok: true, value: parsed.mm };
}

export function isAsShown(text: string, asked: Field, units: Units): boolean {
  return unitSystems.some((system) => withUnit(text, asked, units) === typicalText(asked, system));
}

/** The text with the unit it meant, where it is a bare number: it means the same in other units then. */
export function withUnit(text: string, asked: Field, units: Units): string {
  const bare = bareUnit(asked, units), whole = text.trim();
  const alone = /^(\d+([.,]\d*)?|[.,]\d+|\d+\s+\d+\/\d+|\d+\/\d+)$/.test(whole) && parseLength(whole, bare).ok;
  return alone ? `${whole} ${bare}` : whole;
}

export function readCount(text: string): Read {
  const trimmed = text.trim();
  return /^\d{1,2}$/.test(trimmed) ? { ok: true, value: Number(trimmed) } : { ok: false, fault: catalogueOf().guestRig.faults.count(text) };
}
