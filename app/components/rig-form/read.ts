import type { Units } from "@/lib/measure";
import { rigSchema, type Rig } from "@/lib/rig";
import { catalogueOf } from "@/lib/wording";
import { countFields, lengthFields, readCount, readLength, typicalText, type CountField, type LengthField } from "./fields";
import { list, one, type Params } from "./params";
import { resized, sizeOf } from "./resize";
import type { Start } from "./start";

/** What the address says about a rig: the texts as typed, what is wrong with each, and the rig where nothing is. */
export interface RigForm {
  readonly start: Start;
  readonly base: Rig;
  readonly units: Units;
  readonly texts: Readonly<Record<LengthField | CountField, string>>;
  readonly faults: Readonly<Partial<Record<LengthField | CountField, string>>>;
  readonly rig: Rig | null;
  /** The address' own words for this rig, as short as they can be: only what differs from the typical one. */
  readonly query: string;
  /** Fields nobody has measured: their numbers are the typical ones of the kind. Empty for a rig that the park keeps. */
  readonly assumed: readonly LengthField[];
}

export function unitsOf(params: Params, fallback: Units): Units {
  const asked = one(params.units);
  return asked === "metric" || asked === "ft-in" ? asked : fallback;
}

export function readRigForm(params: Params, start: Start, units: Units): RigForm {
  const { base } = start;
  const faults: Partial<Record<LengthField | CountField, string>> = {};
  const texts = {} as Record<LengthField | CountField, string>;
  const values = {} as Record<LengthField | CountField, number>;
  for (const field of lengthFields) {
    const typed = one(params[field]);
    texts[field] = typed ?? typicalText(base, field, units);
    const read = readLength(texts[field], base, field, units);
    if (read.ok) values[field] = read.value;
    else faults[field] = read.fault;
  }
  for (const field of countFields) {
    texts[field] = one(params[field]) ?? String(base.party[field]);
    const read = readCount(texts[field]);
    if (read.ok) values[field] = read.value;
    else faults[field] = read.fault;
  }
  const words = catalogueOf().pages.fieldFaults;
  if (values.length !== undefined && values.hitch >= values.length) faults.hitch = words.hitchTooLong;
  if (values.height !== undefined && values.height <= base.body.floor) faults.height = words.lowerThanFloor;
  const rig = Object.keys(faults).length === 0 ? rigSchema.parse(assemble(params, base, values)) : null;
  const assumed = start.kind ? lengthFields.filter((field) => one(params[field]) === undefined) : [];
  return { start, base, units, texts, faults, rig, query: queryOf(params, start, units, texts), assumed };
}

function assemble(params: Params, base: Rig, values: Record<LengthField | CountField, number>): Rig {
  const size = { length: values.length - values.hitch, hitch: values.hitch, width: values.width, height: values.height };
  const known = sizeOf(base);
  const same = (Object.keys(size) as (keyof typeof size)[]).every((k) => size[k] === known[k]);
  const shaped = same ? base : resized(base, size);
  const submitted = one(params.form) === "1";
  const stays = base.tow && one(params.tow);
  return {
    ...shaped,
    parts: shaped.parts.flatMap((part) => {
      const need = one(params[`part-${part.id}`]) ?? part.need;
      return need === "off" ? [] : [{ ...part, need: need === "must" ? "must" as const : need === "nice" ? "nice" as const : part.need }];
    }),
    wants: submitted ? base.wants.concat(["power", "water", "sewer"]).filter((w, i, all) => all.indexOf(w) === i && list(params.want).includes(w) && canWant(base, w)) : base.wants,
    gear: { ...base.gear, powerCord: values.powerCord, waterHose: values.waterHose, sewerHose: values.sewerHose, liftSide: values.liftSide, liftAlong: values.liftAlong },
    tow: base.tow && (stays === "on-site" || stays === "hitched" || stays === "elsewhere") ? { ...base.tow, stays } : base.tow,
    party: {
      adults: values.adults, children: values.children, pets: values.pets, tents: values.tents,
      accessible: submitted ? one(params.accessible) === "1" : base.party.accessible,
    },
    wishes: submitted ? list(params.wish) : base.wishes,
  };
}

/** A service can be asked for where the rig has a place to connect it. */
export function canWant(rig: Rig, service: "power" | "water" | "sewer"): boolean {
  return rig.inlets.some((i) => i.kind === service) && (service !== "power" || rig.electric !== undefined);
}

/** Typed numbers without a unit are written with the one they meant, so that the link means the same in other units. */
function queryOf(params: Params, { base, kind, query: start }: Start, units: Units, texts: Record<string, string>): string {
  const query = new URLSearchParams(start);
  for (const field of lengthFields) {
    const text = texts[field]!;
    // The length is what a typical rig is made by: it stays in the address even where it says the same.
    if ((kind && field === "length" && one(params.length) !== undefined) || text !== typicalText(base, field, units)) query.set(field, withUnit(text, field, units));
  }
  for (const field of countFields) if (texts[field] !== String(base.party[field])) query.set(field, texts[field]!);
  for (const part of base.parts) {
    const need = one(params[`part-${part.id}`]);
    if (need && need !== part.need) query.set(`part-${part.id}`, need);
  }
  const tow = one(params.tow);
  if (base.tow && tow && tow !== base.tow.stays) query.set("tow", tow);
  if (one(params.form) === "1") {
    query.set("form", "1");
    for (const want of list(params.want)) query.append("want", want);
    for (const wish of list(params.wish)) query.append("wish", wish);
    if (one(params.accessible) === "1") query.set("accessible", "1");
  }
  return query.toString();
}

function withUnit(text: string, field: LengthField, units: Units): string {
  const small = field === "liftSide" || field === "liftAlong";
  const unit = units === "metric" ? (small ? "cm" : "m") : small ? "in" : "ft";
  return /^\s*(\d+([.,]\d*)?|\d+\s+\d+\/\d+)\s*$/.test(text) ? `${text.trim()} ${unit}` : text;
}
