import type { Units } from "@/lib/measure";
import { compareSites } from "@/lib/park";
import type { Revision } from "@/lib/store/site-changes";
import { catalogueOf, changeRows, type ChangeRow } from "@/lib/wording";
import { readSite } from "../change/context";
import styles from "../change/change.module.css";

const { siteChanges: { history: words, causes }, accounts } = catalogueOf();

interface SavingProps {
  readonly revision: Revision;
  /** The one before it; null for the first. */
  readonly before: Revision | null;
  readonly units: Units;
  readonly zone: string;
}

/** So many changes are read at a glance; the rest is seen where two revisions are compared. */
const mostRows = 6;

/** One revision in words: who, when, why, and what changed. */
export function Saving({ revision, before, units, zone }: SavingProps) {
  const { number, at, by, who, cause, why } = revision;
  return (
    <div>
      <h3>{words.number(number)}</h3>
      <p>{words.line(causes[cause], cause === "load" ? null : words.by(who, by), accounts.moment(new Date(at), zone))}.</p>
      {why && cause !== "load" && <p className={styles.reason}>{why}</p>}
      <What revision={revision} before={before} units={units} />
    </div>
  );
}

function What({ revision, before, units }: Pick<SavingProps, "revision" | "before" | "units">) {
  if (!before) return <p>{words.first}</p>;
  if (!revision.record) return <p>{words.taken}</p>;
  const [was, is] = [before.record ? readSite(before.record) : null, readSite(revision.record)];
  if (!before.record) return <p>{words.back}</p>;
  if (!is) return <p>{words.unreadable}</p>;
  const rows = changeRows(compareSites(before.record, revision.record), was, is, units);
  if (rows.length === 0) return <p>{words.nothing}</p>;
  return <ul>{rows.slice(0, mostRows).map((row) => <li key={row.key}><Row row={row} /></li>)}{rows.length > mostRows && <li>{words.more(rows.length - mostRows)}</li>}</ul>;
}

function Row({ row: { thing, field, before, after, note } }: { readonly row: ChangeRow }) {
  return <><strong>{thing}</strong>{field && `, ${field.charAt(0).toLowerCase()}${field.slice(1)}`}: {before.replace(/\.$/, "")} <span aria-hidden="true">→</span><span className="visually-hidden">{catalogueOf().siteChanges.history.now}</span> {after.replace(/\.$/, "")}.{note && ` ${note}`}</>;
}
