"use client";

import {
  columnFilteringFeature, columnVisibilityFeature, createColumnHelper, createFilteredRowModel, createSortedRowModel, globalFilteringFeature, rowSortingFeature, tableFeatures, useTable,
  type ColumnFiltersState,
} from "@tanstack/react-table";
import { useMemo } from "react";
import { siteColumns, type SiteColumn } from "@/lib/wording/en/staff-table";
import { compareValues, holdsWords, type SiteRow } from "./site-rows";
import type { TableState } from "./table-state";

const features = tableFeatures({
  columnFilteringFeature,
  globalFilteringFeature,
  rowSortingFeature,
  columnVisibilityFeature,
  filteredRowModel: createFilteredRowModel(),
  sortedRowModel: createSortedRowModel(),
});

const helper = createColumnHelper<typeof features, SiteRow>();

/** Which fact of a row a column's filter asks for; columns that are not here have none. */
const FACTS: Readonly<Partial<Record<SiteColumn, (row: SiteRow) => string | boolean | null>>> = {
  loop: (row) => row.loop,
  entry: (row) => row.entry,
  power: (row) => row.power50,
  sewer: (row) => row.sewer,
  accessible: (row) => row.accessible,
  pets: (row) => row.pets,
};

const columns = helper.columns(
  siteColumns.map((id) =>
    helper.accessor((row) => row.values[id], {
      id,
      // Rows that are equal keep the park's order: the table falls back to where they came.
      sortFn: (one, other, column) => compareValues(one.getValue<number | string>(column), other.getValue<number | string>(column)),
      sortUndefined: "last",
      filterFn: (row, _column, wanted: unknown) => FACTS[id]?.(row.original) === wanted,
    }),
  ),
);

/** The table's model of the rows that are left, in their order, for a state that the address holds. The page itself draws it. */
export function useSiteTable(rows: readonly SiteRow[], state: TableState) {
  const data = useMemo(() => [...rows], [rows]);
  const held = useMemo(() => ({
    sorting: state.sort ? [{ id: state.sort.column, desc: state.sort.descending }] : [],
    columnFilters: filtersOf(state),
    globalFilter: state.text,
    columnVisibility: Object.fromEntries(siteColumns.map((id) => [id, state.columns.includes(id)])),
  }), [state]);
  return useTable({
    features,
    columns,
    data,
    state: held,
    getRowId: (row) => row.id,
    // The text is looked for in words of its own, once a row.
    getColumnCanGlobalFilter: (column) => column.id === "site",
    globalFilterFn: (row, _column, text: string) => holdsWords(row.original, text),
  });
}

function filtersOf({ loop, entry, power50, sewer, accessible, pets }: TableState): ColumnFiltersState {
  const wanted: Partial<Record<SiteColumn, string | true>> = {
    ...(loop !== null && { loop }), ...(entry !== null && { entry }),
    ...(power50 && { power: true as const }), ...(sewer && { sewer: true as const }), ...(accessible && { accessible: true as const }), ...(pets && { pets: true as const }),
  };
  return Object.entries(wanted).map(([id, value]) => ({ id, value }));
}
