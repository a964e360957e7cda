import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import type { FitResult } from "@/lib/fit";
import { cellOf, kindsTallied, tallyOf } from "@/lib/insight";
import { rankInPool, RankingStopped } from "@/lib/jobs/fit-pool";
import { unitSystems, type Units } from "@/lib/measure";
import type { Site } from "@/lib/park";
import { overallLength, type Rig } from "@/lib/rig";
import { bringSentence, catalogueOf, numbersFor, placeInWords, remedySentence, unbroken } from "@/lib/wording";
import { one, type Params } from "../../../components/rig-form/params";
import { UnitsLinks } from "../../../components/staff-nav/units-links";
import { VerdictMark } from "../../../components/verdict/mark";
import { fitsContext, type FitsContext } from "../context";
import styles from "../fits.module.css";

const { insight, pages, verdicts } = catalogueOf();
const { rig: words, stopped } = insight;

interface PageProps {
  readonly params: Promise<{ rig: string }>;
  readonly searchParams: Promise<Params>;
}

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  const { rig } = await params;
  const kept = (await fitsContext())?.rigs.find(({ id }) => id === rig);
  return { title: kept ? words.title(kept.name) : pages.notFound.title };
}

/** One of the park's rigs on every site: what each says to it, why, and what would turn that. */
export default async function RigPage({ params, searchParams }: PageProps) {
  const [{ rig: id }, asked, context] = await Promise.all([params, searchParams, fitsContext()]);
  const kept = context?.rigs.find((rig) => rig.id === id);
  if (!context || !kept) notFound();
  const units = unitSystems.find((u) => u === one(asked.units)) ?? context.park.units;
  const n = numbersFor(units), { rig } = kept;
  return (
    <main className={styles.main}>
      <p className={styles.back}><Link href={`/manage/fits?units=${units}`} prefetch={false}>{words.back}</Link></p>
      <div className={styles.head}>
        <p className={styles.park}>{context.park.name}</p>
        <h1>{words.title(kept.name)}</h1>
        <p className={styles.facts}>{kept.note} {unbroken(words.measures(n.measured(overallLength(rig)), n.measured(rig.body.width), n.measured(rig.body.height)))}.</p>
      </div>
      <UnitsLinks units={units} names={pages.units} hrefOf={(system) => `/manage/fits/${encodeURIComponent(id)}?units=${system}`} />
      {context.sites.length === 0 ? <p className={styles.notice}>{insight.noSites}</p> : <Sites id={id} rig={rig} context={context} units={units} />}
    </main>
  );
}

async function Sites({ id, rig, context: { park, sites }, units }: { readonly id: string; readonly rig: Rig; readonly context: FitsContext; readonly units: Units }) {
  const results = await ranked(sites, rig, park.policy);
  if (results instanceof RankingStopped) return <div className={styles.notice} role="alert"><h2>{stopped.title}</h2><p>{stopped.why[results.why]}</p></div>;
  const byId = new Map(sites.map((site) => [site.id, site]));
  const count = (verdict: FitResult["verdict"]) => results.filter((result) => result.verdict === verdict).length;
  const matrix = { sites: results.map(({ site }) => byId.get(site)!), rigs: [rig], cells: results.map((result) => [cellOf(result)]) };
  const shares = tallyOf(kindsTallied(matrix).flat()).turnedAwayBy;
  return (
    <>
      <p className={styles.summary}>{words.lead(results.length, count("fits") + count("gear"), count("gear"))}</p>
      {shares.length > 0 && <><h2 className={styles.small}>{words.by}</h2><ul className={styles.by}>{shares.map(({ by, count: all, alone }) => <li key={by}>{words.byOf(insight.hindrance(by, null), all, alone)}</li>)}</ul></>}
      <table className={styles.list}>
        <caption className="visually-hidden">{words.caption}</caption>
        <thead><tr><th scope="col">{words.columns.site}</th><th scope="col">{words.columns.verdict}</th><th scope="col">{words.columns.why}</th><th scope="col">{words.columns.change}</th></tr></thead>
        <tbody>{results.map((result) => <Row key={result.site} id={id} rig={rig} result={result} site={byId.get(result.site)!} comfort={park.policy.comfort} units={units} />)}</tbody>
      </table>
    </>
  );
}

async function ranked(...[sites, rig, policy]: Parameters<typeof rankInPool>): Promise<FitResult[] | RankingStopped> {
  try {
    return await rankInPool(sites, rig, policy, { remedies: true, access: true });
  } catch (error) {
    if (error instanceof RankingStopped) return error;
    throw error;
  }
}

interface RowProps {
  readonly id: string;
  readonly rig: Rig;
  readonly result: FitResult;
  readonly site: Site;
  readonly comfort: number;
  readonly units: Units;
}

function Row({ id, rig, result, site, comfort, units }: RowProps) {
  return (
    <tr>
      <th scope="row"><Link href={`/sites/${encodeURIComponent(site.id)}?rig=${encodeURIComponent(id)}&units=${units}`} prefetch={false}>{site.label ?? site.id}</Link></th>
      <td className={styles.verdict}><VerdictMark verdict={result.verdict} /> {verdicts[result.verdict].label}</td>
      <td>{unbroken(placeInWords(site, rig, result, comfort, units))}</td>
      <td>{unbroken(whatTurnsIt(result, site, rig, units))}</td>
    </tr>
  );
}

/** The easiest remedy of a refusal, what to bring where gear is short, and nothing for a site that fits. */
function whatTurnsIt(result: FitResult, site: Site, rig: Rig, units: Units): string {
  if (result.verdict === "gear") return result.bring.map((item) => bringSentence(item, rig, units)).join(" ");
  if (result.verdict !== "no") return "";
  const [easiest] = result.remedies;
  return easiest ? remedySentence(easiest, site, rig, units) : words.noChange;
}
