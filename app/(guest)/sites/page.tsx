import { redirect } from "next/navigation";
import { Cautions } from "../../components/cautions/cautions";
import type { Params } from "../../components/rig-form/params";
import type { RigForm as Form } from "../../components/rig-form/read";
import { rankInPool } from "@/lib/jobs/fit-pool";
import { overallLength } from "@/lib/rig";
import { catalogueOf, numbersFor, unbroken } from "@/lib/wording";
import { askedBy, type Asked } from "../context";
import { Ranking } from "../ranking";
import { UnitsSwitch } from "../units-switch";
import styles from "../first.module.css";

/** Every site for the rig of the address, best first. */
export default async function SitesPage({ searchParams }: { readonly searchParams: Promise<Params> }) {
  const asked = await askedBy(await searchParams);
  const { pages } = catalogueOf();
  if (!asked) return <main className={styles.main}><p className={styles.notice}>{pages.first.noPark}</p></main>;
  if (!asked.form) redirect("/");
  return (
    <main className={styles.main}>
      <h1>{pages.first.title}</h1>
      <RigLine form={asked.form} />
      <UnitsSwitch path="/sites" query={asked.form.query} units={asked.units} />
      <div id="answer" tabIndex={-1}>
        <Answer form={asked.form} asked={asked} />
        <Cautions />
      </div>
    </main>
  );
}

function RigLine({ form: { rig, units, start, query } }: { readonly form: Form }) {
  const { pages } = catalogueOf();
  const n = numbersFor(units);
  return (
    <p>
      {start.name}{rig && <> {unbroken(pages.first.now(n.measured(overallLength(rig)), n.measured(rig.body.width), n.measured(rig.body.height)))}</>}{" "}
      <a href={`/rig?${query}&units=${units}`}>{pages.first.numbers}</a>
    </p>
  );
}

async function Answer({ form, asked }: { readonly form: Form; readonly asked: Asked }) {
  const { pages } = catalogueOf();
  const { park: { policy }, sites } = asked;
  if (!form.rig) return <p className={styles.alert} role="alert">{pages.first.faults(Object.keys(form.faults).length)}</p>;
  if (sites.length === 0) return <p className={styles.notice}>{pages.first.noSites}</p>;
  const results = await rankInPool(sites, form.rig, policy);
  return <Ranking results={results} sites={sites} rig={form.rig} policy={policy} units={form.units} query={form.query} />;
}
