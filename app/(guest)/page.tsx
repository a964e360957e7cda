import { RigForm } from "../components/rig-form/rig-form";
import { one, readRigForm, unitsOf, type Params, type RigForm as Form } from "../components/rig-form/read";
import { VerdictMark } from "../components/verdict/mark";
import { Cautions } from "../components/cautions/cautions";
import { rankInPool } from "@/lib/jobs/fit-pool";
import { overallLength } from "@/lib/rig";
import type { KeptRig } from "@/lib/store/rigs";
import { catalogueOf, numbersFor, unbroken } from "@/lib/wording";
import { Chooser } from "./chooser";
import { guestContext, type Context } from "./context";
import { Ranking } from "./ranking";
import { UnitsSwitch } from "./units-switch";
import styles from "./first.module.css";

/** The first page: a rig in, the park's sites out, best first. The address holds the rig; nothing is stored. */
export default async function FirstPage({ searchParams }: { readonly searchParams: Promise<Params> }) {
  const params = await searchParams;
  const context = await guestContext();
  if (!context) return <Main><p className={styles.notice}>{catalogueOf().pages.first.noPark}</p></Main>;
  const units = unitsOf(params, context.park.units);
  const chosen = context.rigs.find((r) => r.id === one(params.rig));
  const form = chosen ? readRigForm(params, chosen.rig, units) : null;
  return (
    <Main park={context.park.name}>
      <div className={styles.columns}>
        <div className={styles.ask}>
          <Chooser rigs={context.rigs} chosen={chosen} units={units} />
          {form && chosen && <Numbers form={form} chosen={chosen} />}
          <UnitsSwitch path="/" query={form?.query ?? ""} units={units} />
        </div>
        <div className={styles.answer} id="answer" tabIndex={-1}>
          {form ? <Answer form={form} context={context} /> : <NothingYet rigs={context.rigs.length} />}
          <Cautions />
        </div>
      </div>
    </Main>
  );
}

function Main({ park, children }: { readonly park?: string; readonly children: React.ReactNode }) {
  const { pages } = catalogueOf();
  return (
    <main className={styles.main}>
      <a className={styles.skip} href="#answer">{pages.skip}</a>
      <div className={styles.head}>
        {park && <p className={styles.park}>{park}</p>}
        <h1>{pages.first.title}</h1>
        <p className={styles.lead}>{pages.first.lead}</p>
      </div>
      {children}
    </main>
  );
}

/** Before a rig is chosen: what the answers will mean. */
function NothingYet({ rigs }: { readonly rigs: number }) {
  const { pages, verdicts } = catalogueOf();
  return (
    <>
      <p className={styles.notice}>{rigs > 0 ? pages.first.nothingYet : pages.first.noRigs}</p>
      <ul className={styles.meanings}>
        {(["fits", "gear", "no"] as const).map((verdict) => (
          <li key={verdict}><VerdictMark verdict={verdict} /><span><b>{verdicts[verdict].label}.</b> {verdicts[verdict].line}</span></li>
        ))}
      </ul>
    </>
  );
}

/** The numbers in use, folded away until somebody wants to change them; open where one of them is at fault. */
function Numbers({ form, chosen }: { readonly form: Form; readonly chosen: KeptRig }) {
  const { pages } = catalogueOf();
  const faults = Object.keys(form.faults).length;
  const n = numbersFor(form.units);
  const { rig } = form;
  return (
    <details className={styles.numbers} open={faults > 0}>
      <summary>
        <span className={styles.numbersTitle}>{pages.first.numbers}</span>
        {rig && <span className={styles.numbersNow}>{unbroken(pages.first.now(n.measured(overallLength(rig)), n.measured(rig.body.width), n.measured(rig.body.height)))}</span>}
      </summary>
      {chosen.note && <p className={styles.note}>{chosen.note}</p>}
      <RigForm form={form} key={form.query} />
      <p><a href={`/?rig=${encodeURIComponent(chosen.id)}&units=${form.units}`}>{pages.first.reset}</a></p>
    </details>
  );
}

async function Answer({ form, context }: { readonly form: Form; readonly context: Context }) {
  const { pages } = catalogueOf();
  const faults = Object.keys(form.faults).length;
  if (!form.rig) return <p className={styles.alert} role="alert">{pages.first.faults(faults)}</p>;
  if (context.sites.length === 0) return <p className={styles.notice}>{pages.first.noSites}</p>;
  const results = await rankInPool(context.sites, form.rig, context.park.policy);
  return <Ranking results={results} sites={context.sites} rig={form.rig} policy={context.park.policy} units={form.units} query={form.query} />;
}
