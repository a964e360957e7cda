import { randomUUID } from "node:crypto";
import type { Metadata } from "next";
import type { Site } from "@/lib/park";
import { fitMatrix, type MatrixProgress } from "@/lib/jobs/fit-matrix";
import { RankingStopped } from "@/lib/jobs/fit-pool";
import type { FitMatrix } from "@/lib/insight";
import type { Policy } from "@/lib/fit";
import type { Rig } from "@/lib/rig";
import { catalogueOf } from "@/lib/wording";
import type { Params } from "../../components/rig-form/params";
import { addressOf, readChoice, type Choice } from "./choice";
import { Chooser } from "./chooser";
import { columnsFor, type Column } from "./columns";
import { fitsContext } from "./context";
import { FitsGrid } from "./fits-grid";
import { makeGrid } from "./make-grid";
import { shownSites } from "./shown-sites";
import { Legend, MostInTheWay, Summary } from "./summary";
import { Working } from "./working";
import styles from "./fits.module.css";

const { insight: words, tag } = catalogueOf();

export const metadata: Metadata = { title: words.title };

/** Nobody waits longer than this for an empty page: what is not known by then is worked out with progress in sight. Milliseconds. */
const PATIENCE = 400;

/** Every site down, every rig across, and whether each pair works. */
export default async function FitsPage({ searchParams }: { readonly searchParams: Promise<Params> }) {
  const [params, context] = await Promise.all([searchParams, fitsContext()]);
  if (!context) return <main className={styles.main}><h1>{words.title}</h1><p className={styles.notice}>{words.noPark}</p></main>;
  const { park, sites, rigs } = context;
  const choice = readChoice(params, { sites, keptRigs: rigs.length, parkUnits: park.units });
  const columns = columnsFor(choice, rigs), shown = shownSites(sites, choice);
  return (
    <main className={`${styles.main} ${styles.matrix}`}>
      <div className={styles.head}>
        <p className={styles.park}>{park.name}</p>
        <h1>{words.title}</h1>
        <p className={styles.lead}>{words.lead}</p>
      </div>
      <Chooser choice={choice} context={context} />
      <Matrix choice={choice} sites={shown} columns={columns} policy={park.policy} />
    </main>
  );
}

async function Matrix({ choice, sites, columns, policy }: { readonly choice: Choice; readonly sites: readonly Site[]; readonly columns: readonly Column[]; readonly policy: Policy }) {
  if (sites.length === 0) return <p className={styles.notice}>{words.noSites}</p>;
  if (columns.length === 0) return <p className={styles.notice}>{words.noRigs}</p>;
  const outcome = await workedOut(sites, columns.map(({ rig }) => rig), policy);
  if (outcome.state === "busy") return <Stopped here={addressOf(choice)} />;
  if (outcome.state === "open") return <StillWorking choice={choice} sites={sites.length} rigs={columns.length} progress={outcome.progress} />;
  return (
    <>
      <Summary matrix={outcome.matrix} />
      <FitsGrid gridKey={addressOf(choice)} {...makeGrid(outcome.matrix, columns, choice)} />
      <div className={styles.below}><MostInTheWay matrix={outcome.matrix} /><Legend matrix={outcome.matrix} /></div>
    </>
  );
}

type Outcome =
  | { readonly state: "done"; readonly matrix: FitMatrix }
  | { readonly state: "open"; readonly progress: MatrixProgress }
  | { readonly state: "busy" };

/** The matrix where it is known or soon done; else how far it came, which is kept. */
async function workedOut(sites: readonly Site[], rigs: readonly Rig[], policy: Policy): Promise<Outcome> {
  let progress: MatrixProgress = { done: 0, total: sites.length * rigs.length };
  try {
    return { state: "done", matrix: await fitMatrix(sites, rigs, policy, { timeLimit: PATIENCE, onProgress: (told) => { progress = told; } }) };
  } catch (error) {
    if (!(error instanceof RankingStopped)) throw error;
    return error.why === "busy" ? { state: "busy" } : { state: "open", progress };
  }
}

function StillWorking({ choice, sites, rigs, progress }: { readonly choice: Choice; readonly sites: number; readonly rigs: number; readonly progress: MatrixProgress }) {
  const { working } = words;
  return (
    <section className={styles.working} aria-labelledby="working">
      <h2 id="working">{working.title}</h2>
      <p>{working.line(sites, rigs)}</p>
      {/* Made anew with every answer: where something changed meanwhile, the work goes on. */}
      <Working key={randomUUID()} className={styles.progress} href={addressOf(choice, "/manage/fits/progress")} here={addressOf(choice)} done={progress.done} total={progress.total} line={working.done} language={tag} failed={working.failed} again={working.again} />
      {/* Without script nobody follows the progress: the page asks for itself again, and each time more is known. */}
      <noscript><meta httpEquiv="refresh" content="1" /><p>{working.noScript}</p></noscript>
    </section>
  );
}

function Stopped({ here }: { readonly here: string }) {
  return <div className={styles.notice} role="alert"><h2>{words.stopped.title}</h2><p>{words.stopped.why.busy}</p><p><a href={here}>{words.stopped.again}</a></p></div>;
}
