import type { Verdict } from "@/lib/fit";
import { kindsTallied, tallyOf, tallySites, type FitMatrix } from "@/lib/insight";
import { catalogueOf } from "@/lib/wording";
import { VerdictMark } from "../../components/verdict/mark";
import styles from "./fits.module.css";

/** Things that refuse fewer pairs than the first so many are left to the table. */
const MOST = 8;

/** The whole matrix counted: how many pairs work, and what stands in the way of the others. */
export function Summary({ matrix }: { readonly matrix: FitMatrix }) {
  const { insight: words } = catalogueOf();
  const sum = (verdict: Verdict) => tallySites(matrix).reduce((n, { verdicts }) => n + verdicts[verdict], 0);
  const pairs = matrix.sites.length * matrix.rigs.length;
  return <p className={styles.summary} role="status">{words.summary(sum("fits") + sum("gear"), sum("gear"), pairs)}</p>;
}

export function MostInTheWay({ matrix }: { readonly matrix: FitMatrix }) {
  const { insight: words } = catalogueOf();
  const shares = tallyOf(kindsTallied(matrix).flat()).turnedAwayBy.slice(0, MOST);
  if (shares.length === 0) return null;
  return (
    <section className={styles.most} aria-labelledby="most">
      <h2 id="most">{words.most}</h2>
      <p className={styles.help}>{words.mostHelp}</p>
      <table className={styles.counts}>
        <thead><tr><th scope="col">{words.mostColumns.what}</th><th scope="col">{words.mostColumns.count}</th><th scope="col">{words.mostColumns.alone}</th></tr></thead>
        <tbody>
          {shares.map(({ by, count, alone }) => <tr key={by}><th scope="row">{capital(words.hindrance(by, null))}</th><td>{count}</td><td>{alone}</td></tr>)}
        </tbody>
      </table>
    </section>
  );
}

/** The three usual marks, and the others where they occur. */
export function Legend({ matrix }: { readonly matrix: FitMatrix }) {
  const { insight: words } = catalogueOf();
  const occurs = new Set(matrix.cells.flatMap((row) => row.map(({ verdict }) => verdict)));
  const shown = (["fits", "gear", "no", "ask", "unsettled"] as const).filter((verdict, i) => i < 3 || occurs.has(verdict));
  return (
    <section className={styles.legend} aria-labelledby="legend">
      <h2 id="legend" className={styles.small}>{words.legendTitle}</h2>
      <ul>{shown.map((verdict) => <li key={verdict}><VerdictMark verdict={verdict} /> <b>{words.words[verdict]}</b> {words.legend[verdict]}</li>)}</ul>
    </section>
  );
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
