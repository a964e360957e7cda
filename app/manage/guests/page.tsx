import type { Metadata } from "next";
import { findGuests, type GuestRecord } from "@/lib/store/guests-data";
import { getPark } from "@/lib/store/parks";
import { catalogueOf } from "@/lib/wording";
import { one, type Params } from "../../components/rig-form/params";
import { requireManager } from "../../staff-session";
import { chosenOf, countOf } from "./chosen";
import styles from "./guests.module.css";

const { manageGuests: { title, lead, find: words }, stays: stayWords } = catalogueOf();

export const metadata: Metadata = { title, robots: { index: false } };

/** Records are read up to so many. */
const most = 200;

/** Who the park keeps something of, by what they say of themselves. */
export default async function GuestsPage({ searchParams }: { readonly searchParams: Promise<Params> }) {
  const { actor } = await requireManager();
  const asked = await searchParams;
  const text = one(asked.q) ?? "";
  const [park, guests] = await Promise.all([getPark(actor.park), findGuests(actor, actor.park, text, most)]);
  const records = guests.flat().length;
  return (
    <main className={styles.main}>
      <p className={styles.park}>{park?.name}</p>
      <h1>{title}</h1>
      <p className={styles.lead}>{lead}</p>
      {asked.erased !== undefined && <p role="status" className={styles.said}>{saidErased(asked)}</p>}
      <form action="/manage/guests" role="search" className={styles.find}>
        <label>{words.field}<input type="search" name="q" defaultValue={text} maxLength={80} autoComplete="off" /></label>
        <button type="submit">{words.go}</button>
      </form>
      {text.trim() !== "" && <p role="status">{guests.length === 0 ? words.none(text) : words.found(guests.length, records)}{records >= most && ` ${words.most}`}</p>}
      {guests.length > 0 && <ul className={styles.rows}>{guests.map((theirs) => <GuestRow key={theirs[0]!.id} records={theirs} />)}</ul>}
    </main>
  );
}

function GuestRow({ records }: { readonly records: readonly GuestRecord[] }) {
  const latest = records[0]!;
  const ways = [...new Set(records.flatMap(({ email, phone, plate }) => [email, phone, plate]))].filter((way) => way !== null && way !== "");
  return (
    <li>
      <p><a href={`/manage/guests/${latest.id}`} className={styles.name}>{latest.name}</a></p>
      <p className={styles.ways}>{ways.length === 0 ? words.noContact : ways.map((way) => <span key={way}>{way}</span>)}</p>
      <p>{words.holds(countOf(chosenOf(records)))}, {words.last(stayWords.span(latest.nights))}</p>
    </li>
  );
}

function saidErased({ erased, requests }: Params): string {
  const of = { stays: Number(one(erased)) || 0, unmet: Number(one(requests)) || 0 };
  return of.stays + of.unmet > 0 ? words.erased(of) : words.nothingErased;
}
