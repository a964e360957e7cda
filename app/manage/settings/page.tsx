import type { Metadata } from "next";
import { listSettingsChanges, readParkSettings } from "@/lib/store/park-settings";
import { getPark } from "@/lib/store/parks";
import { getRates } from "@/lib/store/rates";
import { catalogueOf } from "@/lib/wording";
import { one, type Params } from "../../components/rig-form/params";
import { unitsOf } from "../../components/rig-form/read";
import { requireManager } from "../../staff-session";
import { Changes } from "./history";
import styles from "./settings.module.css";

const { settings: words, insight } = catalogueOf();

export const metadata: Metadata = { title: words.title };

const mostTold = 30;

/** The ways to the settings, and what was changed of them. */
export default async function SettingsPage({ searchParams }: { readonly searchParams: Promise<Params> }) {
  const { actor } = await requireManager();
  const [params, park] = await Promise.all([searchParams, getPark(actor.park)]);
  if (!park) return <main className={styles.page}><h1>{words.title}</h1><p>{insight.noPark}</p></main>;
  const [{ stays }, entries, rates] = await Promise.all([readParkSettings(actor, park.slug), listSettingsChanges(actor, park.slug, mostTold), getRates(park.slug)]);
  const units = unitsOf(params, park.units);
  return (
    <main className={styles.page}>
      <p className={styles.park}>{park.name}</p>
      <h1>{words.title}</h1>
      <p className={styles.lead}>{words.lead}</p>
      {one(params.saved) && <p className={styles.saved} role="status">{words.saved}</p>}
      <ul className={styles.parts}>
        {(["fit", "stays"] as const).map((part) => <li key={part}><a href={`/manage/settings/${part}`}>{words.parts[part].name}</a><p>{words.parts[part].about}</p></li>)}
      </ul>
      <section aria-labelledby="history">
        <h2 id="history">{words.history.title}</h2>
        {entries.length === 0 ? <p>{words.history.none}</p> : <Changes entries={entries} units={units} zone={stays.zone} currency={rates?.card.currency ?? "USD"} />}
        {entries.length === mostTold && <p className={styles.note}>{words.history.earlier(mostTold)}</p>}
      </section>
    </main>
  );
}
