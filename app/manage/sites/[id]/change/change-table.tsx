import { catalogueOf, type ChangeRow } from "@/lib/wording";
import styles from "./change.module.css";

const { siteChanges: { table: words } } = catalogueOf();

interface ChangeTableProps {
  readonly rows: readonly ChangeRow[];
  /** Whether the two are the present and a proposal, or two records of the past. */
  readonly past?: boolean;
}

/** What differs, a line each: which thing, which of it, what it was and is. On a phone each line is read from top to bottom. */
export function ChangeTable({ rows, past = false }: ChangeTableProps) {
  const [before, after] = past ? [words.was, words.is] : [words.before, words.after];
  return (
    <table className={styles.changes}>
      <caption className="visually-hidden">{words.caption}</caption>
      <thead><tr><th scope="col">{words.what}</th><th scope="col">{before}</th><th scope="col">{after}</th></tr></thead>
      <tbody>
        {rows.map(({ key, thing, field, before: was, after: is, note }) => (
          <tr key={key}>
            <th scope="row"><strong>{thing}</strong>{field && <span>{field}</span>}</th>
            <td data-label={before}>{was}</td>
            <td data-label={after}>{is}{note && <small>{note}</small>}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
