import type { Metadata } from "next";
import { notFound } from "next/navigation";
import type { Units } from "@/lib/measure";
import { compareSites } from "@/lib/park";
import { getStayContext } from "@/lib/store/park-settings";
import { getPark } from "@/lib/store/parks";
import { getSiteAt, listRevisions, type Revision } from "@/lib/store/site-changes";
import { catalogueOf, changeRows } from "@/lib/wording";
import { one, type Params } from "../../../../components/rig-form/params";
import { unitsOf } from "../../../../components/rig-form/read";
import { UnitsLinks } from "../../../../components/staff-nav/units-links";
import { requireManager } from "../../../../staff-session";
import { ChangeTable } from "../change/change-table";
import { readSite } from "../change/context";
import { PlansBeside, plansDiffer } from "../change/plans-beside";
import { lookAtRestoring, lookAtRetiring } from "./actions";
import { Saving } from "./saving";
import styles from "../change/change.module.css";

const { siteChanges: { history: words, change, plans }, pages } = catalogueOf();

interface PageProps {
  readonly params: Promise<{ id: string }>;
  readonly searchParams: Promise<Params>;
}

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  const [{ actor }, { id }] = await Promise.all([requireManager(), params]);
  return { title: words.title((await getSiteAt(actor, id))?.record.label ?? id) };
}

/** So many revisions are shown: a site changed every week has them after four years. */
const mostShown = 200;

/** Every record of a site: who, when, why and what; two of them compared; an earlier one to be restored, once it was seen what that would change. */
export default async function HistoryPage({ params, searchParams }: PageProps) {
  const [{ actor }, { id }, asked] = await Promise.all([requireManager(), params, searchParams]);
  const [park, context, site, revisions] = await Promise.all([getPark(actor.park), getStayContext(actor.park), getSiteAt(actor, id), listRevisions(actor, id, mostShown)]);
  if (!park || !context || !site) notFound();
  const units = unitsOf(asked, park.units), here = `/manage/sites/${encodeURIComponent(id)}`, label = site.record.label ?? id;
  const compared = comparedOf(asked, revisions), saved = Number(one(asked.saved));
  return (
    <main className={styles.page}>
      <nav className={styles.ways}>{site.retired ? <a href="/manage">{change.goneLink}</a> : <><a href={here}>{change.back(label)}</a><a href={`${here}/edit`}>{words.edit}</a></>}</nav>
      <h1>{words.title(label)}</h1>
      <p className={styles.lead}>{words.lead}</p>
      {Number.isInteger(saved) && saved > 0 && <p className={styles.saved} role="status">{words.saved(saved)}</p>}
      {one(asked.dropped) !== undefined && <p className={styles.saved} role="status">{change.dropped}</p>}
      {site.retired && <p className={styles.warning}>{words.retired}</p>}
      <UnitsLinks units={units} names={pages.units} hrefOf={(system) => `${here}/history?${new URLSearchParams([...(compared ? [["from", String(compared[0].number)], ["to", String(compared[1].number)]] : []), ["units", system]])}`} />
      {revisions.length > 1 && <Pick revisions={revisions} compared={compared} units={units} keep={units !== park.units} />}
      {compared && <Compared pair={compared} units={units} />}
      <h2 className={styles.list}>{words.list}</h2>
      <ol className={styles.log} reversed>
        {revisions.map((revision, i) => (
          <li key={revision.number}>
            <Saving revision={revision} before={revisions[i + 1] ?? null} units={units} zone={context.settings.zone} />
            {revision.number !== site.version && revision.record && <Restore siteId={id} number={revision.number} base={site.version} />}
          </li>
        ))}
      </ol>
      {revisions.length === mostShown && <p className={styles.note}>{words.oldest(mostShown)}</p>}
      {!site.retired && <Retire siteId={id} base={site.version} />}
    </main>
  );
}

type Pair = readonly [older: Revision, newer: Revision];

/** The two that the address names, the older first. */
function comparedOf(asked: Params, revisions: readonly Revision[]): Pair | null {
  const find = (name: string) => revisions.find(({ number }) => String(number) === one(asked[name]));
  const [a, b] = [find("from"), find("to")];
  if (!a || !b || a === b) return null;
  return a.number < b.number ? [a, b] : [b, a];
}

function Pick({ revisions, compared, units, keep }: { readonly revisions: readonly Revision[]; readonly compared: Pair | null; readonly units: Units; readonly keep: boolean }) {
  const [older, newer] = compared ?? [revisions[1]!, revisions[0]!];
  const options = revisions.map(({ number }) => <option key={number} value={number}>{words.pick(number)}</option>);
  return (
    <form className={styles.pair} method="get">
      {keep && <input type="hidden" name="units" value={units} />}
      <label>{words.older}<select name="from" defaultValue={older.number} key={`from ${older.number}`}>{options}</select></label>
      <label>{words.newer}<select name="to" defaultValue={newer.number} key={`to ${newer.number}`}>{options}</select></label>
      <button type="submit">{words.compare}</button>
    </form>
  );
}

function Compared({ pair: [older, newer], units }: { readonly pair: Pair; readonly units: Units }) {
  const [before, after] = [older, newer].map(({ record }) => (record ? readSite(record) : null)) as [ReturnType<typeof readSite>, ReturnType<typeof readSite>];
  const differences = older.record && newer.record ? compareSites(older.record, newer.record) : [];
  return (
    <section className={styles.part} aria-labelledby="compared">
      <h2 id="compared">{words.compared(older.number, newer.number)}</h2>
      {older.record && newer.record && differences.length === 0 ? <p>{words.same}</p> : differences.length > 0 && <ChangeTable past rows={changeRows(differences, before, after, units)} />}
      {(!older.record || !newer.record || (differences.length > 0 && plansDiffer(differences))) && <PlansBeside before={before} after={after} names={[plans.revision(older.number), plans.revision(newer.number)]} differences={differences} units={units} />}
    </section>
  );
}

function Restore({ siteId, number, base }: { readonly siteId: string; readonly number: number; readonly base: number }) {
  return (
    <form className={styles.acts} action={lookAtRestoring}>
      <input type="hidden" name="site" value={siteId} /><input type="hidden" name="number" value={number} /><input type="hidden" name="base" value={base} />
      <button type="submit">{words.restore(number)}</button>
    </form>
  );
}

function Retire({ siteId, base }: { readonly siteId: string; readonly base: number }) {
  return (
    <form className={styles.foot} action={lookAtRetiring}>
      <input type="hidden" name="site" value={siteId} /><input type="hidden" name="base" value={base} />
      <button type="submit">{words.retire}</button>
      <p>{words.retireHint}</p>
    </form>
  );
}
