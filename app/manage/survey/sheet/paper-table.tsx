import type { ReactNode } from "react";
import styles from "./sheet.module.css";

export interface Column {
  readonly id: string;
  readonly name: string;
  /** How wide it is beside the others. */
  readonly width: "word" | "number" | "tick" | "some";
}

export interface Row {
  readonly id: string;
  readonly name: ReactNode;
  /** What is printed in a cell; null for a cell that nothing belongs in. Else it is left for the pencil. */
  readonly cells?: Readonly<Record<string, ReactNode | null>>;
}

/** A table to be filled in with a pencil: the first column names what is measured. */
export function PaperTable({ caption, columns, rows }: { readonly caption: string; readonly columns: readonly Column[]; readonly rows: readonly Row[] }) {
  const [first, ...rest] = columns;
  return (
    <table className={styles.table}>
      <caption className="visually-hidden">{caption}</caption>
      <thead><tr>{columns.map(({ id, name, width }) => <th key={id} scope="col" data-width={width}>{name}</th>)}</tr></thead>
      <tbody>
        {rows.map(({ id, name, cells }) => (
          <tr key={id}>
            <th scope="row" data-width={first?.width}>{name}</th>
            {rest.map((column) => <td key={column.id} data-none={cells?.[column.id] === null ? "" : undefined}>{cells?.[column.id]}</td>)}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
