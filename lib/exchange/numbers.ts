import { parseLength } from "@/lib/measure";

/** A unit that a column may name, with what one of it is in the unit that records hold. */
export interface Unit {
  readonly name: string;
  readonly size: number;
}

/** What a column of numbers may be in, first the unit that records hold and that exports are in. */
export const unitsOf = {
  length: [unit("mm", 1), unit("cm", 10), unit("m", 1000), unit("in", 25.4), unit("ft", 304.8)],
  /** By the exact pound and inch: 0.45359237 kg × 9.80665 m/s² over 25.4 mm squared. */
  pressure: [unit("kPa", 1), unit("psi", 6.894757293168361), unit("bar", 100)],
  slope: [unit("%", 1)],
  angle: [unit("degrees", 1)],
  volts: [unit("V", 1)],
  power: [unit("VA", 1)],
  /** In which order a date says year, month and day; 2026-07-04 is read whatever the header says. */
  date: [unit("y-m-d", 1), unit("m/d/y", 1), unit("d/m/y", 1)],
} as const satisfies Record<string, readonly Unit[]>;
export type Dimension = keyof typeof unitsOf;

/** The unit of that name, however people write it, among those of a dimension. */
export function findUnit(name: string, dimension: Dimension): Unit | null {
  if (dimension === "date") return unitsOf.date.find((one) => lettersOf(one.name) === lettersOf(name)) ?? null;
  const plain = name.toLowerCase().replace(/[.\s]/g, ""), wanted = (SPELLED[plain] ?? plain).toLowerCase();
  return unitsOf[dimension].find((one) => one.name.toLowerCase() === wanted) ?? null;
}

/** `dd.mm.yyyy` and `d/m/y` say the same order. */
function lettersOf(order: string): string {
  return order.toLowerCase().replace(/[\s./-]/g, "").replace(/(.)\1+/g, "$1");
}

/** Whether that is a unit of anything at all. */
export function isUnit(name: string): boolean {
  return (Object.keys(unitsOf) as Dimension[]).some((dimension) => findUnit(name, dimension) !== null);
}

export type NumberRead = { readonly ok: true; readonly value: number } | { readonly ok: false; readonly code: "number" | "ambiguous" | "no-unit" | "unit-mixed" | "length" | "negative" };

/**
 * A number as spreadsheets write it: any minus sign, groups of thousands, and where cells are parted by semicolons
 * a decimal comma. One that may be either thousands or decimals there, such as 1.250, is refused, never guessed.
 */
export function readNumber(text: string, decimalComma: boolean): NumberRead {
  const plain = text.replace(/^[−–]/, "-").replace(/(?<=\d)[\u00A0\u2009\u202F](?=\d{3})/g, "");
  if (decimalComma && /^[+-]?\d{1,3}(\.\d{3})+$/.test(plain) && !/^[+-]?0\./.test(plain)) return { ok: false, code: "ambiguous" };
  const pointed = decimalComma && /^[+-]?\d{1,3}(\.\d{3})*,\d+$/.test(plain) ? plain.replaceAll(".", "").replace(",", ".")
    : !decimalComma && /^[+-]?\d{1,3}(,\d{3})+(\.\d+)?$/.test(plain) ? plain.replaceAll(",", "")
    : plain.replace(/^([+-]?\d*),(\d+)$/, "$1.$2");
  if (!/^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d{1,3})?$/i.test(pointed)) return { ok: false, code: "number" };
  const value = Number(pointed);
  return Number.isFinite(value) ? { ok: true, value } : { ok: false, code: "number" };
}

/** A number in a column's unit, or with one of its own that means the same dimension: `60 psi`, `1.5 %`. */
export function readMeasured(text: string, dimension: Dimension, inUnit: Unit | null, decimalComma: boolean): NumberRead {
  const match = /^(.*?[\d.])\s*([a-z%°]+\.?)$/i.exec(text);
  const own = match && !/e$/i.test(match[1]!) ? findUnit(match[2]!, dimension) : null;
  const read = readNumber(own ? match![1]! : text, decimalComma);
  if (!read.ok) return read;
  const used = own ?? inUnit;
  return used ? { ok: true, value: round(read.value, used) } : { ok: false, code: "no-unit" };
}

/**
 * A length in millimetres: a plain number in the column's unit, or with units of its own, in any way a person writes them (34' 6", 34-6,
 * 34 ft 6 in, 10.5 m). `signed`: a coordinate, which may lie below zero; other lengths may not.
 */
export function readLength(text: string, inUnit: Unit | null, decimalComma: boolean, signed: boolean): NumberRead {
  const sign = /^[+\-−–]\s*/.exec(text)?.[0] ?? "", bare = text.slice(sign.length), below = sign !== "" && !sign.startsWith("+");
  if (below && !signed) return { ok: false, code: "negative" };
  const read = magnitude(bare, inUnit, decimalComma);
  return read.ok ? { ok: true, value: below ? 0 - read.value : read.value } : read;
}

function magnitude(text: string, inUnit: Unit | null, decimalComma: boolean): NumberRead {
  const plain = readNumber(text, decimalComma);
  if (plain.ok) return inUnit ? { ok: true, value: round(plain.value, inUnit) } : { ok: false, code: "no-unit" };
  if (plain.code === "ambiguous") return plain;
  const dashed = /^(\d+)\s*-\s*(\d+(?:\.\d+)?(?:\s+\d+\/\d+)?)$/.exec(text);
  if (dashed) {
    // Feet and inches as shops write them; lengths in metres never are.
    if (inUnit && inUnit.name !== "ft") return { ok: false, code: "unit-mixed" };
    return typed(`${dashed[1]}' ${dashed[2]}"`, "ft");
  }
  const told = /[a-z'"′″‘’“”]/i.test(text), of = inUnit?.name;
  if (!told && inUnit === null) return { ok: false, code: "number" };
  return typed(text, of === "ft" || of === "in" || of === "m" || of === "cm" ? of : "m");
}

function typed(text: string, bare: "ft" | "in" | "m" | "cm"): NumberRead {
  const read = parseLength(text, bare);
  return read.ok ? { ok: true, value: read.mm } : { ok: false, code: read.fault === "mixed" ? "unit-mixed" : read.fault === "negative" ? "negative" : "length" };
}

/** What records hold comes through as it is; other units to a tenth, far below what a tape shows. */
function round(value: number, { size }: Unit): number {
  return size === 1 ? value : Math.round(value * size * 10) / 10;
}

function unit(name: string, size: number): Unit {
  return { name, size };
}

const SPELLED: Readonly<Record<string, string>> = {
  millimeters: "mm", millimeter: "mm", millimetres: "mm", millimetre: "mm", centimeters: "cm", centimeter: "cm", centimetres: "cm", centimetre: "cm",
  meters: "m", meter: "m", metres: "m", metre: "m", inches: "in", inch: "in", '"': "in", "″": "in", feet: "ft", foot: "ft", "'": "ft", "′": "ft", "ft-in": "ft", "ftin": "ft",
  percent: "%", "percentage": "%", pct: "%", "°": "degrees", deg: "degrees", degree: "degrees", volts: "V", volt: "V", kilopascal: "kPa", kilopascals: "kPa", "lb/in2": "psi", watts: "VA", w: "VA",
};
