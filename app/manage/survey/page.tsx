import type { Metadata } from "next";
import Link from "next/link";
import { requireManager } from "../../staff-session";
import type { Site } from "@/lib/park";
import { listSites } from "@/lib/store/sites";
import { getPark } from "@/lib/store/parks";
import { listSurveyDrafts } from "@/lib/store/survey-drafts";
import { dueOn, progressOf, progressOfLoop, type Due } from "@/lib/survey";
import { surveyWalk as words } from "@/lib/wording/en/survey-walk";
import { dateOf } from "../age";
import { nameOf } from "./[id]/naming";
import { ProgressBar } from "./progress-bar";
import styles from "./survey.module.css";

export const metadata: Metadata = { title: words.title };

/** So many things that are due are listed at once. */
const MOST_DUE = 30;

/** How far the survey of every loop has come, and what is due to be looked at again. */
export default async function SurveyPage() {
  const { actor } = await requireManager();
  const [park, sites, drafts] = await Promise.all([getPark(actor.park), listSites(actor.park), listSurveyDrafts(actor)]);
  const loops = [...new Set(sites.map(({ loop }) => loop ?? null))];
  const soon = new Date();
  soon.setDate(soon.getDate() + AHEAD);
  return (
    <main className={styles.main}>
      <p className={styles.park}>{park?.name}</p>
      <h1>{words.title}</h1>
      <p className={styles.lead}>{words.lead} <Link href="/manage/survey/sheet" prefetch={false}>{words.sheets}</Link></p>
      <DueList due={dueOn(sites, dateOf(soon))} sites={sites} today={dateOf(new Date())} />
      <Overview loops={loops} sites={sites} />
      {loops.map((loop) => <Loop key={loop} loop={loop} sites={sites.filter((site) => (site.loop ?? null) === loop)} drafts={drafts} />)}
    </main>
  );
}

/** What falls due within so many days is listed too. */
const AHEAD = 30;

function Overview({ loops, sites }: { readonly loops: readonly (string | null)[]; readonly sites: readonly Site[] }) {
  return (
    <section aria-labelledby="overview">
      <h2 id="overview">{words.overview.title}</h2>
      <p>{words.overview.key}</p>
      <dl className={styles.overview}>
        {loops.map((loop) => {
          const counts = progressOfLoop(sites.filter((site) => (site.loop ?? null) === loop)), name = words.loop(loop);
          return (
            <div key={loop}>
              <dt><a href={`#loop-${loop}`}>{name}</a></dt>
              <dd><ProgressBar counts={counts} name={name} /><span>{words.overview.counts(counts.measured, counts.measured + counts.guessed + counts.missing, counts.missing)}</span></dd>
            </div>
          );
        })}
      </dl>
    </section>
  );
}

function Loop({ loop, sites, drafts }: { readonly loop: string | null; readonly sites: readonly Site[]; readonly drafts: ReadonlyMap<string, string> }) {
  const all = progressOfLoop(sites), total = all.measured + all.guessed + all.missing;
  return (
    <section aria-labelledby={`loop-${loop}`}>
      <h2 id={`loop-${loop}`}>{words.loop(loop)}</h2>
      <div className={styles.scroll}>
        <table className={styles.table}>
          <thead><tr><th scope="col">{words.columns.site}</th><th scope="col">{words.columns.measured}</th><th scope="col">{words.columns.guessed}</th><th scope="col">{words.columns.missing}</th><th scope="col">{words.columns.open}</th></tr></thead>
          <tbody>
            {sites.map((site) => {
              const { counts } = progressOf(site), draft = drafts.get(site.id);
              return (
                <tr key={site.id}>
                  <th scope="row"><a href={`/manage/survey/${encodeURIComponent(site.id)}`}>{site.label ?? site.id}</a></th>
                  <td>{counts.measured}</td><td>{counts.guessed}</td><td>{counts.missing}</td>
                  <td>{draft && <a href={`/manage/sites/${encodeURIComponent(site.id)}/change?draft=${draft}`}>{words.openSurvey}</a>}</td>
                </tr>
              );
            })}
          </tbody>
          <tfoot><tr><th scope="row">{words.loop(loop)}</th><td>{all.measured} / {total}</td><td>{all.guessed}</td><td>{all.missing}</td><td /></tr></tfoot>
        </table>
      </div>
    </section>
  );
}

function DueList({ due, sites, today }: { readonly due: readonly Due[]; readonly sites: readonly Site[]; readonly today: string }) {
  const siteOf = new Map(sites.map((site) => [site.id, site]));
  return (
    <section aria-labelledby="due">
      <h2 id="due">{words.due.title}</h2>
      <p>{words.due.lead}</p>
      {due.length === 0 ? <p>{words.due.none}</p> : (
        <ul className={styles.due}>
          {due.slice(0, MOST_DUE).map(({ site, measurement, by }) => {
            const at = siteOf.get(site)!;
            return <li key={`${site} ${measurement.id}`}><a href={`/manage/survey/${encodeURIComponent(site)}`}>{at.label ?? site}</a> {nameOf(measurement.of, at)}, {words.due.line(by, by < today)}</li>;
          })}
          {due.length > MOST_DUE && <li>{words.due.more(due.length - MOST_DUE)}</li>}
        </ul>
      )}
    </section>
  );
}
