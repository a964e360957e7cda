import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { Cautions } from "../../../components/cautions/cautions";
import { Plan } from "../../../components/plan/plan";
import type { Params } from "../../../components/rig-form/params";
import { VerdictMark } from "../../../components/verdict/mark";
import { GettingInSection } from "../../../components/way-player/getting-in-section";
import type { FitResult } from "@/lib/fit";
import { rankInPool } from "@/lib/jobs/fit-pool";
import type { Units } from "@/lib/measure";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { bringSentence, catalogueOf, numbersFor, remedySentence, sentence, unbroken } from "@/lib/wording";
import { askedOf, queryOf } from "../asked";
import { rigOf } from "../facts";
import styles from "../desk.module.css";

interface PageProps {
  readonly params: Promise<{ id: string }>;
  readonly searchParams: Promise<Params>;
}

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  return { title: catalogueOf().staff.desk.planOf((await params).id) };
}

/** One site for the caller's rig: the plan to read out from. */
export default async function CallersSitePage({ params, searchParams }: PageProps) {
  const [{ id }, asked] = await Promise.all([params, searchParams.then(askedOf)]);
  const site = asked?.sites.find((s) => s.id === id);
  if (!asked || !site || !asked.read?.ok) notFound();
  const { staff: { desk: words, site: siteWords }, verdicts } = catalogueOf();
  const { units, park, answers, read: { call } } = asked;
  const rig = rigOf(call, answers);
  const [result] = await rankInPool([site], rig, park.policy, { remedies: true, access: true });
  return (
    <main className={styles.main}>
      <p><a href={`/desk/check?${queryOf(asked)}`} className={styles.back}>{words.backToCall}</a></p>
      <h1>{siteWords.title(site.label ?? site.id)}</h1>
      <div className={styles.columns}>
        <div>
          <p className={styles.note}>{unbroken(words.rig(call.kind, numbersFor(units).measured(call.overall)))}. {words.typical}</p>
          <p className={styles.answer}><VerdictMark verdict={result!.verdict} /> {verdicts[result!.verdict].label}</p>
          <Reading site={site} rig={rig} result={result!} units={units} />
        </div>
        <Plan site={site} rig={rig} result={result!} units={units} />
      </div>
      <GettingInSection site={site} rig={rig} result={result!} policy={park.policy} units={units} />
      <Cautions />
    </main>
  );
}

function Reading({ site, rig, result, units }: { readonly site: Site; readonly rig: Rig; readonly result: FitResult; readonly units: Units }) {
  const { desk: words } = catalogueOf().staff;
  return (
    <>
      <Listed title={words.bring} lines={result.bring.map((item) => bringSentence(item, rig, units))} />
      <Listed title={words.why} lines={result.reasons.map((reason) => sentence(reason, site, rig, units, result))} />
      <Listed title={words.remedies} lines={result.remedies.map((remedy) => remedySentence(remedy, site, rig, units))} />
    </>
  );
}

function Listed({ title, lines }: { readonly title: string; readonly lines: readonly string[] }) {
  if (lines.length === 0) return null;
  return <><h2 className={styles.small}>{title}</h2><ul className={styles.lines}>{[...new Set(lines)].map((line) => <li key={line}>{unbroken(line)}</li>)}</ul></>;
}
