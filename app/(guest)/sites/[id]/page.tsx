import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { Cautions } from "../../../components/cautions/cautions";
import { Plan } from "../../../components/plan/plan";
import type { Params } from "../../../components/rig-form/params";
import { VerdictMark } from "../../../components/verdict/mark";
import type { FitResult } from "@/lib/fit";
import { rankInPool } from "@/lib/jobs/fit-pool";
import type { Units } from "@/lib/measure";
import type { Site } from "@/lib/park";
import { overallLength, type Rig } from "@/lib/rig";
import { catalogueOf, numbersFor, remedySentence } from "@/lib/wording";
import { askedBy, guestContext } from "../../context";
import { Bring, ReasonList } from "../../ranking";
import { UnitsSwitch } from "../../units-switch";
import styles from "./site.module.css";

interface PageProps {
  readonly params: Promise<{ id: string }>;
  readonly searchParams: Promise<Params>;
}

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  const { id } = await params;
  const site = (await guestContext())?.sites.find((s) => s.id === id);
  return { title: site ? catalogueOf().pages.site.title(site.label ?? site.id) : catalogueOf().pages.notFound.title };
}

/** One site: its plan, with the rig of the address on it where there is one. */
export default async function SitePage({ params, searchParams }: PageProps) {
  const [{ id }, asked] = await Promise.all([params, searchParams.then(askedBy)]);
  const site = asked?.sites.find((s) => s.id === id);
  if (!asked || !site) notFound();
  const { pages } = catalogueOf();
  const { units, form } = asked;
  const rig = form?.rig;
  const result = rig && (await rankInPool([site], rig, asked.park.policy, { remedies: true }))[0];
  return (
    <main className={styles.main}>
      <p><Link href={form ? `/sites?${form.query}&units=${units}` : "/"} prefetch={false}>{pages.site.back}</Link></p>
      <h1>{pages.site.title(site.label ?? site.id)}</h1>
      <div className={styles.columns}>
        <div>
          {form && rig && result ? <Verdict name={form.start.name} rig={rig} result={result} site={site} units={units} /> : <p>{form && !rig ? pages.first.faults(Object.keys(form.faults).length) : pages.site.noRig}</p>}
          <Facts site={site} units={units} />
          <UnitsSwitch path={`/sites/${encodeURIComponent(site.id)}`} query={form?.query ?? ""} units={units} />
        </div>
        <Plan site={site} rig={rig ?? undefined} result={result ?? undefined} units={units} />
      </div>
      <Cautions />
    </main>
  );
}

function Verdict({ name, rig, result, site, units }: { readonly name: string; readonly rig: Rig; readonly result: FitResult; readonly site: Site; readonly units: Units }) {
  const { pages, verdicts } = catalogueOf();
  return (
    <section aria-labelledby="verdict">
      <p className={styles.rig}>{pages.first.forRig(name, numbersFor(units).measured(overallLength(rig)))}</p>
      <h2 id="verdict" className={styles.verdict}><VerdictMark verdict={result.verdict} /> {verdicts[result.verdict].label}</h2>
      <p>{verdicts[result.verdict].line}</p>
      <Bring result={result} rig={rig} units={units} />
      {result.reasons.length > 0 && <><h3>{pages.site.reasons}</h3><ReasonList reasons={result.reasons} result={result} site={site} rig={rig} units={units} /></>}
      {result.remedies.length > 0 && (
        <>
          <h3>{pages.site.remedies}</h3>
          <ul className={styles.facts}>{result.remedies.map((remedy) => <li key={JSON.stringify(remedy.changes)}>{remedySentence(remedy, site, rig, units)}</li>)}</ul>
        </>
      )}
    </section>
  );
}

function Facts({ site, units }: { readonly site: Site; readonly units: Units }) {
  const { pages: { site: words } } = catalogueOf();
  const n = numbersFor(units), { rules } = site;
  const facts = [
    ...(site.loop ? [`${words.loop} ${site.loop}`] : []),
    words.entry[site.entry],
    ...(rules?.maxLength === undefined ? [] : [words.maxLength(n.spare(rules.maxLength))]),
    ...(rules?.maxGuests === undefined ? [] : [words.maxGuests(rules.maxGuests)]),
    ...(rules?.pets === undefined ? [] : [words.pets(rules.pets)]),
    ...(rules?.accessible ? [words.accessible] : []),
  ];
  return (
    <section aria-labelledby="facts">
      <h2 id="facts" className={styles.small}>{words.facts}</h2>
      <ul className={styles.facts}>{facts.map((fact) => <li key={fact}>{fact}</li>)}</ul>
    </section>
  );
}
