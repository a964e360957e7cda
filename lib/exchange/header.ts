import type { CsvTable } from "./csv-text";
import type { Faults } from "./faults";
import { findUnit, isUnit, unitsOf, type Unit } from "./numbers";
import { staysTable } from "./stays-table";
import { tableNames, tables, type Column, type Table } from "./tables";

/** A column of a table at its place in a file. */
export interface BoundColumn {
  readonly column: Column;
  readonly index: number;
  /** As the file writes it. */
  readonly header: string;
  /** As the header names it; null: the cells have to. */
  readonly unit: Unit | null;
}

export interface BoundHeader {
  readonly table: Table;
  readonly owner: BoundColumn;
  /** All but the owner of a list's rows. */
  readonly columns: readonly BoundColumn[];
  /** Headers that mean nothing here, as notes of one's own do. */
  readonly passed: readonly string[];
}

/** Which table a file is: by its name where that says so, else the one that knows the most of its headers. Null where none does. */
export function findTable(file: string, header: readonly string[]): Table | null {
  const name = ` ${plain(file.replace(/\.[a-z]+$/i, ""))} `;
  const all = [...tableNames.map((one) => tables[one]), staysTable];
  const named = [...all].sort((a, b) => b.name.length - a.name.length).find((one) => name.includes(` ${plain(one.name)} `));
  if (named) return named;
  const scored = all.map((table) => ({ table, score: scoreOf(table, header) })).sort((a, b) => b.score - a.score);
  const [best, second] = scored;
  return best && best.score > 0 && best.score > (second?.score ?? 0) ? best.table : null;
}

/**
 * Finds the columns of a table by their headers, whatever their capitals, blanks and hyphens, with a unit in brackets or behind: `Max length (ft)`,
 * `max_length_ft`. Null where the column is missing that says which record a row is of.
 */
export function bindHeader(file: string, table: Table, header: readonly string[], faults: Faults): BoundHeader | null {
  const bound: BoundColumn[] = [], passed: string[] = [];
  header.forEach((title, index) => {
    if (title === "") return;
    const found = findColumn(table, title);
    if (!found) return void passed.push(title);
    const { column, unit: unitName } = found, unit = unitName === null || !column.kind.dimension ? null : findUnit(unitName, column.kind.dimension);
    if (unitName !== null && column.kind.dimension && !unit) {
      faults.add({ file, code: "unknown-unit", row: 1, column: title, given: unitName, need: unitsOf[column.kind.dimension].map(({ name }) => name).join(", ") });
      return;
    }
    if (bound.some((one) => one.column === column)) return void faults.add({ file, code: "column-twice", row: 1, column: title });
    bound.push({ column, index, header: title, unit });
  });
  // Stays that are all new need no column for the references they do not have.
  const owner = bound.find(({ column }) => column === table.owner) ?? (table.of === "stay" ? { column: table.owner, index: -1, header: table.owner.name, unit: null } : undefined);
  const key = owner && table.id && !bound.some(({ column }) => column === table.id) ? table.id : owner ? null : table.owner;
  if (key) faults.add({ file, code: "no-key-column", row: 1, need: key.name });
  if (!owner || key) return null;
  return { table, owner, columns: table.list ? bound.filter((one) => one !== owner) : bound, passed };
}

/**
 * Where neither the header nor a cell says a unit, that is told once of the column, with how many cells it concerns, instead of once a cell.
 */
export function tellMissingUnits(file: string, { columns }: BoundHeader, { rows }: CsvTable, faults: Faults): ReadonlySet<BoundColumn> {
  const without = columns.filter(({ column: { kind }, unit }) => kind.dimension !== null && kind.dimension !== "date" && unit === null && unitsOf[kind.dimension].length > 1);
  const silent = without.flatMap((bound) => {
    const count = rows.filter(({ cells }) => bareNumber(cells[bound.index] ?? "")).length;
    if (count === 0) return [];
    faults.add({ file, code: "no-unit", row: 1, column: bound.header, count, need: unitsOf[bound.column.kind.dimension!].map(({ name }) => `${bound.column.name} (${name})`).join(", ") });
    return [bound];
  });
  return new Set(silent);
}

/** Digits with the signs that part them, and no word of a unit among them. */
function bareNumber(cell: string): boolean {
  return /\d/.test(cell) && /^'?[\d\s.,;|+\-−]+$/.test(cell) && !/^\d+-\d/.test(cell);
}

function scoreOf(table: Table, header: readonly string[]): number {
  const found = new Set(header.flatMap((title) => findColumn(table, title)?.column ?? []));
  const has = table.of === "stay" ? ["arrive", "depart"].every((name) => [...found].some((column) => column.name === name)) : found.has(table.owner) && (table.id === null || found.has(table.id));
  return has ? found.size * 2 - header.filter((title) => title !== "").length : 0;
}

function findColumn(table: Table, title: string): { column: Column; unit: string | null } | null {
  const whole = plain(title), columns = table.list ? [table.owner, ...table.columns] : table.columns;
  const named = (name: string) => columns.find((column) => column.name === name) ?? columns.find((column) => column.also.includes(name));
  const exact = named(whole);
  if (exact) return { column: exact, unit: null };
  const bracketed = /^(.*?)\s*[([]\s*([^()[\]]+?)\s*[)\]]$/.exec(title.trim());
  if (bracketed) {
    const column = named(plain(bracketed[1]!));
    return column ? { column, unit: bracketed[2]! } : null;
  }
  const parts = whole.split(" "), last = parts.pop()!, before = parts.at(-1) === "in" ? parts.slice(0, -1) : parts;
  const column = isUnit(last) ? named(before.join(" ")) : undefined;
  return column ? { column, unit: last } : null;
}

/** A header, or a name, without what people write differently. */
function plain(title: string): string {
  return title.toLowerCase().replace(/[\s_\-.:]+/g, " ").trim();
}
