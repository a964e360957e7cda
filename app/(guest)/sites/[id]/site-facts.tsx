import type { Units } from "@/lib/measure";
import type { Site } from "@/lib/park";
import { catalogueOf } from "@/lib/wording";
import { limitsOf } from "../facts";
import type { Loop } from "../loops";
import styles from "./site.module.css";

/** What the park says of the site, whatever the rig. */
export function SiteFacts({ site, units, loops }: { readonly site: Site; readonly units: Units; readonly loops: readonly Loop[] }) {
  const { site: words, loop } = catalogueOf().guestSites;
  const its = loops.find(({ id }) => id === site.loop);
  const facts = [...(its ? [loop(its.id, its.name)] : []), words.entry[site.entry], ...(site.pad.surface ? [words.surface(site.pad.surface)] : []), ...limitsOf(site, units)];
  return (
    <section aria-labelledby="facts">
      <h2 id="facts" className={styles.small}>{words.facts}</h2>
      <ul className={styles.facts}>{facts.map((fact) => <li key={fact}>{fact}</li>)}</ul>
    </section>
  );
}
