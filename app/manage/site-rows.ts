import type { SiteColumn } from "@/lib/wording/en/staff-table";
import { checks, type TableState } from "./table-state";

/** One site as the table shows it: texts to read, values to sort by, facts to filter by. Plain data, since it goes to the browser. */
export interface SiteRow {
  readonly id: string;
  readonly label: string;
  /** What the free text is looked for in, in small letters. */
  readonly words: string;
  readonly loop: string | null;
  readonly entry: "back-in" | "pull-through";
  readonly power50: boolean;
  readonly sewer: boolean;
  readonly accessible: boolean;
  readonly pets: boolean;
  /** Never measured, or too long ago. */
  readonly due: boolean;
  readonly texts: Readonly<Record<SiteColumn, string>>;
  /** Left out where there is nothing to compare: such rows come last, either way round. */
  readonly values: Readonly<Partial<Record<SiteColumn, number | string>>>;
}

/** Whether a site is among those the filters leave. */
export function isLeft(row: SiteRow, state: TableState): boolean {
  return (
    (state.loop === null || row.loop === state.loop) &&
    (state.entry === null || row.entry === state.entry) &&
    checks.every((check) => !state[check] || row[check]) &&
    holdsWords(row, state.text)
  );
}

/** Every word of the text is in the row's words, wherever. */
export function holdsWords(row: SiteRow, text: string): boolean {
  return text.toLowerCase().split(/\s+/).every((word) => row.words.includes(word));
}

/** Numbers by size, texts as a person counts: A-2 before A-10. */
const collator = new Intl.Collator("en", { numeric: true });

export function compareValues(a: number | string, b: number | string): number {
  return typeof a === "number" && typeof b === "number" ? a - b : collator.compare(String(a), String(b));
}

/** The rows that are left, in the order asked for; equal ones stay in the park's order. The same as the table in the browser makes. */
export function arrange(rows: readonly SiteRow[], state: TableState): SiteRow[] {
  const left = rows.filter((row) => isLeft(row, state));
  const { sort } = state;
  if (!sort) return left;
  const sign = sort.descending ? -1 : 1;
  return left.sort((one, other) => {
    const a = one.values[sort.column], b = other.values[sort.column];
    if (a === undefined || b === undefined) return Number(a === undefined) - Number(b === undefined);
    return sign * compareValues(a, b);
  });
}

/** The loops that occur, as a person counts. */
export function loopsOf(rows: readonly SiteRow[]): string[] {
  return [...new Set(rows.flatMap(({ loop }) => (loop === null ? [] : [loop])))].sort(compareValues);
}
