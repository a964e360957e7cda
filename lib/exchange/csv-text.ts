import { CsvError, parse } from "csv-parse/sync";
import { stringify } from "csv-stringify/sync";
import { bounds, type Limits } from "./bounds";
import type { FaultCode } from "./faults";

/** A table as text: its cells, trimmed at the ends, by the rows that a spreadsheet shows them in. */
export interface CsvTable {
  readonly header: readonly string[];
  readonly rows: readonly { readonly row: number; readonly cells: readonly string[] }[];
  /** Where cells are parted by semicolons, a comma in a number is a decimal one. */
  readonly decimalComma: boolean;
}

export type CsvRead = { readonly ok: true; readonly table: CsvTable } | { readonly ok: false; readonly code: FaultCode; readonly row?: number; readonly count?: number };

/**
 * Reads RFC 4180 as spreadsheets write it: parted by commas, semicolons or tabs, lines ended by CR, LF or both, a byte
 * order mark or a line `sep=;` ahead, blank rows and blanks around cells passed over. The first row that is not blank is the header.
 */
export function readCsv(text: string, { rows: mostRows }: Limits): CsvRead {
  const { body, told } = withoutSep(text.startsWith("\uFEFF") ? text.slice(1) : text);
  const delimiter = told ?? likelyDelimiter(body);
  const looked = survey(body, delimiter, mostRows);
  if (!looked.ok) return looked;
  let records: string[][];
  try {
    records = parse(body.slice(0, looked.end), { delimiter, record_delimiter: ["\r\n", "\n", "\r"], relax_column_count: true, relax_quotes: true, trim: true });
  } catch (error) {
    return refusalOf(error);
  }
  const skipped = told === null ? 0 : 1;
  const full = records.flatMap((cells, i) => (cells.some((cell) => cell.trim() !== "") ? [{ row: i + 1 + skipped, cells: cells.map((cell) => cell.trim()) }] : []));
  const [head, ...rows] = full;
  if (rows.length > mostRows) return { ok: false, code: "too-many-rows", count: mostRows };
  return head ? { ok: true, table: { header: head.cells, rows, decimalComma: delimiter === ";" } } : { ok: false, code: "no-header" };
}

/** Writes a table as RFC 4180 has it: commas, lines ended by CR and LF, quotes where they are needed. */
export function writeCsv(header: readonly string[], rows: readonly (readonly string[])[]): string {
  // Alone, neither of the two signs that end a line together makes the package quote a cell.
  return stringify([[...header], ...rows.map((cells) => [...cells])], { record_delimiter: "\r\n", quoted_match: /[\r\n]/ });
}

/**
 * A text as a cell that no spreadsheet runs: one that begins like a formula gets an apostrophe ahead, and so does one
 * that begins with an apostrophe, so that {@link unguard} gives back exactly what was written.
 */
export function guard(text: string): string {
  return FORMULA.test(text) ? `'${text}` : text;
}

/** The text that a cell holds, without the apostrophe that {@link guard} put ahead of it. */
export function unguard(cell: string): string {
  return cell.startsWith("'") && FORMULA.test(cell.slice(1)) ? cell.slice(1) : cell;
}

/** How a cell begins that some spreadsheet takes for a formula, the full-width signs that some turn into ASCII included. */
const FORMULA = /^[=+\-@\t\r\n'＝＋－＠]/;

/** A header is looked for in so many characters. */
const FIRST_ROW = 100_000;

const DELIMITERS = [",", ";", "\t"] as const;

/** Some spreadsheets say in a first line of its own what parts the cells. */
function withoutSep(text: string): { body: string; told: string | null } {
  const match = /^sep=([,;\t])(?:\r\n|\n|\r)/.exec(text);
  return match ? { body: text.slice(match[0].length), told: match[1]! } : { body: text, told: null };
}

/** Of the signs that part cells, the one that stands most often in the first row that is not blank, outside of quotes. */
function likelyDelimiter(text: string): string {
  const counts = new Map<string, number>();
  let quoted = false, seen = false;
  for (let i = 0; i < Math.min(text.length, FIRST_ROW); i++) {
    const sign = text[i]!;
    if (sign === '"') quoted = !quoted;
    else if (quoted) continue;
    else if (sign === "\n" || sign === "\r") { if (seen) break; else continue; }
    if ((DELIMITERS as readonly string[]).includes(sign)) counts.set(sign, (counts.get(sign) ?? 0) + 1);
    else if (sign.trim() !== "") seen = true;
  }
  return DELIMITERS.reduce((best, sign) => ((counts.get(sign) ?? 0) > (counts.get(best) ?? 0) ? sign : best), DELIMITERS[0]);
}

type Surveyed = { readonly ok: true; readonly end: number } | { readonly ok: false; readonly code: FaultCode; readonly row: number; readonly count?: number };

/**
 * Looks through the text once, before any of it is taken apart, for what is beyond the bounds or not closed, and for where its last
 * filled row ends: a million cells in one row, or blank rows below a table, cost no more than reading them. As in RFC 4180 a quote opens
 * only at the beginning of a cell; elsewhere it is a sign of its own, so that 34' 6" may stand as it is.
 */
function survey(text: string, delimiter: string, mostRows: number): Surveyed {
  let row = 1, columns = 1, cell = 0, end = 0, blank = true, state: "start" | "plain" | "quoted" | "closed" = "start";
  for (let i = 0; i < text.length; i++) {
    const sign = text[i]!;
    if (++cell > bounds.cell) return { ok: false, code: state === "quoted" ? "quote-open" : "cell-too-long", row, count: bounds.cell };
    if (state === "quoted") {
      if (sign === '"' && text[i + 1] === '"') i++;
      else if (sign === '"') state = "closed";
      continue;
    }
    if (sign === "\n" || sign === "\r") {
      if (sign === "\r" && text[i + 1] === "\n") i++;
      if (!blank) end = i + 1;
      if (++row > mostRows + BLANK_ROWS) return { ok: false, code: "too-many-rows", row, count: mostRows };
      columns = 1;
      cell = 0;
      blank = true;
      state = "start";
    } else if (sign === delimiter) {
      if (++columns > bounds.columns) return { ok: false, code: "too-many-columns", row, count: bounds.columns };
      cell = 0;
      state = "start";
    } else if (sign.trim() !== "") {
      if (state === "closed") return { ok: false, code: "quotes", row };
      if (state === "start") state = sign === '"' ? "quoted" : "plain";
      blank = false;
    }
  }
  if (state === "quoted") return { ok: false, code: "quote-open", row };
  return { ok: true, end: blank ? end : text.length };
}

/** So many blank rows may stand among the filled ones. */
const BLANK_ROWS = 20_000;

/** What the look ahead passed and the parser does not: told all the same, without a place. */
function refusalOf(error: unknown): CsvRead {
  if (!(error instanceof CsvError)) throw error;
  return { ok: false, code: error.code === "CSV_QUOTE_NOT_CLOSED" ? "quote-open" : "quotes" };
}
