import { guard, unguard, type CsvTable } from "./csv-text";
import { shorten, type Fault, type FaultCode, type Faults } from "./faults";
import { tellMissingUnits, type BoundColumn, type BoundHeader } from "./header";
import { rowsWithin, type Row } from "./read-table";
import type { StayColumn } from "./stays-table";

/** What a cell says: `blank` nothing, or there is no such column; `faulty` nothing that can be read, which is told already. */
export type StayCell = { readonly is: "blank" } | { readonly is: "faulty" } | { readonly is: "read"; readonly value: string | number };

/** The rows of a table of stays, and what their cells say, each fault told where it stands. */
export class StayRows {
  readonly rows: readonly Row[];
  readonly #columns: ReadonlyMap<string, BoundColumn>;
  /** Columns of which it was told already that their numbers have no unit. */
  readonly #silent: ReadonlySet<BoundColumn>;
  readonly #decimalComma: boolean;
  /** Dates in an order that nobody named, by their column: told once a column, by the first of them. */
  readonly #unordered = new Map<BoundColumn, { readonly fault: Fault; count: number }>();

  constructor(readonly file: string, header: BoundHeader, table: CsvTable, readonly faults: Faults) {
    this.rows = rowsWithin(file, header, table, faults);
    this.#columns = new Map([header.owner, ...header.columns].filter(({ index }) => index >= 0).map((bound) => [bound.column.name, bound]));
    this.#silent = tellMissingUnits(file, header, table, faults);
    this.#decimalComma = table.decimalComma;
  }

  has(column: StayColumn): boolean {
    return this.#columns.has(column);
  }

  /** What a cell says as it stands, without the blanks around it; empty where there is no such column. */
  textOf({ cells }: Row, column: StayColumn): string {
    const bound = this.#columns.get(column);
    return bound ? unguard(cells[bound.index] ?? "").trim() : "";
  }

  /** Whether a cell says what is there already, or there is no such column. */
  says({ cells }: Row, column: StayColumn, held: string): boolean {
    const bound = this.#columns.get(column);
    if (!bound) return true;
    const cell = (cells[bound.index] ?? "").trim();
    return cell === guard(held).trim() || unguard(cell).trim() === held.trim();
  }

  read(row: Row, column: StayColumn): StayCell {
    const bound = this.#columns.get(column), cell = this.textOf(row, column);
    if (!bound || cell === "") return { is: "blank" };
    if (this.#silent.has(bound)) return { is: "faulty" };
    const read = bound.column.kind.read(cell, { unit: bound.unit, decimalComma: this.#decimalComma });
    if (read.ok) return { is: "read", value: read.value as string | number };
    const fault = { code: read.code, given: read.given ?? shorten(cell), ...(read.need === undefined ? {} : { need: read.need }) };
    if (read.code !== "date-order" || bound.unit) this.tell(row, column, fault);
    else this.#countUnordered(bound, { file: this.file, row: row.row, column: bound.header, ...fault });
    return { is: "faulty" };
  }

  tell({ row }: Row, column: StayColumn, fault: Omit<Fault, "file" | "row" | "column">): void {
    this.faults.add({ file: this.file, row, column: this.#columns.get(column)?.header ?? column, ...fault });
  }

  /** Of the table as a whole. */
  tellTable(code: FaultCode, need: string): void {
    this.faults.add({ file: this.file, row: 1, code, need });
  }

  /** To be called when all rows are read. */
  tellUnordered(): void {
    for (const { fault, count } of this.#unordered.values()) this.faults.add({ ...fault, count });
  }

  #countUnordered(bound: BoundColumn, fault: Fault): void {
    const known = this.#unordered.get(bound);
    if (known) known.count++;
    else this.#unordered.set(bound, { fault, count: 1 });
  }
}
