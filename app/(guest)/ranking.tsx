import Link from "next/link";
import { Plan } from "../components/plan/plan";
import { VerdictMark } from "../components/verdict/mark";
import type { FitResult, Policy, Reason, Verdict } from "@/lib/fit";
import type { Units } from "@/lib/measure";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { askSentence, bringSentence, catalogueOf, placeInWords, sentence, unbroken } from "@/lib/wording";
import { siteAddress, type Standpoint } from "./sites/address";
import { CompareTick } from "./sites/compare-bar";
import type { Entry } from "./sites/filters";
import styles from "./ranking.module.css";

interface RankingProps {
  /** Best first; those to show. */
  readonly entries: readonly Entry[];
  readonly rig: Rig;
  readonly policy: Policy;
  readonly standpoint: Standpoint;
  /** What a site costs for the nights asked about, in words. */
  readonly priceOf?: (site: Site) => string | null;
}

const ORDER: readonly Verdict[] = ["fits", "gear", "ask", "unsettled", "no"];
/** Plans drawn in the list itself; every other site has its own on its page. */
const PLANS = 3;
/** Entries shown of a group before the rest is folded away. */
const SHOWN = 12;

/** Every site in its place: by verdict, then best first, each with the reason for it. */
export function Ranking({ entries, ...rest }: RankingProps) {
  const { guestSites: words, verdicts } = catalogueOf();
  const withPlan = new Set(entries.filter(({ result }) => result.pose).slice(0, PLANS).map(({ site }) => site.id));
  const of = (verdict: Verdict) => entries.filter(({ result }) => result.verdict === verdict);
  return ORDER.filter((verdict) => of(verdict).length > 0).map((verdict) => (
    <section key={verdict} className={styles.group} aria-labelledby={`group-${verdict}`}>
      <h2 id={`group-${verdict}`}><VerdictMark verdict={verdict} /> {words.group(verdicts[verdict].group, of(verdict).length)}</h2>
      <Entries entries={of(verdict)} withPlan={withPlan} {...rest} />
    </section>
  ));
}

function Entries({ entries, withPlan, ...rest }: RankingProps & { readonly withPlan: ReadonlySet<string> }) {
  const list = (some: typeof entries) => (
    <ol className={styles.list}>
      {some.map((entry) => <SiteEntry key={entry.site.id} {...entry} {...rest} plan={withPlan.has(entry.site.id)} />)}
    </ol>
  );
  const folded = entries.slice(SHOWN);
  return (
    <>
      {list(entries.slice(0, SHOWN))}
      {folded.length > 0 && <details className={styles.more}><summary>{catalogueOf().guestSites.more(folded.length)}</summary>{list(folded)}</details>}
    </>
  );
}

function SiteEntry({ result, site, rig, policy, standpoint, priceOf, plan }: Entry & Omit<RankingProps, "entries"> & { readonly plan: boolean }) {
  const { guestSites: words, verdicts } = catalogueOf();
  const label = site.label ?? site.id, { units } = standpoint;
  return (
    <li className={plan ? styles.entryWithPlan : styles.entry}>
      <div className={styles.words}>
        <div className={styles.line}>
          <h3><Link href={siteAddress(site.id, standpoint)} prefetch={false} aria-label={words.seePlanOf(label)}>{label}</Link> <span className={styles.verdict}>{verdicts[result.verdict].label}</span></h3>
          <CompareTick id={site.id} label={label} ticked={standpoint.picked.includes(site.id)} />
        </div>
        {priceOf?.(site) && <p className={styles.price}>{priceOf(site)}</p>}
        <Asks result={result} site={site} rig={rig} units={units} />
        <NoWayIn result={result} site={site} rig={rig} units={units} />
        <p className={styles.why}>{unbroken(placeInWords(site, rig, result, policy.comfort, units))}</p>
        <Bring result={result} rig={rig} units={units} />
        <Reasons result={result} site={site} rig={rig} units={units} />
      </div>
      {plan && <Plan site={site} rig={rig} result={result} units={units} />}
    </li>
  );
}

export function Bring({ result, rig, units }: { readonly result: FitResult; readonly rig: Rig; readonly units: Units }) {
  if (result.bring.length === 0) return null;
  return (
    <div className={styles.bring}>
      <p>{catalogueOf().guestSites.bring}</p>
      <ul>{result.bring.map((item) => <li key={item.code}>{unbroken(bringSentence(item, rig, units))}</li>)}</ul>
    </div>
  );
}

/** The numbers nobody has measured that this site's answer hangs on, and where it turns. */
export function Asks({ result: { asks }, site, rig, units }: { readonly result: FitResult; readonly site: Site; readonly rig: Rig; readonly units: Units }) {
  return asks.map((ask) => <p key={`${ask.field} ${ask.turnsAt}`} className={styles.ask}>{unbroken(askSentence(ask, site, rig, units))}</p>);
}

/** What comes before all else where a rig fits but no way in was found: a yes alone would send it there. */
export function NoWayIn({ result, site, rig, units }: { readonly result: FitResult; readonly site: Site; readonly rig: Rig; readonly units: Units }) {
  const reason = result.reasons.find(isNoWayIn);
  return reason ? <p className={styles.ask}>{unbroken(sentence(reason, site, rig, units, result))}</p> : null;
}

export function isNoWayIn({ code }: Reason): boolean {
  return code === "access:not-found";
}

/** The further reasons: all but the first of a refusal, which its one line has told already. */
function Reasons({ result, site, rig, units }: { readonly result: FitResult; readonly site: Site; readonly rig: Rig; readonly units: Units }) {
  const told = result.pose ? null : result.reasons.find((r) => !r.code.startsWith("wish:"));
  const rest = result.reasons.filter((r) => r !== told && !isNoWayIn(r) && (result.pose !== null || !r.code.startsWith("wish:")));
  if (rest.length === 0) return null;
  return <ReasonList reasons={rest} result={result} site={site} rig={rig} units={units} />;
}

export function ReasonList({ reasons, result, site, rig, units }: { readonly reasons: readonly Reason[]; readonly result: FitResult; readonly site: Site; readonly rig: Rig; readonly units: Units }) {
  return <ul className={styles.reasons}>{reasons.map((reason) => <li key={`${reason.code} ${reason.parts.join(" ")}`}>{unbroken(sentence(reason, site, rig, units, result))}</li>)}</ul>;
}
