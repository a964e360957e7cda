import type { IsoDate } from "@/lib/stays";
import type { BoardClosure } from "@/lib/store/stays-board";
import { catalogueOf } from "@/lib/wording";
import { liftFromForm } from "./actions";
import { ClosureForm } from "./closure-form";
import styles from "./nights.module.css";

const { nights: words, stays: stayWords } = catalogueOf();

interface ClosuresProps {
  readonly closures: readonly BoardClosure[];
  readonly labels: ReadonlyMap<string, string>;
  readonly today: IsoDate;
}

/** Sites that nobody can have for a while: which, until when, why; and how to close one or open it again. */
export function Closures({ closures, labels, today }: ClosuresProps) {
  return (
    <section className={styles.closures} aria-labelledby="closures">
      <h2 id="closures">{words.closures}</h2>
      <ul>
        {closures.map(({ id, site, nights, reason }) => (
          <li key={id}>
            <form action={liftFromForm}>
              <input type="hidden" name="closure" value={id} />
              <strong>{labels.get(site) ?? site}</strong> {stayWords.span(nights)}: {reason} <button type="submit">{words.lift}<span className={styles.hidden}> {labels.get(site) ?? site}</span></button>
            </form>
          </li>
        ))}
      </ul>
      <details>
        <summary>{words.closure}</summary>
        <ClosureForm sites={[...labels].map(([id, label]) => ({ id, label }))} today={today} />
      </details>
    </section>
  );
}
