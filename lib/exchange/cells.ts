import { z } from "zod";
import { shorten, type FaultCode } from "./faults";
import { readLength, readMeasured, readNumber, unitsOf, type Dimension, type Unit } from "./numbers";

/** What a record may hold: JSON. */
export type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };

export interface CellContext {
  /** Of the column, where its header names one. */
  readonly unit: Unit | null;
  readonly decimalComma: boolean;
}

export type CellRead = { readonly ok: true; readonly value: Json } | { readonly ok: false; readonly code: FaultCode; readonly given?: string; readonly need?: string };

/** How a column's cells are read and written. */
export interface CellKind {
  readonly takes: "text" | "day" | "word" | "yes-no" | "number" | "length" | "place" | "points" | "list" | "numbers";
  /** Its numbers are of this dimension, in a unit that the header or the cell has to name. */
  readonly dimension: Dimension | null;
  readonly read: (text: string, context: CellContext) => CellRead;
  /** The cell for a value; null where the value is not of this kind, and so stays as it is. */
  readonly write: (value: Json) => string | null;
}

export const text: CellKind = { takes: "text", dimension: null, read: (cell) => value(cell), write: (held) => (typeof held === "string" ? held : null) };

const isoDate = z.iso.date();

export const day: CellKind = {
  takes: "day", dimension: null,
  read: (cell) => (isoDate.safeParse(cell).success ? value(cell) : fault("day", cell)),
  write: (held) => (typeof held === "string" ? held : null),
};

export const yesNo: CellKind = {
  takes: "yes-no", dimension: null,
  read: (cell) => {
    const word = cell.toLowerCase();
    if (["yes", "y", "true", "x", "1"].includes(word)) return value(true);
    return ["no", "n", "false", "0", "-"].includes(word) ? value(false) : fault("yes-no", cell);
  },
  write: (held) => (typeof held === "boolean" ? (held ? "yes" : "no") : null),
};

/** One of some words, told however they are spelled in capitals, blanks and hyphens. */
export function word(words: readonly string[]): CellKind {
  const flat = (given: string) => given.toLowerCase().replace(/[\s_-]+/g, "");
  return {
    takes: "word", dimension: null,
    read: (cell) => {
      const found = words.find((one) => flat(one) === flat(cell));
      return found === undefined ? fault("one-of", cell, words.join(", ")) : value(found);
    },
    write: (held) => (typeof held === "string" ? held : null),
  };
}

export const number: CellKind = { takes: "number", dimension: null, read: (cell, { decimalComma }) => numberOf(readNumber(cell, decimalComma), cell), write: writeNumber };

/** A number with a unit of its own dimension, held in the first unit of it. */
export function measured(dimension: Exclude<Dimension, "length" | "date">): CellKind {
  return { takes: "number", dimension, read: (cell, { unit, decimalComma }) => numberOf(readMeasured(cell, dimension, unit ?? onlyUnit(dimension), decimalComma), cell), write: writeNumber };
}

export const length: CellKind = { takes: "length", dimension: "length", read: (cell, { unit, decimalComma }) => numberOf(readLength(cell, unit, decimalComma, false), cell), write: writeNumber };
/** A coordinate: a length that may lie below zero. */
export const place: CellKind = { takes: "place", dimension: "length", read: (cell, { unit, decimalComma }) => numberOf(readLength(cell, unit, decimalComma, true), cell), write: writeNumber };

/** Points as `x y; x y; …`, of two numbers each, or three where they are spot heights. */
export function points(size: 2 | 3): CellKind {
  return {
    takes: "points", dimension: "length",
    read: (cell, context) => readPoints(cell, size, context),
    write: (held) => {
      if (!Array.isArray(held) || !held.every((point: Json) => Array.isArray(point) && point.length === size && point.every((n: Json) => typeof n === "number"))) return null;
      return held.map((point: Json) => (point as number[]).join(" ")).join("; ");
    },
  };
}

/** Words in a row, parted by semicolons; one that holds a semicolon has it as `\;`. */
export const words: CellKind = {
  takes: "list", dimension: null,
  read: (cell) => value(splitWords(cell)),
  write: (held) => (isTexts(held) && held.length > 0 && held.every((one) => one === one.trim() && one !== "") ? held.map((one) => one.replace(/[\\;]/g, "\\$&")).join("; ") : null),
};

/** Numbers in a row, such as the receptacles of a pedestal: `30; 50`, or `none` where it is known to have none. */
export const numbers: CellKind = {
  takes: "numbers", dimension: null,
  read: (cell) => {
    if (/^none$/i.test(cell)) return value([]);
    const parts = cell.split(/[;,/\s]+|\band\b/).map((part) => part.replace(/\s*a(mps?|mperes)?$/i, "").trim()).filter((part) => part !== "");
    const wrong = parts.find((part) => !/^\d+(\.\d+)?$/.test(part));
    return wrong === undefined ? value(parts.map(Number)) : fault("list-item", wrong);
  },
  write: (held) => (Array.isArray(held) && held.every((one: Json) => typeof one === "number") ? held.join("; ") || "none" : null),
};

function readPoints(cell: string, size: 2 | 3, { unit, decimalComma }: CellContext): CellRead {
  const need = size === 2 ? "x y; x y; …" : "x y z; x y z; …", made: number[][] = [];
  for (const corner of cell.split(/[;|\n]/)) {
    if (corner.trim() === "") continue;
    const parts = corner.trim().split(decimalComma ? /\s+/ : /\s*,\s*|\s+/);
    if (parts.length !== size) return fault("points", corner.trim(), need);
    const point: number[] = [];
    for (const part of parts) {
      const read = readLength(part, unit, decimalComma, true);
      if (!read.ok) return fault(read.code === "number" ? "points" : read.code, part, need);
      point.push(read.value);
    }
    made.push(point);
  }
  return value(made);
}

function splitWords(cell: string): string[] {
  return (cell.match(/(?:\\.|[^;\\]|\\$)+/g) ?? []).map((one) => one.trim().replace(/\\([\\;])/g, "$1")).filter((one) => one !== "");
}

function isTexts(held: Json): held is readonly string[] {
  return Array.isArray(held) && held.every((one: Json) => typeof one === "string");
}

function writeNumber(held: Json): string | null {
  return typeof held === "number" ? String(held) : null;
}

/** Where there is but one unit for a thing, a number without one can mean nothing else. */
function onlyUnit(dimension: Dimension): Unit | null {
  const all = unitsOf[dimension];
  return all.length === 1 ? all[0] : null;
}

function numberOf(read: ReturnType<typeof readNumber>, cell: string): CellRead {
  return read.ok ? value(read.value) : fault(read.code, cell);
}

function value(held: Json): CellRead {
  return { ok: true, value: held };
}

function fault(code: FaultCode, given: string, need?: string): CellRead {
  return { ok: false, code, given: shorten(given), ...(need === undefined ? {} : { need }) };
}
