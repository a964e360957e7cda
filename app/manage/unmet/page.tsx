import type { Metadata } from "next";
import { addDays } from "@/lib/stays";
import { getStayContext } from "@/lib/store/park-settings";
import { getPark } from "@/lib/store/parks";
import { listSites } from "@/lib/store/sites";
import { listUnmet, listUnmetReasons } from "@/lib/store/unmet";
import { catalogueOf } from "@/lib/wording";
import { one, type Params } from "../../components/rig-form/params";
import { requireManager } from "../../staff-session";
import { addressOf, page, periods, readChoice, whiches, type UnmetChoice } from "./choice";
import { Counts } from "./counts";
import { UnmetRow } from "./unmet-row";
import { tallyUnmet, type UnmetTally } from "./tally-unmet";
import styles from "./unmet.module.css";

const { manageUnmet: words } = catalogueOf();

export const metadata: Metadata = { title: words.title, robots: { index: false } };

/** Counted at most. */
const mostCounted = 20_000;

/** What was looked for in vain: counted by what stood in the way, and one by one. */
export default async function UnmetPage({ searchParams }: { readonly searchParams: Promise<Params> }) {
  const { actor } = await requireManager();
  const asked = await searchParams;
  const choice = readChoice(asked), said = one(asked.said);
  const [park, context, sites] = await Promise.all([getPark(actor.park), getStayContext(actor.park), listSites(actor.park)]);
  if (!park || !context) return null;
  const since = addDays(context.today, 1 - choice.days);
  const [reasons, listed] = await Promise.all([
    listUnmetReasons(actor, actor.park, since, mostCounted),
    listUnmet(actor, actor.park, { since, most: choice.most + 1, ...(choice.which === "all" ? {} : { withWord: true }), ...(choice.which === "open" ? { open: true } : {}) }),
  ]);
  const tally = tallyUnmet(reasons, sites);
  return (
    <main className={styles.main}>
      <p className={styles.park}>{park.name}</p>
      <h1>{words.title}</h1>
      <p className={styles.lead}>{words.lead}</p>
      {(said === "answered" || said === "gone") && <p role="status" className={styles.said}>{words.said[said]}</p>}
      <Filter choice={choice} />
      <Summary tally={tally} />
      {tally.shares.length > 0 && <Counts tally={tally} />}
      <section className={styles.part} aria-labelledby="list">
        <h2 id="list">{words.list.title}</h2>
        {listed.length === 0 ? <p>{words.list.none}</p> : <ul className={styles.rows}>{listed.slice(0, choice.most).map((unmet) => <UnmetRow key={unmet.id} unmet={unmet} sites={sites} units={park.units} zone={context.settings.zone} choice={choice} />)}</ul>}
        {listed.length > choice.most && <p><a href={`${addressOf({ ...choice, most: choice.most + page })}#list`} className={styles.more}>{words.list.more}</a></p>}
      </section>
    </main>
  );
}

function Filter({ choice }: { readonly choice: UnmetChoice }) {
  const { filter } = words;
  return (
    <form action="/manage/unmet" className={styles.filter}>
      <label>{filter.period}<select name="days" defaultValue={choice.days}>{periods.map((days) => <option key={days} value={days}>{filter.days(days)}</option>)}</select></label>
      <label>{filter.which}<select name="which" defaultValue={choice.which}>{whiches.map((which) => <option key={which} value={which}>{filter.whiches[which]}</option>)}</select></label>
      <button type="submit">{filter.go}</button>
    </form>
  );
}

function Summary({ tally: { requests, times, taken } }: { readonly tally: UnmetTally }) {
  const { summary } = words;
  if (requests === 0) return <p className={styles.summary}>{summary.none}</p>;
  return (
    <p className={styles.summary}>
      <strong>{summary.line(requests, times)}</strong> {taken > 0 && summary.taken(taken)} {requests > taken && summary.unfit(requests - taken)} {requests >= mostCounted && summary.most(mostCounted)}
    </p>
  );
}
