import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { unitsOf } from "../../../../components/rig-form/read";
import { one, type Params } from "../../../../components/rig-form/params";
import { requireManager } from "../../../../staff-session";
import { siteSchema } from "@/lib/park";
import { getPark } from "@/lib/store/parks";
import { getSiteAt } from "@/lib/store/site-changes";
import { getDraft } from "@/lib/store/site-drafts";
import { siteEditor as words } from "@/lib/wording/en/site-editor";
import { SiteEditor } from "./site-editor";
import styles from "../../../editing/editor.module.css";

interface PageProps {
  readonly params: Promise<{ id: string }>;
  readonly searchParams: Promise<Params>;
}

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  const { actor } = await requireManager();
  const { id } = await params;
  return { title: words.title((await getSiteAt(actor, id))?.record.label ?? id) };
}

/** A site's plan and numbers, to be changed. With `draft`, what somebody has changed already and wants to go on with. */
export default async function EditSitePage({ params, searchParams }: PageProps) {
  const [{ actor }, { id }, asked] = await Promise.all([requireManager(), params, searchParams]);
  const draftId = one(asked.draft);
  const [park, site, draft] = await Promise.all([getPark(actor.park), getSiteAt(actor, id), draftId ? getDraft(actor, draftId) : null]);
  const going = draft?.siteId === id && draft.record !== null ? draft : null;
  const record = going?.record ?? site?.record;
  if (!park || !record || !siteSchema.safeParse(record).success) notFound();
  const label = record.label ?? id, here = `/manage/sites/${encodeURIComponent(id)}`;
  return (
    <main className={styles.main}>
      <nav className={styles.ways}>
        {site && <><a href={here}>{words.back(label)}</a><a href={`${here}/history`}>{words.historyLink}</a><a href={`${here}/edit/copy`}>{words.copyLink}</a><a href={`${here}/edit/loop`}>{words.loopLink}</a><a href={`/manage/map?site=${encodeURIComponent(id)}`}>{words.mapLink}</a></>}
      </nav>
      <h1>{site ? words.title(label) : words.newTitle(label)}</h1>
      <p className={styles.lead}>{words.lead}</p>
      {site?.retired && <p className={styles.note}>{words.retired}</p>}
      <noscript><p className={styles.note}>{words.needsScript}</p></noscript>
      <SiteEditor key={going?.id ?? "site"} siteId={id} label={label} record={record} base={going ? going.base : site?.retired ? null : (site?.version ?? null)} units={unitsOf(asked, park.units)} proposed={going !== null} keptAs={`site-editor ${park.slug} ${id}`} />
    </main>
  );
}
