import type { SettingsChange } from "@/lib/store/park-settings";
import { catalogueOf } from "@/lib/wording";
import { Changes } from "./history";
import type { Units } from "@/lib/measure/parse";
import styles from "./settings.module.css";

const { settings: { stale: words } } = catalogueOf();

interface StaleProps {
  /** What others saved since the form was opened, latest first. */
  readonly theirs: readonly SettingsChange[];
  /** Names of what both changed. */
  readonly both: readonly string[];
  readonly units: Units;
  readonly zone: string;
  readonly currency: string;
}

/** Nothing was saved: somebody else came first. Says what they changed, and that what was typed is kept. */
export function StaleNotice({ theirs, both, units, zone, currency }: StaleProps) {
  return (
    <section className={styles.stale} role="alert" aria-labelledby="stale">
      <h2 id="stale">{words.title}</h2>
      <p>{words.line}</p>
      <Changes entries={theirs} units={units} zone={zone} currency={currency} />
      {both.length > 0 && <p><strong>{words.both(both)}</strong></p>}
      <p>{words.keep}</p>
    </section>
  );
}
