import { catalogueOf } from "@/lib/wording";
import styles from "./cautions.module.css";

/** What a verdict does not decide. Stands on every page that shows one. */
export function Cautions() {
  const { cautions, pages } = catalogueOf();
  return (
    <aside className={styles.cautions} aria-labelledby="cautions">
      <h2 id="cautions">{pages.cautions}</h2>
      <ul>{cautions.map((line) => <li key={line}>{line}</li>)}</ul>
    </aside>
  );
}
