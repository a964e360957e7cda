import Link from "next/link";
import { Plan } from "../components/plan/plan";
import { VerdictMark } from "../components/verdict/mark";
import type { FitResult, Policy, Reason, Verdict } from "@/lib/fit";
import type { Units } from "@/lib/measure";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { bringSentence, catalogueOf, placeInWords, sentence, unbroken } from "@/lib/wording";
import styles from "./ranking.module.css";

interface RankingProps {
  readonly results: readonly FitResult[];
  readonly sites: readonly Site[];
  readonly rig: Rig;
  readonly policy: Policy;
  readonly units: Units;
  /** The rig as the address has it, for the links. */
  readonly query: string;
}

type EntryProps = Omit<RankingProps, "results" | "sites"> & { readonly result: FitResult; readonly site: Site };

const ORDER: readonly Verdict[] = ["fits", "gear", "ask", "unsettled", "no"];
/** Plans drawn in the list itself; every other site has its own on its page. */
const PLANS = 3;
/** Entries shown of a group before the rest is folded away. */
const SHOWN = 12;

/** Every site in its place: by verdict, then best first, each with the reason for it. */
export function Ranking({ results, sites, ...rest }: RankingProps) {
  const { pages, verdicts } = catalogueOf();
  const byId = new Map(sites.map((s) => [s.id, s]));
  const entries = results.flatMap((result) => {
    const site = byId.get(result.site);
    return site ? [{ result, site }] : [];
  });
  const withPlan = new Set(entries.filter(({ result }) => result.pose).slice(0, PLANS).map(({ site }) => site.id));
  const of = (verdict: Verdict) => entries.filter(({ result }) => result.verdict === verdict);
  return (
    <>
      <p className={styles.found} role="status">{pages.first.found(of("fits").length, of("gear").length, entries.length)}</p>
      {ORDER.filter((verdict) => of(verdict).length > 0).map((verdict) => (
        <section key={verdict} className={styles.group} aria-labelledby={`group-${verdict}`}>
          <h2 id={`group-${verdict}`}><VerdictMark verdict={verdict} /> {pages.first.group(verdicts[verdict].group, of(verdict).length)}</h2>
          <Entries entries={of(verdict)} withPlan={withPlan} {...rest} />
        </section>
      ))}
    </>
  );
}

function Entries({ entries, withPlan, ...rest }: Omit<EntryProps, "result" | "site"> & { readonly entries: readonly { result: FitResult; site: Site }[]; readonly withPlan: ReadonlySet<string> }) {
  const { pages } = catalogueOf();
  const list = (some: typeof entries) => (
    <ol className={styles.list}>
      {some.map((entry) => <Entry key={entry.site.id} {...entry} {...rest} plan={withPlan.has(entry.site.id)} />)}
    </ol>
  );
  const rest_ = entries.slice(SHOWN);
  return (
    <>
      {list(entries.slice(0, SHOWN))}
      {rest_.length > 0 && <details className={styles.more}><summary>{pages.first.more(rest_.length)}</summary>{list(rest_)}</details>}
    </>
  );
}

function Entry({ result, site, rig, policy, units, query, plan }: EntryProps & { readonly plan: boolean }) {
  const { pages, verdicts } = catalogueOf();
  const label = site.label ?? site.id;
  const href = `/sites/${encodeURIComponent(site.id)}?${query}&units=${units}`;
  return (
    <li className={plan ? styles.entryWithPlan : styles.entry}>
      <div className={styles.words}>
        <h3><Link href={href} prefetch={false} aria-label={pages.first.seePlanOf(label)}>{label}</Link> <span className={styles.verdict}>{verdicts[result.verdict].label}</span></h3>
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
      <p>{catalogueOf().pages.first.bring}</p>
      <ul>{result.bring.map((item) => <li key={item.code}>{unbroken(bringSentence(item, rig, units))}</li>)}</ul>
    </div>
  );
}

/** The further reasons: all but the first of a refusal, which its one line has told already. */
function Reasons({ result, site, rig, units }: { readonly result: FitResult; readonly site: Site; readonly rig: Rig; readonly units: Units }) {
  const told = result.pose ? null : result.reasons.find((r) => !r.code.startsWith("wish:"));
  const rest = result.reasons.filter((r) => r !== told && (result.pose !== null || !r.code.startsWith("wish:")));
  if (rest.length === 0) return null;
  return <ReasonList reasons={rest} result={result} site={site} rig={rig} units={units} />;
}

export function ReasonList({ reasons, result, site, rig, units }: { readonly reasons: readonly Reason[]; readonly result: FitResult; readonly site: Site; readonly rig: Rig; readonly units: Units }) {
  return <ul className={styles.reasons}>{reasons.map((reason) => <li key={`${reason.code} ${reason.parts.join(" ")}`}>{unbroken(sentence(reason, site, rig, units, result))}</li>)}</ul>;
}
