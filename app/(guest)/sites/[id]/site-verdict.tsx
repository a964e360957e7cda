import { VerdictMark } from "../../../components/verdict/mark";
import type { FitResult, Remedy } from "@/lib/fit";
import type { Units } from "@/lib/measure";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { catalogueOf, remedySentence, unbroken } from "@/lib/wording";
import { Asks, Bring, ReasonList } from "../../ranking";
import styles from "./site.module.css";

interface SiteVerdictProps {
  readonly site: Site;
  readonly rig: Rig;
  readonly result: FitResult;
  readonly units: Units;
}

/** The answer in words: the verdict, what to bring, why, and what would change it. */
export function SiteVerdict({ site, rig, result, units }: SiteVerdictProps) {
  const { guestSites: { site: words }, verdicts } = catalogueOf();
  return (
    <section aria-labelledby="verdict">
      <h2 id="verdict" className={styles.verdict}><VerdictMark verdict={result.verdict} /> {verdicts[result.verdict].label}</h2>
      <p className={styles.line}>{verdicts[result.verdict].line}</p>
      <Asks result={result} site={site} rig={rig} units={units} />
      <Bring result={result} rig={rig} units={units} />
      {result.reasons.length > 0 && <><h3>{words.reasons}</h3><ReasonList reasons={result.reasons} result={result} site={site} rig={rig} units={units} /></>}
      {result.remedies.length > 0 && <Remedies remedies={result.remedies} site={site} rig={rig} units={units} />}
    </section>
  );
}

function Remedies({ remedies, site, rig, units }: { readonly remedies: readonly Remedy[] } & Omit<SiteVerdictProps, "result">) {
  const { site: words } = catalogueOf().guestSites;
  return (
    <>
      <h3>{words.remedies}</h3>
      <ul className={styles.facts}>{remedies.map((remedy) => <li key={JSON.stringify(remedy.changes)}>{unbroken(remedySentence(remedy, site, rig, units))}</li>)}</ul>
    </>
  );
}
