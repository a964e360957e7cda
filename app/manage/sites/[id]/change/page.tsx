import type { Metadata } from "next";
import { randomUUID } from "node:crypto";
import { compareSites } from "@/lib/park";
import { weighSites } from "@/lib/jobs/site-effects";
import type { Units } from "@/lib/measure";
import { catalogueOf, changeRows } from "@/lib/wording";
import { Cautions } from "../../../../components/cautions/cautions";
import { one, type Params } from "../../../../components/rig-form/params";
import { unitsOf } from "../../../../components/rig-form/read";
import { UnitsLinks } from "../../../../components/staff-nav/units-links";
import { requireManager } from "../../../../staff-session";
import { Working } from "../../../fits/working";
import { ChangeTable } from "./change-table";
import { changeContext, effectsAsked, type ChangeContext } from "./context";
import { PlansBeside, plansDiffer } from "./plans-beside";
import { InUse, SavePart } from "./save-part";
import { StalePart } from "./stale-part";
import { StayEffects } from "./stay-effects";
import { weighSoon, type Weighed } from "../../../weigh-soon";
import styles from "./change.module.css";

const { siteChanges: { change: words, plans, table, effects: effectWords }, settings: { working }, insight, accounts, pages, tag } = catalogueOf();

interface PageProps {
  readonly params: Promise<{ id: string }>;
  readonly searchParams: Promise<Params>;
}

export const metadata: Metadata = { title: table.caption };

/** A change of one site before it is saved: what changes, on the plan and for the stays ahead; where somebody else saved meanwhile, what of both is to be kept. */
export default async function ChangePage({ params, searchParams }: PageProps) {
  const [{ actor }, { id }, asked] = await Promise.all([requireManager(), params, searchParams]);
  const context = await changeContext(actor, id, one(asked.draft) ?? "");
  if (!context) return <main className={styles.page}><h1>{table.caption}</h1><p>{words.gone}</p><p><a href="/manage">{words.goneLink}</a></p></main>;
  const { draft, site, park, stays } = context;
  const units = unitsOf(asked, park.units), label = (site?.record ?? draft.record)?.label ?? id;
  const addressIn = (system: Units, more = "") => `${hereOf(id)}/change?draft=${draft.id}${system === park.units ? "" : `&units=${system}`}${more}`;
  return (
    <main className={styles.page}>
      <nav className={styles.ways}>
        {site && <a href={hereOf(id)}>{words.back(label)}</a>}
        {draft.record !== null && <a href={`${hereOf(id)}/edit?draft=${draft.id}`}>{words.edit}</a>}
      </nav>
      <h1>{draft.record === null ? words.retireTitle(label) : site ? words.title(label) : words.newTitle(label)}</h1>
      <p className={styles.lead}>{draft.record === null ? words.retireLead : words.lead}</p>
      <p className={styles.who}>{words.cause(draft.cause, draft.by, accounts.moment(new Date(draft.at), stays.settings.zone))}</p>
      <UnitsLinks units={units} names={pages.units} hrefOf={(system) => addressIn(system)} />
      {one(asked.more) !== undefined && <p className={styles.warning} role="alert">{words.cameIn}</p>}
      {one(asked.overtaken) !== undefined && <p className={styles.warning} role="alert">{words.wentStale}</p>}
      {context.faults.length > 0 ? <Faults context={context} /> : context.stale ? <StalePart context={context} units={units} unchosen={one(asked.choose) !== undefined} /> : <Preview context={context} units={units} here={addressIn(units)} patient={one(asked.patient) !== undefined} />}
      <Cautions />
    </main>
  );
}

function hereOf(id: string): string {
  return `/manage/sites/${encodeURIComponent(id)}`;
}

function Faults({ context: { faults } }: { readonly context: ChangeContext }) {
  return (
    <section className={styles.stale} role="alert">
      <p>{words.faults(faults.length)}</p>
      <ul>{faults.map(({ path, message }) => <li key={`${path.join(".")} ${message}`}><strong>{path.join(".")}</strong> {message}</li>)}</ul>
    </section>
  );
}

interface PreviewProps {
  readonly context: ChangeContext;
  readonly units: Units;
  readonly here: string;
  readonly patient: boolean;
}

/** What would be other, for whom, and the button that saves it. */
async function Preview({ context, units, here, patient }: PreviewProps) {
  const { draft, site, now, then, park } = context;
  const was = site && !site.retired ? site.record : null;
  const differences = was && draft.record ? compareSites(was, draft.record) : [];
  if (was && draft.record && differences.length === 0) return <><p className={styles.told} role="status">{words.same}</p><SavePart context={context} seen={false} nothing /></>;
  const asked = await effectsAsked(context);
  const weighed = await weighSoon((options) => weighSites(asked, park.policy, options), patient);
  return (
    <>
      {!site && <p className={styles.told}>{words.newSite}</p>}
      {site?.retired && <p className={styles.told}>{words.comesBack}</p>}
      {draft.record === null && <InUse context={context} />}
      {differences.length > 0 && (
        <section className={styles.part} aria-labelledby="what-changes">
          <h2 id="what-changes">{table.caption}</h2>
          <ChangeTable rows={changeRows(differences, now, then, units)} />
        </section>
      )}
      {plansDiffer(differences) && (
        <section className={styles.part} aria-labelledby="plans">
          <h2 id="plans">{plans.title}</h2>
          <PlansBeside before={now} after={then} names={[plans.now, plans.then]} differences={differences} units={units} />
        </section>
      )}
      <section className={styles.part} aria-labelledby="stays" id="found">
        <h2 id="stays">{effectWords.title}</h2>
        {weighed.state === "done" ? <StayEffects effects={weighed.effects} stays={asked.stays} before={now} after={then} units={units} /> : <Open weighed={weighed} context={context} here={here} />}
      </section>
      <SavePart context={context} seen={weighed.state === "done"} />
    </>
  );
}

function Open({ weighed, context: { draft }, here }: { readonly weighed: Exclude<Weighed<unknown>, { state: "done" }>; readonly context: ChangeContext; readonly here: string }) {
  if (weighed.state === "busy") return <div className={styles.warning} role="alert"><p>{working.busy}</p><p><a href={here}>{insight.stopped.again}</a></p></div>;
  const { done, total } = weighed.progress;
  return (
    <div className={styles.working}>
      <p><strong>{effectWords.working}</strong></p>
      {/* Made anew with every answer: where a stay was booked meanwhile, the work goes on. */}
      <Working key={randomUUID()} className={styles.progress} href={`${hereOf(draft.siteId)}/change/progress?draft=${draft.id}`} here={here} done={done} total={total} line={effectWords.done} language={tag} failed={insight.working.failed} again={insight.working.again} />
      {/* Without script nobody follows the progress: the page asks for itself again, and each time more is known. */}
      <noscript><meta httpEquiv="refresh" content={`1;url=${here}&patient=yes`} /></noscript>
    </div>
  );
}
