"use client";

import { useSearchParams } from "next/navigation";
import { memo, useDeferredValue, useState } from "react";
import type { Units } from "@/lib/measure";
import { staffTable as words, type SiteColumn } from "@/lib/wording/en/staff-table";
import { UnitsLinks } from "../components/staff-nav/units-links";
import { SiteFilters } from "./site-filters";
import type { SiteRow } from "./site-rows";
import { checks, isFiltered, nextSort, noFilters, readTableState, sortName, writeTableState, type TableState } from "./table-state";
import { useAddress } from "./use-address";
import { useSiteTable } from "./use-site-table";
import styles from "./site-table.module.css";

interface SiteTableProps {
  readonly rows: readonly SiteRow[];
  readonly loops: readonly { readonly id: string; readonly name: string }[];
  readonly units: Units;
  readonly unitNames: Readonly<Record<Units, string>> & { readonly label: string };
  /** Whether the address has to name the units, being others than the park's. */
  readonly namesUnits: boolean;
}

/**
 * The inventory: sorted, filtered and shown as the address says, on the server as in the browser. Without script every
 * control is part of one GET form.
 */
export function SiteTable({ rows, loops, units, unitNames, namesUnits }: SiteTableProps) {
  // From the address itself: coming back by the browser's history may show the page as it was first made.
  const query = useSearchParams();
  const [state, setState] = useState(() => readTableState(Object.fromEntries([...query.keys()].map((name) => [name, query.getAll(name)]))));
  // Typing goes on while a long table is still being drawn.
  const drawn = useDeferredValue(state);
  const table = useSiteTable(rows, drawn);
  const suffix = namesUnits ? `units=${units}` : "";
  const address = (path: string, asks: string) => [path, [asks, suffix].filter(Boolean).join("&")].filter(Boolean).join("?");
  const hrefOf = (next: TableState) => address("/manage", writeTableState(next));
  useAddress(hrefOf(state), state.text);
  const shown = table.getRowModel().rows;
  return (
    <>
      <SiteFilters state={state} loops={loops} units={namesUnits ? units : null} hrefOf={hrefOf} onChange={setState} />
      <div className={styles.over}>
        <p className={styles.left} role="status">
          {words.left(shown.length, rows.length)} {drawn.sort ? words.sorted(drawn.sort.column, drawn.sort.descending) : words.unsorted} <Due rows={shown.map((row) => row.original)} />
        </p>
        <UnitsLinks units={units} names={unitNames} hrefOf={(system) => `/manage?${[writeTableState(state), `units=${system}`].filter(Boolean).join("&")}`} />
      </div>
      {isFiltered(drawn) && <p className={styles.printedFilters}>{words.printedFilters(filtersInWords(drawn, loops))}</p>}
      {shown.length === 0 ? (
        <Nothing href={hrefOf({ ...state, ...noFilters })} onClear={() => setState({ ...state, ...noFilters })} />
      ) : (
        <div className={styles.region} role="region" aria-label={words.region} tabIndex={0} data-busy={drawn !== state || undefined}>
          <table className={styles.table}>
            <caption className="visually-hidden">{words.caption}</caption>
            <Head columns={drawn.columns} state={state} onSort={setState} />
            <tbody>
              {shown.map(({ id, original }) => (
                <tr key={id}>
                  <th scope="row"><a href={address(`/manage/sites/${encodeURIComponent(id)}`, writeTableState(drawn))}>{original.label}</a></th>
                  <Cells row={original} columns={drawn.columns} />
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </>
  );
}

/** On paper the form is not there to say what was left out. */
function filtersInWords({ text, loop, entry, ...state }: TableState, loops: SiteTableProps["loops"]): string[] {
  return [
    ...(text ? [words.quoted(text)] : []),
    ...(loop === null ? [] : [words.inLoop(loops.find(({ id }) => id === loop)?.name ?? loop)]),
    ...(entry === null ? [] : [words.entries[entry]]),
    ...checks.filter((check) => state[check]).map((check) => words[check]),
  ];
}

function Due({ rows }: { readonly rows: readonly SiteRow[] }) {
  const due = rows.filter((row) => row.due).length;
  return due > 0 && <>{words.due(due)}</>;
}

/** Each heading is a button of the filter form, so that it sorts without script too. */
function Head({ columns, state, onSort }: { readonly columns: readonly SiteColumn[]; readonly state: TableState; readonly onSort: (next: TableState) => void }) {
  return (
    <thead>
      <tr>
        {columns.map((column) => {
          const sorted = state.sort?.column === column ? (state.sort.descending ? "descending" : "ascending") : undefined;
          const next = nextSort(state, column);
          return (
            <th key={column} scope="col" aria-sort={sorted} data-column={column}>
              <button
                type="submit" form="site-filters" name="sort" value={sortName(next)} title={words.sortBy(column, next.descending)}
                onClick={(event) => { event.preventDefault(); onSort({ ...state, sort: next }); }}
              >
                {words.columns[column]} <SortMark sorted={sorted} />
              </button>
            </th>
          );
        })}
      </tr>
    </thead>
  );
}

function SortMark({ sorted }: { readonly sorted: "ascending" | "descending" | undefined }) {
  return (
    <svg className={styles.sortMark} viewBox="0 0 10 14" aria-hidden="true" focusable="false">
      <path data-on={sorted === "ascending" || undefined} d="M5 0l4.5 5.5h-9z" />
      <path data-on={sorted === "descending" || undefined} d="M5 14l4.5-5.5h-9z" />
    </svg>
  );
}

/** A row's texts do not change when rows change places: only the moved row elements are touched. */
const Cells = memo(function Cells({ row, columns }: { readonly row: SiteRow; readonly columns: readonly SiteColumn[] }) {
  return columns.filter((column) => column !== "site").map((column) => (
    <td key={column} data-column={column}>
      {row.texts[column]}
      {column === "measured" && row.due && <strong className={styles.due}>{words.measureAgain}</strong>}
    </td>
  ));
});

function Nothing({ href, onClear }: { readonly href: string; readonly onClear: () => void }) {
  return (
    <div className={styles.nothing}>
      <p>{words.nothing}</p>
      <a className={styles.clear} href={href} onClick={(event) => { event.preventDefault(); onClear(); }}>{words.clear}</a>
    </div>
  );
}
