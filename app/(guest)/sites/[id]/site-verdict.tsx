import { VerdictMark } from "../../../components/verdict/mark";
import type { FitResult } from "@/lib/fit";
import type { Units } from "@/lib/measure";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { catalogueOf, remediesInWords, unbroken } from "@/lib/wording";
import { Asks, Bring, isNoWayIn, NoWayIn, ReasonList } from "../../ranking";
import styles from "./site.module.css";

interface SiteVerdictProps {
  readonly site: Site;
  readonly rig: Rig;
  readonly result: FitResult;
  readonly units: Units;
  /** What would change a refusal was looked for; found or not. */
  readonly sought: boolean;
}

/** The answer in words: the verdict, what to bring, why, and what would change it. */
export function SiteVerdict({ site, rig, result, units, sought }: SiteVerdictProps) {
  const { guestSites: { site: words }, verdicts } = catalogueOf();
  const reasons = result.reasons.filter((reason) => !isNoWayIn(reason));
  return (
    <section aria-labelledby="verdict">
      <h2 id="verdict" className={styles.verdict}><VerdictMark verdict={result.verdict} /> {verdicts[result.verdict].label}</h2>
      <p className={styles.line}>{verdicts[result.verdict].line}</p>
      <Asks result={result} site={site} rig={rig} units={units} />
      <NoWayIn result={result} site={site} rig={rig} units={units} />
      <Bring result={result} rig={rig} units={units} />
      {reasons.length > 0 && <><h3>{words.reasons}</h3><ReasonList reasons={reasons} result={result} site={site} rig={rig} units={units} /></>}
      {sought && result.verdict === "no" && <Remedies result={result} site={site} rig={rig} units={units} />}
    </section>
  );
}

/** By whose job it is: first what the guest can do this evening, then what only the park can. */
export function Remedies({ result, site, rig, units }: Omit<SiteVerdictProps, "sought">) {
  const { guestSites: { site: words }, remedyWords } = catalogueOf();
  const remedies = remediesInWords(result, site, rig, units);
  return (
    <>
      <h3>{words.remedies}</h3>
      {remedies.none && <p>{remedies.none}</p>}
      {(["guest", "park"] as const).map((owner) => remedies[owner].length > 0 && (
        <div key={owner}>
          <h4 className={styles.owner}>{remedyWords[owner]}</h4>
          <ul className={styles.facts}>{remedies[owner].map((line) => <li key={line}>{unbroken(line)}</li>)}</ul>
        </div>
      ))}
    </>
  );
}
