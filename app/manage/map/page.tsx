import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { getPark } from "@/lib/store/parks";
import { listSitesAt } from "@/lib/store/site-changes";
import { mapEditor as words } from "@/lib/wording/en/map-editor";
import { readParkRecord } from "../../components/park-map/record";
import { one, type Params } from "../../components/rig-form/params";
import { unitsOf } from "../../components/rig-form/read";
import { requireManager } from "../../staff-session";
import { MapEditor } from "./map-editor";
import styles from "../editing/editor.module.css";

export const metadata: Metadata = { title: words.title };

/** Every site's place on the park's map, to be changed. */
export default async function MapPage({ searchParams }: { readonly searchParams: Promise<Params> }) {
  const [{ actor }, asked] = await Promise.all([requireManager(), searchParams]);
  const [park, all] = await Promise.all([getPark(actor.park), listSitesAt(actor)]);
  if (!park) notFound();
  const sites = [...all].filter(([, { retired }]) => !retired).map(([id, { record, version }]) => ({ id, label: record.label ?? id, loop: record.loop ?? null, version, pad: record.pad.outline, place: record.place ?? null }));
  const asks = one(asked.site);
  return (
    <main className={styles.main}>
      <nav className={styles.ways}><a href="/manage">{words.back}</a></nav>
      <h1>{words.title}</h1>
      <p className={styles.lead}>{words.lead}</p>
      <noscript><p className={styles.note}>{words.needsScript}</p></noscript>
      <MapEditor sites={sites} record={readParkRecord(park.record)} units={unitsOf(asked, park.units)} selected={sites.find(({ id }) => id === asks)?.id ?? null} keptAs={`map-editor ${park.slug}`} />
    </main>
  );
}
