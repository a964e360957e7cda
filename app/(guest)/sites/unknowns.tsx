import { catalogueOf } from "@/lib/wording";
import styles from "./sites.module.css";

/** What no record holds, and who decides in the end. */
export function Unknowns() {
  const { guestSites: { unknown } } = catalogueOf();
  return (
    <section className={styles.unknown} aria-labelledby="unknown">
      <h2 id="unknown">{unknown.title}</h2>
      <ul>{unknown.lines.map((line) => <li key={line}>{line}</li>)}</ul>
      <p><b>{unknown.decides}</b></p>
    </section>
  );
}
