import type { KeyboardEvent } from "react";

/** Rows that Page Up and Page Down pass over. */
const PAGE = 10;

/** Where a key leads from (row, column) among so many of each; heads of rows and columns are at -1. Null: the key leads nowhere. */
export function nextCell(key: string, control: boolean, { row, column }: Cell, size: { readonly rows: number; readonly columns: number }): Cell | null {
  const last = { row: size.rows - 1, column: size.columns - 1 };
  switch (key) {
    case "ArrowUp": return within({ row: row - 1, column }, last);
    case "ArrowDown": return within({ row: row + 1, column }, last);
    case "ArrowLeft": return within({ row, column: column - 1 }, last);
    case "ArrowRight": return within({ row, column: column + 1 }, last);
    case "PageUp": return within({ row: Math.max(row < 0 ? -1 : 0, row - PAGE), column }, last);
    case "PageDown": return within({ row: Math.min(last.row, row + PAGE), column }, last);
    case "Home": return within(control ? { row: 0, column: 0 } : { row, column: row < 0 ? 0 : -1 }, last);
    case "End": return within(control ? last : { row, column: last.column }, last);
    default: return null;
  }
}

export interface Cell {
  readonly row: number;
  readonly column: number;
}

/** Heads can be reached, the corner between them (which leads nowhere) cannot. */
function within({ row, column }: Cell, last: Cell): Cell | null {
  const there = row >= -1 && column >= -1 && row <= last.row && column <= last.column && !(row === -1 && column === -1);
  return there ? { row, column } : null;
}

/** Moves the focus within a table whose links say where they stand (`data-at`), and the one tab stop with it. */
export function moveWith(event: KeyboardEvent, region: HTMLElement | null): void {
  const from = (event.target as Element).closest<HTMLElement>("[data-at]");
  const [row, column] = from?.dataset.at?.split(" ").map(Number) ?? [];
  if (!region || !from || row === undefined || column === undefined || event.altKey || event.metaKey || event.shiftKey) return;
  const size = { rows: region.querySelectorAll("tbody tr").length, columns: region.querySelectorAll("thead [data-at]").length };
  const to = nextCell(event.key, event.ctrlKey, { row, column }, size);
  const link = to && region.querySelector<HTMLElement>(`[data-at="${to.row} ${to.column}"]`);
  if (!link) return;
  event.preventDefault();
  from.tabIndex = -1;
  link.tabIndex = 0;
  link.focus();
}
