import type { Metadata } from "next";
import { readParkSettings } from "@/lib/store/park-settings";
import { getPark } from "@/lib/store/parks";
import { catalogueOf } from "@/lib/wording";
import { one, type Params } from "../../../components/rig-form/params";
import { requireManager } from "../../../staff-session";
import { staysAction } from "./actions";
import { draftOf } from "./draft";
import { unitsOfDraft } from "./draft-context";
import { layoutOf } from "./layout-of";
import { StaysForm } from "./stays-form";
import type { StaysState } from "./state";
import styles from "../settings.module.css";

const { staySettings: words, settings, insight } = catalogueOf();

export const metadata: Metadata = { title: words.title };

/** Everything a park sets for stays: booking, times, house rules, canceling, and what is lent. */
export default async function StaySettingsPage({ searchParams }: { readonly searchParams: Promise<Params> }) {
  const { actor } = await requireManager();
  const [params, park] = await Promise.all([searchParams, getPark(actor.park)]);
  if (!park) return <main className={styles.page}><h1>{words.title}</h1><p>{insight.noPark}</p></main>;
  const [{ version, stays }, by] = await Promise.all([readParkSettings(actor, park.slug), unitsOfDraft(park.slug, one(params.units) ?? "")]);
  const first: StaysState = { round: 0, draft: draftOf(stays, by), faults: {}, faulty: null, base: JSON.stringify(stays), version, preview: null, stale: null, note: null };
  return (
    <main className={styles.page}>
      <p className={styles.park}><a href="/manage/settings">{settings.back}</a> · {park.name}</p>
      <h1>{words.title}</h1>
      <p className={styles.lead}>{words.lead} {words.source}</p>
      <StaysForm action={staysAction} first={first} layout={layoutOf(by)} units={by.units} />
    </main>
  );
}
