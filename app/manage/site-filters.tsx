"use client";

import type { ReactNode } from "react";
import { siteColumns, staffTable as words, type SiteColumn } from "@/lib/wording/en/staff-table";
import type { Units } from "@/lib/measure";
import { checks, columnsAmong, entries, isFiltered, noFilters, sortName, usualColumns, type TableState } from "./table-state";
import styles from "./site-filters.module.css";

interface SiteFiltersProps {
  readonly state: TableState;
  readonly loops: readonly { readonly id: string; readonly name: string }[];
  /** Where the address has to name them. */
  readonly units: Units | null;
  readonly hrefOf: (next: TableState) => string;
  readonly onChange: (next: TableState) => void;
}

/** What the table is narrowed by and which columns it has: a plain GET form, which answers at once where script runs. */
export function SiteFilters({ state, loops, units, hrefOf, onChange }: SiteFiltersProps) {
  const set = (change: Partial<TableState>) => onChange({ ...state, ...change });
  return (
    <form id="site-filters" className={styles.form} method="get" action="/manage" role="search" aria-label={words.filters} onSubmit={(event) => event.preventDefault()}>
      {state.sort && <input type="hidden" name="sort" value={sortName(state.sort)} />}
      {units && <input type="hidden" name="units" value={units} />}
      <input type="hidden" name="show" value="site" />
      <div className={styles.row}>
        <Labelled label={words.find} name="q">
          <input id="filter-q" name="q" type="search" value={state.text} maxLength={80} autoComplete="off" onChange={(event) => set({ text: event.target.value })} />
        </Labelled>
        <Labelled label={words.loop} name="loop">
          <select id="filter-loop" name="loop" value={state.loop ?? ""} onChange={(event) => set({ loop: event.target.value || null })}>
            <option value="">{words.anyLoop}</option>
            {loops.map(({ id, name }) => <option key={id} value={id}>{name}</option>)}
          </select>
        </Labelled>
        <Labelled label={words.entry} name="entry">
          <select id="filter-entry" name="entry" value={state.entry ?? ""} onChange={(event) => set({ entry: entries.find((entry) => entry === event.target.value) ?? null })}>
            <option value="">{words.any}</option>
            {entries.map((entry) => <option key={entry} value={entry}>{words.entries[entry]}</option>)}
          </select>
        </Labelled>
        <div className={styles.checks}>
          {checks.map((check) => (
            <label key={check}><input type="checkbox" name={check} value="1" checked={state[check]} onChange={(event) => set({ [check]: event.target.checked })} /> {words[check]}</label>
          ))}
        </div>
      </div>
      <div className={styles.buttons}>
        <ColumnChoice state={state} hrefOf={hrefOf} onChange={onChange} />
        <button type="submit" className={styles.apply}>{words.apply}</button>
        {isFiltered(state) && <a href={hrefOf({ ...state, ...noFilters })} onClick={(event) => { event.preventDefault(); set(noFilters); }}>{words.clear}</a>}
        <button type="button" className={styles.print} onClick={() => window.print()}>{words.print}</button>
      </div>
    </form>
  );
}

function Labelled({ label, name, children }: { readonly label: string; readonly name: string; readonly children: ReactNode }) {
  return <div className={styles.field}><label htmlFor={`filter-${name}`}>{label}</label>{children}</div>;
}

function ColumnChoice({ state, hrefOf, onChange }: Pick<SiteFiltersProps, "state" | "hrefOf" | "onChange">) {
  const toggle = (column: SiteColumn, on: boolean) => onChange({ ...state, columns: columnsAmong(on ? [...state.columns, column] : state.columns.filter((c) => c !== column)) });
  const whole = (columns: readonly SiteColumn[], label: string) => (
    <a href={hrefOf({ ...state, columns })} onClick={(event) => { event.preventDefault(); onChange({ ...state, columns }); }}>{label}</a>
  );
  return (
    <details className={styles.columns}>
      <summary>{words.chooseColumns(state.columns.length, siteColumns.length)}</summary>
      <div role="group" aria-label={words.chooseColumns(state.columns.length, siteColumns.length)} className={styles.choices}>
        {siteColumns.filter((column) => column !== "site").map((column) => (
          <label key={column}><input type="checkbox" name="show" value={column} checked={state.columns.includes(column)} onChange={(event) => toggle(column, event.target.checked)} /> {words.columns[column]}</label>
        ))}
      </div>
      <p className={styles.whole}>{words.columnsHelp} {whole(usualColumns, words.standardColumns)} {whole(siteColumns, words.allColumns)}</p>
    </details>
  );
}
