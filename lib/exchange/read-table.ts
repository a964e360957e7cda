import type { Json } from "./cells";
import { unguard, type CsvTable } from "./csv-text";
import type { Draft, Drafts } from "./draft";
import { shorten, type Faults } from "./faults";
import { tellMissingUnits, type BoundColumn, type BoundHeader } from "./header";
import { unitsOf } from "./numbers";
import { dropAt, putAt, sameJson, valueAt } from "./paths";
import type { Path } from "./tables";

interface Reading {
  readonly file: string;
  readonly header: BoundHeader;
  readonly decimalComma: boolean;
  readonly faults: Faults;
  /** Columns of which it was told already that their numbers have no unit. */
  readonly silent: ReadonlySet<BoundColumn>;
}

export interface Row {
  readonly row: number;
  readonly cells: readonly string[];
}

/**
 * Puts the rows of a table into the drafts of the records they are of. A column that is not in the file, and a thing that has no row, stay as
 * they are. A cell that says what is there already changes nothing, to the last digit.
 */
export function readTable(file: string, header: BoundHeader, table: CsvTable, drafts: Drafts, faults: Faults): void {
  const silent = tellMissingUnits(file, header, table, faults);
  const reading: Reading = { file, header, decimalComma: table.decimalComma, faults, silent };
  const rows = rowsWithin(file, header, table, faults);
  if (header.table.list === null) readRecords(reading, rows, drafts);
  else readThings(reading, rows, header.table.list, drafts);
}

/** The rows of a table but for those with cells beyond its last header, each of which is told. */
export function rowsWithin(file: string, header: BoundHeader, table: CsvTable, faults: Faults): readonly Row[] {
  const width = Math.max(...[header.owner, ...header.columns].map(({ index }) => index), 0);
  return table.rows.filter(({ row, cells }) => {
    const extra = cells.slice(Math.max(table.header.length, width + 1)).find((cell) => cell !== "");
    if (extra === undefined) return true;
    faults.add({ file, code: "extra-cells", row, given: shorten(extra), count: table.header.length });
    return false;
  });
}

function readRecords(reading: Reading, rows: readonly Row[], drafts: Drafts): void {
  const { file, header: { owner, columns }, faults } = reading, seen = new Map<string, number>();
  for (const { row, cells } of rows) {
    const id = idOf(reading, owner, row, cells);
    if (id === null || isRepeat(reading, seen, id, id, row, owner)) continue;
    const fresh: Json = {};
    putAt(fresh, owner.column.path, id);
    const draft = drafts.open(id, fresh)!;
    draft.marks.push({ path: [], file, row, columns });
    for (const bound of columns) if (bound !== owner) apply(reading, draft, [], bound, row, cells, faults);
  }
}

function readThings(reading: Reading, rows: readonly Row[], list: Path, drafts: Drafts): void {
  const { header: { owner } } = reading, byOwner = new Map<string, Row[]>();
  for (const one of rows) {
    const id = idOf(reading, owner, one.row, one.cells);
    if (id === null) continue;
    const own = byOwner.get(id);
    if (own) own.push(one);
    else byOwner.set(id, [one]);
  }
  for (const [id, own] of byOwner) {
    const draft = drafts.open(id, null);
    if (!draft) {
      for (const { row } of own) reading.faults.add({ file: reading.file, code: "no-such-owner", row, column: owner.header, given: shorten(id) });
      continue;
    }
    if (!Array.isArray(valueAt(draft.after, list))) putAt(draft.after, list, []);
    const held = valueAt(draft.after, list) as Json[];
    if (reading.header.table.id) readNamed(reading, draft, list, held, own);
    else readNameless(reading, draft, list, held, own);
  }
}

function readNamed(reading: Reading, draft: Draft, list: Path, held: Json[], rows: readonly Row[]): void {
  const { file, header: { table, columns }, faults } = reading, seen = new Map<string, number>(), key = columns.find(({ column }) => column === table.id)!;
  const places = new Map(held.map((thing, i) => [String(valueAt(thing, ["id"]) ?? "").trim(), i]));
  for (const { row, cells } of rows) {
    const id = idOf(reading, key, row, cells);
    if (id === null || isRepeat(reading, seen, id, `${draft.id}: ${id}`, row, key)) continue;
    const index = places.get(id) ?? held.push({ id }) - 1;
    places.set(id, index);
    const path = [...list, index];
    draft.marks.push({ path, file, row, columns });
    for (const bound of columns) if (bound !== key) apply(reading, draft, path, bound, row, cells, faults);
  }
}

/** Things without names are told apart by their order alone: the rows of a record are all there are. */
function readNameless(reading: Reading, draft: Draft, list: Path, held: Json[], rows: readonly Row[]): void {
  const { file, header: { columns }, faults } = reading;
  held.length = Math.min(held.length, rows.length);
  rows.forEach(({ row, cells }, i) => {
    if (i >= held.length) held.push({});
    const path = [...list, i];
    draft.marks.push({ path, file, row, columns });
    for (const bound of columns) apply(reading, draft, path, bound, row, cells, faults);
  });
}

function apply({ file, decimalComma, silent }: Reading, draft: Draft, within: Path, bound: BoundColumn, row: number, cells: readonly string[], faults: Faults): void {
  const { column, index, unit, header } = bound, path = [...within, ...column.path];
  const cell = unguard(cells[index] ?? ""), now = valueAt(draft.after, path), written = now === undefined ? null : column.kind.write(now);
  const own = unit === null || unit === unitsOf[column.kind.dimension ?? "length"][0];
  if (own && cell.trim() === (written ?? "").trim()) return;
  if (cell === "") return written === null ? undefined : dropAt(draft.after, path);
  if (silent.has(bound)) return;
  const read = column.kind.read(cell, { unit, decimalComma });
  if (!read.ok) faults.add({ file, row, column: header, code: read.code, given: read.given ?? shorten(cell), ...(read.need === undefined ? {} : { need: read.need }) });
  else if (!sameJson(read.value, now)) putAt(draft.after, path, read.value);
}

function idOf({ file, faults }: Reading, { header, index }: BoundColumn, row: number, cells: readonly string[]): string | null {
  const id = unguard(cells[index] ?? "").trim();
  if (id === "") faults.add({ file, code: "no-id", row, column: header });
  return id === "" ? null : id;
}

function isRepeat({ file, faults }: Reading, seen: Map<string, number>, id: string, told: string, row: number, { header }: BoundColumn): boolean {
  const first = seen.get(id);
  if (first === undefined) {
    seen.set(id, row);
    return false;
  }
  faults.add({ file, code: "twice", row, column: header, given: shorten(told), count: first });
  return true;
}
