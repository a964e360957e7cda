import { VerdictMark } from "../../components/verdict/mark";
import type { FitResult } from "@/lib/fit";
import type { Rig } from "@/lib/rig";
import { catalogueOf, placeInWords, unbroken } from "@/lib/wording";
import { queryOf, type Asked } from "./asked";
import { takes } from "./effects";
import styles from "./desk.module.css";

/** As many as one reads out to a caller. */
const SHOWN = 10;

/** The sites that take the rig, best first, each with the reason for its place; the others folded away with theirs. */
export function Ranked({ asked, rig, results }: { readonly asked: Asked; readonly rig: Rig; readonly results: readonly FitResult[] }) {
  const { desk: words } = catalogueOf().staff;
  const taking = results.filter(({ verdict }) => takes(verdict)), others = results.filter(({ verdict }) => !takes(verdict));
  const rows = (some: readonly FitResult[]) => <Rows asked={asked} rig={rig} results={some} />;
  return (
    <section aria-labelledby="best" className={styles.part}>
      <h2 id="best">{words.best}</h2>
      {taking.length === 0 ? <p>{words.none}</p> : rows(taking.slice(0, SHOWN))}
      {taking.length > SHOWN && <details className={styles.more}><summary>{words.more(taking.length - SHOWN)}</summary>{rows(taking.slice(SHOWN))}</details>}
      {others.length > 0 && <details className={styles.more}><summary>{words.refused(others.length)}</summary>{rows(others)}</details>}
    </section>
  );
}

function Rows({ asked, rig, results }: { readonly asked: Asked; readonly rig: Rig; readonly results: readonly FitResult[] }) {
  const { staff: { desk: words }, verdicts } = catalogueOf();
  const { policy } = asked.park;
  const byId = new Map(asked.sites.map((site) => [site.id, site]));
  return (
    <ol className={styles.sites}>
      {results.map((result) => {
        const site = byId.get(result.site)!;
        const label = site.label ?? site.id;
        return (
          <li key={site.id}>
            <a href={`/desk/check/${encodeURIComponent(site.id)}?${queryOf(asked)}`} aria-label={words.planOf(label)}>{label}</a>
            <span className={styles.verdict}><VerdictMark verdict={result.verdict} /> {verdicts[result.verdict].label}</span>
            <span className={styles.why}>{unbroken(placeInWords(site, rig, result, policy.comfort, asked.units))}</span>
          </li>
        );
      })}
    </ol>
  );
}
