import { z } from "zod";
import { parseLength, type Units } from "@/lib/measure";
import type { Readings } from "@/lib/park";
import type { Reading } from "@/lib/survey";
import { bareFor, fieldsOf, surveyMethodOf, type Method, type Typed } from "./methods";

/** What stands in the fields of one measurement. */
export interface Texts {
  readonly [name: string]: string;
}

export interface TapeRow {
  readonly from: string;
  readonly distance: string;
}

export interface Form {
  readonly of: string;
  readonly method: Method;
  readonly texts: Texts;
  readonly tapes: readonly TapeRow[];
  readonly side: "left" | "right";
  /** What the middle lies beyond the face that the tape was held to, mm; 0 where it was held to the middle. */
  readonly add: number;
  /** Which end of a level, or which side, lies higher. */
  readonly higher: "plus" | "minus";
  /** Of a ring: its sides, then diagonals between corners by their numbers. */
  readonly sides: readonly string[];
  readonly diagonals: readonly { readonly from: number; readonly to: number; readonly length: string }[];
  readonly inward: readonly number[];
  readonly spots: readonly { readonly at: readonly [number, number]; readonly height: string }[];
}

/** Why a field cannot be read yet: empty fields that are needed are no fault until somebody wants to go on. */
export type FieldFault = "empty" | "length" | "number" | "day";

export type Read = { readonly ok: true; readonly reading: Omit<Reading, "id" | "on" | "by" | "again"> } | { readonly ok: false; readonly faults: Readonly<Record<string, FieldFault>> };

/** What was typed as a reading, every fault by the field that it is in. */
export function readForm(form: Form, units: Units): Read {
  const faults: Record<string, FieldFault> = {};
  const number = (name: string, text: string, sort: Typed["sort"], needed: boolean): number | undefined => {
    const value = readOne(text, sort, units);
    if (value === "empty" ? needed : typeof value === "string") faults[name] = value as FieldFault;
    return typeof value === "number" ? value : undefined;
  };
  const { of, method } = form, how = surveyMethodOf[method];
  const read = (name: string) => number(name, form.texts[name] ?? "", fieldsOf(method, of).find((f) => f.name === name)!.sort, fieldsOf(method, of).find((f) => f.name === name)!.needed);
  const reading = readingsOf(form, read, number);
  return Object.keys(faults).length > 0 ? { ok: false, faults } : { ok: true, reading: { of: method === "spots" ? "ground" : of, how, ...reading } };
}

/** Nothing stands so long without being looked at: a year further off is a slip of the finger. */
export const AGAIN_WITHIN = 50;

/** The last day on which to look again at what is measured on a day. */
export function lastAgain(on: string): string {
  return `${Number(on.slice(0, 4)) + AGAIN_WITHIN}${on.slice(4)}`;
}

/** Whether a text is a day on which to look again: a real one, that day or later, as a record keeps it. */
export function isAgain(text: string, on: string): boolean {
  return z.iso.date().safeParse(text).success && on <= text && text <= lastAgain(on);
}

type ReadField = (name: string) => number | undefined;
type ReadNumber = (name: string, text: string, sort: Typed["sort"], needed: boolean) => number | undefined;

function readingsOf(form: Form, read: ReadField, number: ReadNumber): Pick<Reading, "value" | "readings"> {
  const { of, method } = form, axis = of === "ground.across" ? "across" : "along", sign = form.higher === "plus" ? 1 : -1;
  switch (method) {
    case "pole": case "reach": return { readings: { length: read("length")! } };
    case "girth": return { readings: { girth: read("girth")! } };
    case "gauge": return { value: read("pressure")! };
    case "eye": return { value: of.startsWith("ground.") ? sign * read("percent")! : read("length")! };
    case "offsets": { const along = read("along")!, across = read("across")!; return { readings: { offset: { along, across: form.side === "left" ? across : -across } } }; }
    case "angle": {
      const [distance, top, eye, base] = [read("distance")!, read("top")!, read("eye"), read("base")];
      return { readings: { angle: { distance, top, ...(eye === undefined ? {} : { eye }), ...(base === undefined ? {} : { base }) } } };
    }
    case "level": { const over = read("over")!, rise = read("rise")!; return { readings: { level: { [axis]: { rise: sign * rise, over } } } }; }
    case "degrees": return { readings: { degrees: { [axis]: sign * read("degrees")! } } };
    case "percent": return { readings: { percent: { [axis]: sign * read("percent")! } } };
    case "tapes": return { readings: { tapes: form.tapes.map(({ from, distance }, i) => ({ from, distance: number(`tape-${i}`, distance, "length", true)!, ...(form.add > 0 ? { add: form.add } : {}) })), side: form.side } };
    case "ring": return { readings: { ring: ringOf(form, number) } };
    case "spots": return { readings: { spots: form.spots.map(({ at: [x, y], height }, i): [number, number, number] => [x, y, number(`spot-${i}`, height, "small", true)!]) } };
  }
}

function ringOf({ sides, diagonals, inward }: Form, number: ReadNumber): NonNullable<Readings["ring"]> {
  const long = diagonals.flatMap(({ from, to, length }, i) => (length.trim() === "" ? [] : [{ from, to, length: number(`diagonal-${i}`, length, "length", true)!, error: undefined }]));
  return { sides: sides.map((side, i) => number(`side-${i}`, side, "length", true)!), diagonals: long, inward: [...inward], error: undefined };
}

const PSI = 6.894757;

function readOne(text: string, sort: Typed["sort"], units: Units): number | FieldFault {
  const plain = text.replace(/[\u2212\u2013\u2014]/g, "-").trim();
  if (plain === "") return "empty";
  if (sort === "angle" || sort === "percent" || sort === "pressure") {
    const match = /^(-?\d+(?:[.,]\d+)?)\s*(°|degrees?|%|percent|psi|kpa)?$/i.exec(plain);
    if (!match) return "number";
    const value = Number(match[1]!.replace(",", "."));
    return sort !== "pressure" ? value : Math.round(10 * value * ((match[2] ?? (units === "metric" ? "kpa" : "psi")).toLowerCase() === "psi" ? PSI : 1)) / 10;
  }
  const minus = plain.startsWith("-"), parsed = parseLength(minus ? plain.slice(1) : plain, bareFor(sort, units === "metric"));
  return parsed.ok ? (minus ? -parsed.mm : parsed.mm) : "length";
}
