import { readDate } from "@/lib/stays";
import type { CellKind, CellRead } from "./cells";
import { shorten, type FaultCode } from "./faults";
import { unitsOf, type Unit } from "./numbers";

/**
 * A date, as a spreadsheet writes it. 2026-07-04 is one in any country; every other form is read only where the column's header says its
 * order (`Arrive (m/d/y)`), as 4/7/2026 is April to some and July to others. A year has four digits.
 */
export const date: CellKind = {
  takes: "day", dimension: "date",
  read: (cell, { unit }) => readTableDate(cell, unit),
  write: (held) => (typeof held === "string" ? held : null),
};

/** The dates that a text may be, in the orders that people write; none where it is no date in any. */
export function readingsOf(text: string): string[] {
  return [...new Set(unitsOf.date.flatMap((order) => inOrder(text, order) ?? []))];
}

const [yearFirst] = unitsOf.date;

function readTableDate(text: string, order: Unit | null): CellRead {
  if (/^\d{4}-\d{2}-\d{2}$/.test(text)) return inOrder(text, yearFirst) ? { ok: true, value: text } : fault("no-such-day", text);
  const parts = partsOf(text);
  if (!parts) return fault("day", text);
  if (parts.every((part) => part.length < 4)) return fault("short-year", text);
  if (!order) return fault("date-order", text, readingsOf(text).join(" or "));
  if ((parts[0]!.length === 4) !== (order === yearFirst)) return fault("date-order", text, order.name);
  const value = inOrder(text, order);
  return value === null ? fault("no-such-day", text, order.name) : { ok: true, value };
}

/** Three numbers with one sign between them, of which at most one has four digits. */
function partsOf(text: string): string[] | null {
  const match = /^(\d{1,4})\s*([./-])\s*(\d{1,2})\s*\2\s*(\d{1,4})$/.exec(text);
  return match && !(match[1]!.length > 2 && match[4]!.length > 2) && [match[1]!, match[4]!].every((part) => part.length !== 3) ? [match[1]!, match[3]!, match[4]!] : null;
}

function inOrder(text: string, order: Unit): string | null {
  const parts = partsOf(text), letters = order.name.replace(/[^ymd]/g, "");
  if (!parts) return null;
  const part = (letter: string) => parts[letters.indexOf(letter)]!;
  return part("y").length === 4 ? readDate(`${part("y")}-${part("m").padStart(2, "0")}-${part("d").padStart(2, "0")}`) : null;
}

function fault(code: FaultCode, given: string, need?: string): CellRead {
  return { ok: false, code, given: shorten(given), ...(need === undefined || need === "" ? {} : { need }) };
}
