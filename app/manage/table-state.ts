import { siteColumns, type SiteColumn } from "@/lib/wording/en/staff-table";
import type { Params } from "../components/rig-form/params";

/** What the address says of the table of sites: which rows, in which order, with which columns. */
export interface TableState {
  /** Words that the site's label or its loop has to hold. */
  readonly text: string;
  readonly loop: string | null;
  readonly entry: Entry | null;
  readonly power50: boolean;
  readonly sewer: boolean;
  readonly accessible: boolean;
  readonly pets: boolean;
  /** Null: the park's own order. */
  readonly sort: { readonly column: SiteColumn; readonly descending: boolean } | null;
  /** In the order of the table; the site itself always among them. */
  readonly columns: readonly SiteColumn[];
}

export type Entry = "back-in" | "pull-through";
export const entries: readonly Entry[] = ["back-in", "pull-through"];
export const checks = ["power50", "sewer", "accessible", "pets"] as const;
export type Check = (typeof checks)[number];

export const usualColumns: readonly SiteColumn[] = ["site", "loop", "entry", "pad-length", "pad-width", "slope-along", "slope-across", "power", "water", "sewer", "max-length", "pets", "measured"];
export const noFilters = { text: "", loop: null, entry: null, power50: false, sewer: false, accessible: false, pets: false } as const satisfies Partial<TableState>;

/** Names of the address, whose length a person can read; longer texts are cut. */
const LONGEST_TEXT = 80;

/** Reads an address; what it cannot read counts as not said. */
export function readTableState(params: Params): TableState {
  const first = (name: string) => [params[name]].flat()[0]?.slice(0, LONGEST_TEXT) ?? "";
  const sort = /^(-?)(.+)$/.exec([params.sort].flat().at(-1) ?? "");
  const column = siteColumns.find((id) => id === sort?.[2]);
  return {
    text: first("q").trim(),
    loop: first("loop") || null,
    entry: entries.find((entry) => entry === first("entry")) ?? null,
    power50: first("power50") === "1",
    sewer: first("sewer") === "1",
    accessible: first("accessible") === "1",
    pets: first("pets") === "1",
    sort: column ? { column, descending: sort?.[1] === "-" } : null,
    columns: readColumns([params.show].flat().flatMap((names) => names?.split(",") ?? [])),
  };
}

/** The shortest address that means the same, without its question mark; empty for the table as it comes. */
export function writeTableState(state: TableState): string {
  const query = new URLSearchParams();
  if (state.text) query.set("q", state.text);
  if (state.loop) query.set("loop", state.loop);
  if (state.entry) query.set("entry", state.entry);
  for (const check of checks) if (state[check]) query.set(check, "1");
  if (state.sort) query.set("sort", sortName(state.sort));
  if (state.columns.join() !== usualColumns.join()) query.set("show", state.columns.join(","));
  return query.toString().replaceAll("%2C", ",");
}

export function sortName({ column, descending }: NonNullable<TableState["sort"]>): string {
  return `${descending ? "-" : ""}${column}`;
}

/** What a press on a column's heading asks for: least first, and from there back and forth. */
export function nextSort(state: TableState, column: SiteColumn): NonNullable<TableState["sort"]> {
  return { column, descending: state.sort?.column === column && !state.sort.descending };
}

export function isFiltered(state: TableState): boolean {
  return state.text !== "" || state.loop !== null || state.entry !== null || checks.some((check) => state[check]);
}

/** The chosen columns in the order of the table. */
export function columnsAmong(chosen: readonly string[]): SiteColumn[] {
  return siteColumns.filter((id) => id === "site" || chosen.includes(id));
}

function readColumns(named: readonly string[]): readonly SiteColumn[] {
  return named.some((name) => (siteColumns as readonly string[]).includes(name)) ? columnsAmong(named) : usualColumns;
}
