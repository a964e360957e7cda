import type { Metadata } from "next";
import { one, type Params } from "../../components/rig-form/params";
import { requireDesk } from "../../staff-session";
import { FindForm } from "./find-form";
import { getStayContext } from "@/lib/store/park-settings";
import { getPark } from "@/lib/store/parks";
import { listSites } from "@/lib/store/sites";
import { findStays } from "@/lib/store/stays-today";
import { catalogueOf } from "@/lib/wording";
import { formatLength } from "@/lib/wording/lengths";
import styles from "../today.module.css";

const { deskStays: { find: words, stay: stayPage }, stays: stayWords, things } = catalogueOf();

export const metadata: Metadata = { title: words.title };

/** A stay by what somebody at the window or on the phone says. */
export default async function FindPage({ searchParams }: { readonly searchParams: Promise<Params> }) {
  const { actor } = await requireDesk();
  const text = (one((await searchParams).q) ?? "").slice(0, 80);
  const [park, context, sites] = await Promise.all([getPark(actor.park), getStayContext(actor.park), listSites(actor.park)]);
  const labels = new Map(sites.map(({ id, label }) => [id, label ?? id]));
  const found = park && context ? await findStays(actor, actor.park, text, context.today) : [];
  return (
    <main className={styles.page}>
      <h1>{words.title}</h1>
      <FindForm text={text} />
      <p role="status">{text.trim() === "" ? "" : found.length === 0 ? words.none(text) : words.found(found.length)}</p>
      <ul className={styles.rows}>
        {found.map((stay) => (
          <li key={stay.id} className={styles.row}>
            <div className={styles.who}><a href={`/desk/stays/${stay.id}`}>{stay.guest ?? stayPage.nameless}</a> <span className={styles.reference}>{stay.reference}</span>{stay.plate && <span className={styles.plate}>{stay.plate}</span>}</div>
            <div className={styles.where}><strong>{stay.site === null ? "" : (labels.get(stay.site) ?? stay.site)}</strong></div>
            <div className={styles.what}>{things.rigKinds[stay.rigKind as keyof typeof things.rigKinds] ?? stay.rigKind} {formatLength(stay.rigLength, park!.units, "nearest")}</div>
            <div className={styles.when}>{stayWords.span(stay.nights)}</div>
            <div className={styles.marks}>{stayWords.states[stay.state]}</div>
          </li>
        ))}
      </ul>
    </main>
  );
}
