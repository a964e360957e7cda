import { parseLength, type BareUnit, type LengthFault, type Units } from "@/lib/measure";
import { whole } from "@/lib/park/edit/record";
import { siteEditor as words, type UnreadFault } from "@/lib/wording/en/site-editor";

/**
 * What a field holds and how it is typed. `length` in feet or meters; `small` in inches or centimeters, as trunks and posts are measured; `through` and
 * `girth` show a radius as people measure it, across and around; `into` and `left` are coordinates, the second with its side.
 */
export type Sort = "length" | "small" | "through" | "small-through" | "girth" | "into" | "left" | "percent" | "pressure" | "volts" | "count";

export type Typed = { readonly ok: true; readonly value: number | undefined } | { readonly ok: false; readonly fault: UnreadFault };

/** Reads what somebody typed; an empty field is no value. Lengths in whole millimeters, pressure in kPa. */
export function readTyped(text: string, sort: Sort, units: Units): Typed {
  const plain = text.replace(/[\u2212\u2013\u2014]/g, "-").trim();
  if (plain === "") return { ok: true, value: undefined };
  switch (sort) {
    case "percent": return readNumber(plain.replace(/\s*(%|percent)$/i, ""));
    case "volts": return readNumber(plain.replace(/\s*v(olts?)?$/i, ""));
    case "count": return readNumber(plain);
    case "pressure": return readPressure(plain, units);
    case "into": return readSigned(plain, 1, units);
    case "left": return readSide(plain, units);
    case "length": case "small": case "through": case "small-through": case "girth": return scaled(readLength(plain, bareFor(sort, units)), 1 / FACTOR[sort]);
  }
}

/** The same value as one would type it, close enough that reading it again gives what one sees: to 1/16 inch or a millimeter. */
export function printTyped(value: number | undefined, sort: Sort, units: Units): string {
  if (value === undefined) return "";
  switch (sort) {
    case "percent": case "volts": case "count": return String(value);
    case "pressure": return units === "metric" ? `${rounded(value, 1)} kPa` : `${rounded(value / KPA_PER_PSI, 1)} psi`;
    case "left": return value === 0 ? printLength(0, units, 16) : `${printLength(Math.abs(value), units, 16)} ${value > 0 ? words.leftWord : words.rightWord}`;
    case "into": return `${value < 0 ? "−" : ""}${printLength(Math.abs(value), units, 16)}`;
    case "girth": return printLength(value * FACTOR.girth, units, 4);
    case "through": case "small-through": return printLength(value * FACTOR[sort], units, 8);
    case "length": case "small": return `${value < 0 ? "−" : ""}${printLength(Math.abs(value), units, 16)}`;
  }
}

export function bareFor(sort: Sort, units: Units): BareUnit {
  const small = sort === "small" || sort === "small-through" || sort === "girth";
  return units === "metric" ? (small ? "cm" : "m") : small ? "in" : "ft";
}

const KPA_PER_PSI = 6.894757;
/** What is typed over what is kept. */
const FACTOR = { length: 1, small: 1, through: 2, "small-through": 2, girth: 2 * Math.PI } as const;

function readLength(text: string, bare: BareUnit): Typed {
  const parsed = parseLength(text, bare);
  return parsed.ok ? { ok: true, value: parsed.mm } : { ok: false, fault: parsed.fault satisfies LengthFault };
}

function scaled(typed: Typed, by: number): Typed {
  return typed.ok && typed.value !== undefined ? { ok: true, value: whole(typed.value * by) } : typed;
}

function readSigned(text: string, sign: 1 | -1, units: Units): Typed {
  const minus = text.startsWith("-");
  return scaled(readLength(minus ? text.slice(1) : text, bareFor("into", units)), minus ? -sign : sign);
}

/** "6 ft left", "6 ft R", "-6". A side and a minus sign at once could mean either. */
function readSide(text: string, units: Units): Typed {
  const match = /\s*\b(left|right|l|r)\.?$/i.exec(text);
  if (!match) return readSigned(text, 1, units);
  const rest = text.slice(0, match.index);
  if (rest.startsWith("-")) return { ok: false, fault: "side" };
  return readSigned(rest, match[1]!.toLowerCase().startsWith("l") ? 1 : -1, units);
}

function readPressure(text: string, units: Units): Typed {
  const match = /^([\d.,]+)\s*(psi|kpa|bar)?$/i.exec(text);
  const number = match && readNumber(match[1]!);
  if (!number?.ok || number.value === undefined) return { ok: false, fault: "number" };
  const unit = (match![2] ?? (units === "metric" ? "kpa" : "psi")).toLowerCase();
  return { ok: true, value: rounded(number.value * (unit === "psi" ? KPA_PER_PSI : unit === "bar" ? 100 : 1), 1) };
}

function readNumber(text: string): Typed {
  const plain = text.replace(/^(-?\d+),(\d+)$/, "$1.$2");
  return /^-?(\d+\.?\d*|\.\d+)$/.test(plain) ? { ok: true, value: Number(plain) } : { ok: false, fault: "number" };
}

function printLength(mm: number, units: Units, parts: number): string {
  if (units === "metric") return mm < 1000 ? `${rounded(mm / 10, 1)} cm` : `${mm % 10 === 0 ? (mm / 1000).toFixed(2) : (mm / 1000).toFixed(3)} m`;
  const total = Math.round((mm / 25.4) * parts), feet = Math.floor(total / (12 * parts)), rest = total % (12 * parts);
  const inches = Math.floor(rest / parts), over = rest % parts;
  const shared = over === 0 ? 1 : greatestCommon(over, parts);
  const fraction = over === 0 ? "" : `${over / shared}/${parts / shared}`;
  const inchText = [inches > 0 || (over === 0 && feet === 0) ? String(inches) : "", fraction].filter(Boolean).join(" ");
  return [feet > 0 ? `${feet} ft` : "", inchText && !(feet > 0 && rest === 0) ? `${inchText} in` : ""].filter(Boolean).join(" ");
}

function greatestCommon(a: number, b: number): number {
  return b === 0 ? a : greatestCommon(b, a % b);
}

function rounded(value: number, digits: number): number {
  return Number(value.toFixed(digits));
}
