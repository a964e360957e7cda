"use client";

import Link from "next/link";
import { useMemo, useRef, useState, useSyncExternalStore, type FocusEvent, type MouseEvent } from "react";
import type { Verdict } from "@/lib/fit/types";
import { VerdictMark } from "../../components/verdict/mark";
import { moveWith } from "./grid-keys";
import styles from "./grid.module.css";

/** Verdict, whether it is a tight fit, and which of the texts says why. */
export type GridCell = readonly [verdict: Verdict, tight: boolean, text: number];

interface Total {
  readonly taken: number;
  readonly ofAll: string;
  readonly totalInFull: string;
}

export interface GridColumn extends Total {
  readonly name: string;
  readonly query: string;
  readonly href: string;
}

export interface GridRow extends Total {
  readonly id: string;
  readonly label: string;
  readonly cells: readonly GridCell[];
}

export interface GridProps {
  /** Another one for another table: where the keyboard stands belongs to one table. */
  readonly gridKey: string;
  readonly columns: readonly GridColumn[];
  readonly rows: readonly GridRow[];
  readonly texts: readonly string[];
  readonly units: string;
  readonly words: {
    readonly caption: string;
    readonly site: string;
    readonly takes: string;
    readonly hint: string;
    readonly region: string;
    readonly help: string;
    readonly verdicts: Readonly<Record<Verdict, string>>;
    readonly tight: string;
  };
}

/**
 * The matrix as a table. Without script it is a plain one whose cells are links. With script it becomes a grid: one stop for the
 * tab key, arrow keys from cell to cell, and a line that says why the cell is as it is. Screen readers have that sentence in
 * the cell itself.
 */
export function FitsGrid(props: GridProps) {
  return <Grid key={props.gridKey} {...props} />;
}

function Grid({ columns, rows, texts, units, words }: GridProps) {
  const region = useRef<HTMLDivElement>(null);
  const [at, setAt] = useState<{ row: number; column: number } | null>(null);
  const live = useSyncExternalStore(noChange, () => true, () => false);
  const table = useMemo(() => <Table columns={columns} rows={rows} texts={texts} units={units} words={words} live={live} />, [columns, rows, texts, units, words, live]);
  const read = (event: MouseEvent | FocusEvent) => {
    const cell = (event.target as Element).closest<HTMLElement>("[data-at]")?.dataset.at?.split(" ").map(Number);
    if (cell && cell[0]! >= 0 && cell[1]! >= 0) setAt({ row: cell[0]!, column: cell[1]! });
  };
  const row = at && rows[at.row], column = at && columns[at.column], cell = at && row?.cells[at.column];
  return (
    <div className={styles.frame}>
      {live && <p className="visually-hidden" id="grid-help">{words.help}</p>}
      <div ref={region} className={styles.region} role="region" aria-label={words.region} onMouseOver={read} onFocus={read} onKeyDown={(event) => moveWith(event, region.current)}>
        {table}
      </div>
      {live && (
        <p className={styles.reading} aria-hidden="true">
          {row && column && cell ? <><VerdictMark verdict={cell[0]} /> <span><b>{row.label}</b> · {column.name}: {texts[cell[2]]}</span></> : words.hint}
        </p>
      )}
    </div>
  );
}

function Table({ columns, rows, texts, units, words, live }: Omit<GridProps, "gridKey"> & { readonly live: boolean }) {
  // The first corner of the table is where the tab key enters it; from there the arrow keys lead.
  const stop = (row: number, column: number) => (live ? (row === 0 && column === 0 ? 0 : -1) : undefined);
  return (
    <table className={styles.table} role={live ? "grid" : undefined} aria-describedby={live ? "grid-help" : undefined}>
      <caption className="visually-hidden">{words.caption}</caption>
      <thead>
        <tr>
          <th scope="col" className={styles.corner}>{words.site}</th>
          <th scope="col" className={styles.takes}>{words.takes}</th>
          {columns.map(({ name, href, taken, ofAll, totalInFull }, c) => (
            <th key={name} scope="col" className={styles.rig}>
              <Link href={href} prefetch={false} tabIndex={stop(-1, c)} data-at={`-1 ${c}`}><span>{name}</span></Link>
              <span className={styles.total} aria-hidden="true"><b>{taken}</b> {ofAll}</span><span className="visually-hidden"> {totalInFull}</span>
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map(({ id, label, taken, ofAll, totalInFull, cells }, r) => (
          <tr key={id}>
            <th scope="row" className={styles.site}><Link href={`/manage/sites/${encodeURIComponent(id)}?units=${units}`} prefetch={false} tabIndex={stop(r, -1)} data-at={`${r} -1`}>{label}</Link></th>
            <td className={styles.takes}><span aria-hidden="true">{taken} {ofAll}</span><span className="visually-hidden">{totalInFull}</span></td>
            {cells.map(([verdict, tight, text], c) => (
              <td key={columns[c]!.name} className={styles.cell} data-verdict={verdict}>
                <Link href={`/sites/${encodeURIComponent(id)}?${columns[c]!.query}&units=${units}`} prefetch={false} tabIndex={stop(r, c)} data-at={`${r} ${c}`}>
                  <VerdictMark verdict={verdict} />
                  <span className={styles.word}>{tight ? words.tight : words.verdicts[verdict]}</span>
                  <span className="visually-hidden">: {texts[text]}</span>
                </Link>
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function noChange(): () => void {
  return () => undefined;
}
