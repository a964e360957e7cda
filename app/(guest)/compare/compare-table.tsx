import Link from "next/link";
import { VerdictMark } from "../../components/verdict/mark";
import { catalogueOf, unbroken } from "@/lib/wording";
import { addressOf, siteAddress, type Standpoint } from "../sites/address";
import type { Entry } from "../sites/filters";
import type { CompareRow } from "./rows";
import styles from "./compare-page.module.css";

interface CompareTableProps {
  readonly rows: readonly CompareRow[];
  readonly entries: readonly Entry[];
  readonly standpoint: Standpoint;
}

/**
 * The rows that differ say so in a word. On a phone a row's name stands above its cells: the roles are written out,
 * as a table laid out otherwise is not read as one everywhere.
 */
export function CompareTable({ rows, entries, standpoint }: CompareTableProps) {
  const { compare: words } = catalogueOf().guestSites;
  return (
    <table className={styles.table} data-columns={entries.length} role="table">
      <caption className="visually-hidden">{words.table}</caption>
      <thead role="rowgroup">
        <tr role="row">
          <th scope="col" role="columnheader" className={styles.corner}><span className="visually-hidden">{words.row}</span></th>
          {entries.map((entry) => <Column key={entry.site.id} entry={entry} standpoint={standpoint} />)}
        </tr>
      </thead>
      <tbody role="rowgroup">
        {rows.map((row) => <Row key={row.name} row={row} entries={entries} />)}
      </tbody>
    </table>
  );
}

function Column({ entry: { site }, standpoint }: { readonly entry: Entry; readonly standpoint: Standpoint }) {
  const { compare: words } = catalogueOf().guestSites;
  const label = site.label ?? site.id;
  const without = { ...standpoint, picked: standpoint.picked.filter((id) => id !== site.id) };
  return (
    <th scope="col" role="columnheader">
      <Link href={siteAddress(site.id, standpoint)} prefetch={false} className={styles.name} aria-label={words.open(label)}>{label}</Link>
      <a href={addressOf("/compare", without)} className={styles.remove} aria-label={words.remove(label)}>{words.removeShort}</a>
    </th>
  );
}

function Row({ row: { name, cells, differs, best }, entries }: { readonly row: CompareRow; readonly entries: readonly Entry[] }) {
  const { compare: words } = catalogueOf().guestSites;
  return (
    <tr role="row" className={differs ? styles.differs : undefined}>
      <th scope="row" role="rowheader">{words.rows[name]}{entries.length > 1 && <span className={styles.word}>{differs ? words.differs : words.same}</span>}</th>
      {cells.map((lines, i) => (
        <td key={entries[i]!.site.id} role="cell">
          {name === "verdict" && <><VerdictMark verdict={entries[i]!.result.verdict} /> </>}
          {lines.map((line, k) => <span key={`${k} ${line}`} className={styles.text}>{inColumn(line)}</span>)}
          {best === i && name in words.best && <span className={styles.best}>{words.best[name as keyof typeof words.best]}</span>}
        </td>
      ))}
    </tr>
  );
}

/** Lengths may break between feet and inches, and nowhere else: three columns on a phone are narrow. */
function inColumn(line: string): string {
  return unbroken(line).replace(/ft\u00a0/g, "ft ");
}
