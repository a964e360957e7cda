import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { Cautions } from "../../../components/cautions/cautions";
import { Plan } from "../../../components/plan/plan";
import type { Params } from "../../../components/rig-form/params";
import { UnitsLinks } from "../../../components/staff-nav/units-links";
import { requireDesk } from "../../../staff-session";
import { listOutcomes } from "@/lib/store/stay-notes";
import { catalogueOf } from "@/lib/wording";
import { siteEditor } from "@/lib/wording/en/site-editor";
import { surveyWalk } from "@/lib/wording/en/survey-walk";
import { LongestRigs } from "../../fits/longest-rigs";
import { TurnedAway } from "../../fits/turned-away";
import { rowsFor, staffContext, type Loop } from "../../context";
import { arrange, type SiteRow } from "../../site-rows";
import { readTableState, writeTableState, type TableState } from "../../table-state";
import { Measurements } from "./measurements";
import { TypicalFits } from "./typical-fits";
import styles from "./site.module.css";

interface PageProps {
  readonly params: Promise<{ id: string }>;
  readonly searchParams: Promise<Params>;
}

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  const { id } = await params;
  const found = (await staffContext())?.surveyed.find(({ site }) => site.id === id);
  const { pages, staff } = catalogueOf();
  return { title: found ? staff.site.title(found.site.label ?? found.site.id) : pages.notFound.title };
}

/** One site on record: its plan, every measurement, and which rigs it takes. The address carries the table one came from. */
export default async function ManagedSitePage({ params, searchParams }: PageProps) {
  const [{ id }, asked, context] = await Promise.all([params, searchParams, staffContext()]);
  const found = context?.surveyed.find(({ site }) => site.id === id);
  if (!context || !found) notFound();
  const { pages, staff: { site: words } } = catalogueOf();
  const { rows, units } = rowsFor(context, asked);
  const state = readTableState(asked);
  const { site } = found;
  const row = rows.find((r) => r.id === id)!;
  const keep = units === context.park.units ? "" : `units=${units}`;
  const addressOf = (path: string, more = keep) => [path, [writeTableState(state), more].filter(Boolean).join("&")].filter(Boolean).join("?");
  const path = (siteId: string) => `/manage/sites/${encodeURIComponent(siteId)}`;
  return (
    <main className={styles.main}>
      <Neighbours rows={rows} id={id} state={state} back={addressOf("/manage")} hrefOf={(siteId) => addressOf(path(siteId))} />
      <h1>{words.title(row.label)}</h1>
      <HistoryLink siteId={id} />
      <AboutLoop id={site.loop} entry={row.texts.entry} loop={context.loops.find((loop) => loop.id === site.loop)} />
      <UnitsLinks units={units} names={pages.units} hrefOf={(system) => addressOf(path(id), `units=${system}`)} />
      <div className={styles.columns}>
        <div className={styles.plan}><Plan site={site} units={units} /></div>
        <Measurements site={site} units={units} survey={<Survey row={row} />} />
      </div>
      <TypicalFits site={site} policy={context.park.policy} units={units} />
      <LongestRigs site={site} units={units} />
      <TurnedAway site={site} units={units} />
      <HowItWent siteId={site.id} />
      <Cautions />
    </main>
  );
}

/** Managers alone change sites, and see who did. */
async function HistoryLink({ siteId }: { readonly siteId: string }) {
  const { actor } = await requireDesk();
  const here = `/manage/sites/${encodeURIComponent(siteId)}`;
  return actor.kind === "manager" && <p className={styles.about}><a href={`${here}/edit`}>{siteEditor.editLink}</a> · <a href={here.replace("/manage/sites/", "/manage/survey/")}>{surveyWalk.measureLink}</a> · <a href={`${here}/history`}>{catalogueOf().siteChanges.history.link}</a> · <a href={`${here}/edit/copy`}>{siteEditor.copyLink}</a> · <a href={`${here}/edit/loop`}>{siteEditor.loopLink}</a></p>;
}

/** How stays here went, as the desk heard it when they left. Nothing where nobody said. */
async function HowItWent({ siteId }: { readonly siteId: string }) {
  const { actor } = await requireDesk();
  const told = await listOutcomes(actor, actor.park, siteId);
  if (told.length === 0) return null;
  const { deskStays: { outcome: words }, stays, things } = catalogueOf();
  return (
    <section aria-labelledby="how-it-went">
      <h2 id="how-it-went">{words.heading}</h2>
      <ul>{told.map(({ stay, left, how, note, rigKind }) => <li key={stay}><a href={`/desk/stays/${stay}`}>{stays.day(left)}</a>, {things.rigKinds[rigKind as keyof typeof things.rigKinds] ?? rigKind}: {stays.outcomes[how]}{note && `. ${note}`}</li>)}</ul>
    </section>
  );
}

/** The site before and after in the table as it is filtered and sorted; of all sites where this one is not in it. */
function Neighbours({ rows, id, state, back, hrefOf }: { readonly rows: readonly SiteRow[]; readonly id: string; readonly state: TableState; readonly back: string; readonly hrefOf: (id: string) => string }) {
  const { site: words } = catalogueOf().staff;
  const arranged = arrange(rows, state);
  const among = arranged.some((row) => row.id === id) ? arranged : rows;
  const index = among.findIndex((row) => row.id === id);
  const before = among[index - 1], after = among[index + 1];
  return (
    <nav className={styles.neighbours} aria-label={words.neighbours}>
      <a href={back}>{words.back}</a>
      <span>{words.position(index + 1, among.length)}</span>
      {before && <a href={hrefOf(before.id)} rel="prev">{words.previous(before.label)}</a>}
      {after && <a href={hrefOf(after.id)} rel="next">{words.next(after.label)}</a>}
    </nav>
  );
}

function AboutLoop({ id, entry, loop }: { readonly id: string | undefined; readonly entry: string; readonly loop: Loop | undefined }) {
  const { site: words } = catalogueOf().staff;
  return (
    <p className={styles.about}>
      <strong>{[...(id ? [words.loop(id, loop?.name)] : []), entry].join(" · ")}</strong>
      {loop?.character && <> {loop.character}</>}
    </p>
  );
}

function Survey({ row }: { readonly row: SiteRow }) {
  const { table } = catalogueOf().staff;
  return <p>{row.texts.measured}{row.due && <strong className={styles.due}>{table.measureAgain}</strong>}</p>;
}
