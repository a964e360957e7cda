import type { Metadata } from "next";
import { LivePage } from "../components/live/live-page";
import { one, type Params } from "../components/rig-form/params";
import { requireDesk } from "../staff-session";
import { ChangedSites } from "./changed-sites";
import { DayRow } from "./day-row";
import { FindForm } from "./find/find-form";
import { dayLists, listsOf, readDate, type DayList } from "@/lib/stays";
import { getStayContext } from "@/lib/store/park-settings";
import { getPark } from "@/lib/store/parks";
import { listOpenEffects } from "@/lib/store/site-effects";
import { listSites } from "@/lib/store/sites";
import { listToday, type TodayStay } from "@/lib/store/stays-today";
import { catalogueOf } from "@/lib/wording";
import styles from "./today.module.css";

const { deskStays: { today: words }, stays: stayWords, staff: { table }, siteChanges: { desk: { more } } } = catalogueOf();

export const metadata: Metadata = { title: words.title };

/** Lists that are left out while they are empty: nobody looks for them. */
const quiet: readonly DayList[] = ["unassigned", "requests", "holds"];

/** So many of a list are shown: a whole season's stays may be read in at once and wait for their sites. */
const MOST_ROWS = 200;

/** Who comes, who is late, who goes, and what waits for somebody: the desk's first page. */
export default async function TodayPage({ searchParams }: { readonly searchParams: Promise<Params> }) {
  const { actor } = await requireDesk();
  const params = await searchParams;
  const [park, context] = await Promise.all([getPark(actor.park), getStayContext(actor.park)]);
  if (!park || !context) return <main className={styles.page}><h1>{words.title}</h1><p>{table.noPark}</p></main>;
  const day = readDate(one(params.day) ?? "") ?? context.today;
  const [stays, sites, changed] = await Promise.all([listToday(actor, actor.park, day), listSites(actor.park), listOpenEffects(actor, actor.park)]);
  const labels = new Map(sites.map(({ id, label }) => [id, label ?? id]));
  const lists = new Map<DayList, TodayStay[]>(dayLists.map((name) => [name, stays.filter((stay) => listsOf(stay, day, context.today).includes(name))]));
  const counts = dayLists.map((name) => [name, lists.get(name)!.length] as const);
  const time = new Date(context.now).toLocaleTimeString("en-US", { hour: "numeric", minute: "2-digit", timeZone: context.settings.zone });
  return (
    <main className={styles.page}>
      <div className={styles.head}>
        <h1>{day === context.today ? words.title : stayWords.longDay(day)}</h1>
        <p className={styles.lead}>{day === context.today && <>{stayWords.longDay(day)}. </>}<strong>{counts.some(([, many]) => many > 0) ? words.summary(counts) : words.quiet}</strong> <span className={styles.read}>{words.readAt(time)}</span></p>
      </div>
      <div className={styles.tools}>
        <FindForm text="" />
        <form action="/desk" className={styles.day}><label>{words.other}<input type="date" name="day" defaultValue={day} /></label><button type="submit">{words.show}</button></form>
      </div>
      <LivePage>
        <ChangedSites effects={changed} park={park} zone={context.settings.zone} />
        {dayLists.filter((name) => lists.get(name)!.length > 0 || !quiet.includes(name)).map((name) => (
          <section key={name} className={styles.list} aria-labelledby={name}>
            <h2 id={name}>{words.lists[name]} <span className={styles.count}>{lists.get(name)!.length || ""}</span></h2>
            {lists.get(name)!.length === 0 ? <p className={styles.nobody}>{words.nobody[name]}</p> : (
              <ul className={styles.rows}>{lists.get(name)!.slice(0, MOST_ROWS).map((stay) => <DayRow key={stay.id} stay={stay} list={name} day={day} today={context.today} label={stay.site === null ? null : labels.get(stay.site) ?? stay.site} units={park.units} />)}</ul>
            )}
            {lists.get(name)!.length > MOST_ROWS && <p className={styles.nobody}>{more(lists.get(name)!.length - MOST_ROWS)}</p>}
          </section>
        ))}
      </LivePage>
    </main>
  );
}
