import { catalogueOf, unbroken } from "@/lib/wording";
import { factOf, setUpFacts, type FactContext } from "../facts";
import type { Entry } from "../filters";
import styles from "./site.module.css";

/** What setting up takes here, as a short list to go by: runs, leveling, what stays in, where the second vehicle goes. */
export function SetUp({ entry, context }: { readonly entry: Entry; readonly context: FactContext }) {
  const { site: words, compare } = catalogueOf().guestSites;
  return (
    <section aria-labelledby="set-up">
      <h3 id="set-up">{words.setUp}</h3>
      <dl className={styles.setUp}>
        {setUpFacts.map((name) => (
          <div key={name}><dt>{compare.rows[name]}</dt><dd>{factOf(name, entry, context).map((line) => <span key={line}>{unbroken(line)}</span>)}</dd></div>
        ))}
      </dl>
    </section>
  );
}
