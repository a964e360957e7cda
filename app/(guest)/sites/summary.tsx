import type { Asked } from "../context";
import { catalogueOf } from "@/lib/wording";
import type { Entry } from "./filters";
import { TypicalNumbers } from "./typical-numbers";
import styles from "./sites.module.css";

interface SummaryProps {
  readonly entries: readonly Entry[];
  readonly asked: Asked;
  /** What is said in place of how many sites fit: how many are free, where nights were asked about. */
  readonly found: string | null;
}

/** How the answer came out, in one sentence, and right below it what it rests on. */
export function Summary({ entries, asked, found }: SummaryProps) {
  const { guestSites: words } = catalogueOf();
  const count = (verdict: string) => entries.filter(({ result }) => result.verdict === verdict).length;
  return (
    <section className={styles.summary}>
      <p className={styles.found} role="status">{found ?? words.found(count("fits"), count("gear"), count("ask"), entries.length)}</p>
      <BelowSummary asked={asked} />
    </section>
  );
}

/** What the answer rests on, and what would make it firmer. */
function BelowSummary({ asked }: { readonly asked: Asked }) {
  return asked.form && <TypicalNumbers form={asked.form} />;
}
