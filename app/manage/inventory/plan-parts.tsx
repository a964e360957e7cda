import type { FileRead, ImportPlan, RecordPlan, StayAdded, StayChanged } from "@/lib/exchange";
import { inventory as words } from "@/lib/wording/en/inventory";
import type { Numbers } from "@/lib/wording";
import styles from "./inventory.module.css";

const { preview, stayWords } = words;

/** So many records of a kind are listed, and so many changes of one: more is counted. */
const most = { records: 100, changes: 12 } as const;

/** What each file was taken for, with the units of its headers and what was passed over. */
export function FilesRead({ files }: { readonly files: readonly FileRead[] }) {
  if (files.length === 0) return null;
  return (
    <section aria-labelledby="read">
      <h2 id="read">{preview.read}</h2>
      <dl className={styles.read}>
        {files.map(({ file, what, rows, columns, passed, foreign }) => {
          const units = [...new Set(columns.flatMap(({ unit }) => unit ?? []))], counted = what === "map" ? preview.features(rows) : what?.startsWith("json") ? preview.records(rows) : preview.rows(rows);
          return (
            <div key={file}>
              <dt>{file}</dt>
              <dd>{words.what(what)}, {counted}. {units.length > 0 && preview.units(units)}{passed.length > 0 && <p>{preview.passed(passed)}</p>}{foreign > 0 && <p>{preview.foreign(foreign)}</p>}</dd>
            </div>
          );
        })}
      </dl>
    </section>
  );
}

/** What is added, changed and taken out: how many, then which, then what of each. */
export function RecordChanges({ plan, numbers }: { readonly plan: ImportPlan; readonly numbers: Numbers }) {
  return (
    <>
      <ul className={styles.tally}>{[preview.sites(plan), preview.rigs(plan), preview.stayPlans(plan), plan.park ? preview.park(plan.park.fields) : null].filter((line) => line !== null).map((line) => <li key={line}>{line}</li>)}</ul>
      {(["added", "changed", "removed"] as const).map((what) => <Group key={what} what={what} records={[...plan.sites, ...plan.rigs].filter((one) => one.what === what)} numbers={numbers} />)}
      <StaysAdded stays={plan.stays.filter((one) => one.what === "added")} />
      <StaysChanged stays={plan.stays.filter((one) => one.what === "changed")} />
    </>
  );
}

function StaysAdded({ stays }: { readonly stays: readonly StayAdded[] }) {
  if (stays.length === 0) return null;
  return (
    <details className={styles.group} open={stays.length <= 20 || undefined}>
      <summary>{stayWords.addedTitle} ({stays.length.toLocaleString("en-US")})</summary>
      <ul className={styles.stays}>{stays.slice(0, most.records).map((stay) => <li key={stay.row}>{stayWords.added(stay)}</li>)}</ul>
      {stays.length > most.records && <p>{preview.moreRecords(stays.length - most.records)}</p>}
    </details>
  );
}

function StaysChanged({ stays }: { readonly stays: readonly StayChanged[] }) {
  if (stays.length === 0) return null;
  return (
    <details className={styles.group} open={stays.length <= 20 || undefined}>
      <summary>{stayWords.changedTitle} ({stays.length.toLocaleString("en-US")})</summary>
      <dl className={styles.changed}>
        {stays.slice(0, most.records).map((stay) => <div key={stay.id}><dt>{stayWords.changed(stay)}</dt>{stay.changes.map((change) => <dd key={change.column}>{stayWords.change(change)}</dd>)}{stay.leavesChosen && <dd>{stayWords.leavesChosen}</dd>}</div>)}
      </dl>
      {stays.length > most.records && <p>{preview.moreRecords(stays.length - most.records)}</p>}
    </details>
  );
}

function Group({ what, records, numbers }: { readonly what: RecordPlan["what"]; readonly records: readonly RecordPlan[]; readonly numbers: Numbers }) {
  if (records.length === 0) return null;
  const rest = records.length > most.records && <p>{preview.moreRecords(records.length - most.records)}</p>, shown = records.slice(0, most.records);
  return (
    <details className={styles.group} open={records.length <= 20 || undefined}>
      <summary>{preview.whats[what]} ({records.length.toLocaleString("en-US")})</summary>
      {what === "changed" ? (
        <dl className={styles.changed}>
          {shown.map(({ id, label, changes }) => (
            <div key={id}>
              <dt>{label}</dt>
              {changes.slice(0, most.changes).map((change, i) => <dd key={i}>{preview.change(change, numbers)}</dd>)}
              {changes.length > most.changes && <dd>{preview.moreChanges(changes.length - most.changes)}</dd>}
            </div>
          ))}
        </dl>
      ) : <ul className={styles.names}>{shown.map(({ id, label }) => <li key={id}>{label}</li>)}</ul>}
      {rest}
    </details>
  );
}
