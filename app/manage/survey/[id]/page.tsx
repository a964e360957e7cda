import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { one, type Params } from "../../../components/rig-form/params";
import { unitsOf } from "../../../components/rig-form/read";
import { requireManager } from "../../../staff-session";
import { soundSite } from "@/lib/survey";
import { getPark } from "@/lib/store/parks";
import { getSiteAt } from "@/lib/store/site-changes";
import { getSurveyDraft } from "@/lib/store/survey-drafts";
import { surveyWalk as words } from "@/lib/wording/en/survey-walk";
import { initialsOf } from "../../initials";
import { SurveyWalk } from "./survey-walk";
import styles from "./walk.module.css";

interface PageProps {
  readonly params: Promise<{ id: string }>;
  readonly searchParams: Promise<Params>;
}

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  const { actor } = await requireManager();
  const { id } = await params;
  return { title: words.siteTitle((await getSiteAt(actor, id))?.record.label ?? id) };
}

/** A site measured on a phone: from its record, or from where the survey of it stands. */
export default async function SurveySitePage({ params, searchParams }: PageProps) {
  const [{ actor, name }, { id }, asked] = await Promise.all([requireManager(), params, searchParams]);
  const [park, site, draft] = await Promise.all([getPark(actor.park), getSiteAt(actor, id), getSurveyDraft(actor, id)]);
  const record = draft?.record ?? site?.record;
  if (!park || !site || site.retired || !record || !soundSite(record)) notFound();
  const label = record.label ?? id;
  return (
    <main className={styles.main}>
      <p><Link href="/manage/survey" prefetch={false}>{words.back}</Link></p>
      <h1>{words.siteTitle(label)}</h1>
      <p className={styles.safety}>{words.safety}</p>
      {draft && one(asked.fresh) === undefined && <p>{words.begun}</p>}
      <noscript><p>{words.needsScript} <a href={`/manage/survey/sheet?site=${encodeURIComponent(id)}`}>{words.sheets}</a></p></noscript>
      <SurveyWalk account={actor.account} by={initialsOf(name)} siteId={id} label={label} record={record} draft={draft?.id ?? null} units={unitsOf(asked, park.units)} />
    </main>
  );
}
