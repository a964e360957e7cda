import type { ChangeLine } from "./policy-words";
import styles from "./settings.module.css";

/** What differs, a row each: what it is, how it is, how it would be. */
export function ChangeTable({ lines, caption, columns }: { readonly lines: readonly ChangeLine[]; readonly caption: string; readonly columns: { readonly setting: string; readonly now: string; readonly then: string } }) {
  return (
    <table className={styles.changes}>
      <caption className="visually-hidden">{caption}</caption>
      <thead><tr><th scope="col">{columns.setting}</th><th scope="col">{columns.now}</th><th scope="col">{columns.then}</th></tr></thead>
      <tbody>
        {lines.map(({ name, from, to }) => <tr key={name}><th scope="row">{name}</th><td data-label={columns.now}>{from}</td><td data-label={columns.then}><strong>{to}</strong></td></tr>)}
      </tbody>
    </table>
  );
}
