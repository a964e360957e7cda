import type { Units } from "@/lib/measure/parse";
import type { SettingsChange } from "@/lib/store/park-settings";
import { catalogueOf } from "@/lib/wording";
import { policyChanges, type ChangeLine } from "./policy-words";
import { stayChanges } from "./stay-words";
import styles from "./settings.module.css";

const { settings: { history: words }, accounts } = catalogueOf();

interface ChangesProps {
  readonly entries: readonly SettingsChange[];
  readonly units: Units;
  readonly zone: string;
  readonly currency: string;
}

/** Savings of the settings in words, in the order they come in: who, when, what from and to, and why. */
export function Changes({ entries, units, zone, currency }: ChangesProps) {
  return (
    <ol className={styles.log}>
      {entries.map((entry) => {
        const lines = changeLines(entry, units, currency);
        return (
          <li key={entry.at}>
            <p className={styles.who}>{words.line(entry.who, accounts.moment(new Date(entry.at), zone))}</p>
            {lines.length === 0 ? <p>{words.nothing}</p> : (
              <ul>{lines.map(({ name, from, to }, i) => <li key={i}><strong>{name}</strong>: <span className="visually-hidden">{words.inWords(from, to)}</span><span aria-hidden="true">{words.from(from, to)}</span></li>)}</ul>
            )}
            {entry.reason && <p className={styles.why}>{words.reason(entry.reason)}</p>}
          </li>
        );
      })}
    </ol>
  );
}

/** All that one saving changed. */
export function changeLines({ before, after }: SettingsChange, units: Units, currency: string): ChangeLine[] {
  return [...policyChanges(before.policy, after.policy, units), ...stayChanges(before.stays, after.stays, units, currency)];
}
