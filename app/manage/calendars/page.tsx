import type { Metadata } from "next";
import { listFeeds, type Feed } from "@/lib/store/calendars";
import { listOutsideCalendars, minutesBetween } from "@/lib/store/outside-calendars";
import { getStayContext } from "@/lib/store/park-settings";
import { getPark } from "@/lib/store/parks";
import { listSites } from "@/lib/store/sites";
import { dateIn } from "@/lib/stays";
import { manageCalendars as words } from "@/lib/wording/en/manage-calendars";
import { stays as stayWords } from "@/lib/wording/en/stays";
import { one, type Params } from "../../components/rig-form/params";
import { requireManager } from "../../staff-session";
import { addAction, issueAction, revokeAction } from "./actions";
import { CalendarForm } from "./calendar-form";
import { OutsideList } from "./outside-list";
import styles from "./calendars.module.css";

export const metadata: Metadata = { title: words.title };

/** What others read of the park's nights, and what is read of theirs. */
export default async function CalendarsPage({ searchParams }: { readonly searchParams: Promise<Params> }) {
  const { actor } = await requireManager();
  const context = (await getStayContext(actor.park))!;
  const { settings: { zone }, today } = context;
  const [asked, park, sites, feeds, outside] = await Promise.all([searchParams, getPark(actor.park), listSites(actor.park), listFeeds(actor, actor.park), listOutsideCalendars(actor, actor.park, today)]);
  const labels = new Map(sites.map(({ id, label }) => [id, label ?? id]));
  const choice = { label: words.site, choose: words.chooseSite, options: sites.map(({ id, label, loop }) => ({ id, name: words.siteOption(label ?? id, loop ?? null) })) };
  return (
    <main className={styles.main}>
      <p className={styles.park}>{park?.name}</p>
      <h1>{words.title}</h1>
      <p className={styles.lead}>{words.lead}</p>
      <p className={styles.caution}>{words.caution(minutesBetween)}</p>
      <Said said={one(asked.said)} refused={one(asked.refused)} />
      <section aria-labelledby="outside">
        <h2 id="outside">{words.outside.title}</h2>
        <p className={styles.about}>{words.outside.lead}</p>
        <OutsideList calendars={outside} labels={labels} zone={zone} between={minutesBetween * 60_000} />
        <h3>{words.outside.add}</h3>
        <CalendarForm action={addAction} sites={choice} submit={words.outside.submit} fields={[{ name: "name", type: "text", label: words.outside.nameLabel, hint: words.outside.nameHint }, { name: "url", type: "url", label: words.outside.urlLabel, hint: words.outside.urlHint }]} />
      </section>
      <section aria-labelledby="feeds">
        <h2 id="feeds">{words.feeds.title}</h2>
        <p className={styles.about}>{words.feeds.lead}</p>
        <Feeds feeds={feeds} labels={labels} zone={zone} />
        <h3>{words.feeds.add}</h3>
        <CalendarForm action={issueAction} sites={choice} submit={words.feeds.submit} linkWords={linkWords} fields={[{ name: "name", type: "text", label: words.feeds.nameLabel, hint: words.feeds.nameHint }]} />
      </section>
    </main>
  );
}

function Said({ said, refused }: { readonly said: string | undefined; readonly refused: string | undefined }) {
  if (refused) return <p role="alert" className={styles.refusal}>{words.faults.gone}</p>;
  return said && Object.hasOwn(words.said, said) ? <p role="status" className={styles.said}>{words.said[said as keyof typeof words.said]}</p> : null;
}

function Feeds({ feeds, labels, zone }: { readonly feeds: readonly Feed[]; readonly labels: ReadonlyMap<string, string>; readonly zone: string }) {
  if (feeds.length === 0) return <p className={styles.none}>{words.feeds.none}</p>;
  return (
    <ul className={styles.rows} aria-label={words.feeds.list}>
      {feeds.map(({ id, name, site, since }) => (
        <li key={id}>
          <div className={styles.what}>
            <p><strong>{name}</strong></p>
            <p className={styles.soft}>{words.feeds.since(labels.get(site) ?? site, stayWords.day(dateIn(zone, since)))}</p>
          </div>
          <form action={revokeAction} className={styles.changes}>
            <input type="hidden" name="id" value={id} />
            <button type="submit" className={styles.quiet} aria-label={words.feeds.revokeFor(name)}>{words.feeds.revoke}</button>
          </form>
        </li>
      ))}
    </ul>
  );
}

const { linkTitle, linkOnce, linkLabel, copy, copied } = words.feeds;
const linkWords = { linkTitle, linkOnce, linkLabel, copy, copied };
