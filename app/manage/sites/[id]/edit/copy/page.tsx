import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { requireManager } from "../../../../../staff-session";
import { getSiteAt } from "@/lib/store/site-changes";
import { siteEditor as words } from "@/lib/wording/en/site-editor";
import { CopyForm } from "./copy-form";
import styles from "../../../../editing/editor.module.css";

interface PageProps {
  readonly params: Promise<{ id: string }>;
}

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  const [{ actor }, { id }] = await Promise.all([requireManager(), params]);
  return { title: words.copy.title((await getSiteAt(actor, id))?.record.label ?? id) };
}

/** A new site from one that is there. */
export default async function CopySitePage({ params }: PageProps) {
  const [{ actor }, { id }] = await Promise.all([requireManager(), params]);
  const site = await getSiteAt(actor, id);
  if (!site) notFound();
  const { record } = site, label = record.label ?? id;
  return (
    <main className={`${styles.main} ${styles.beside}`}>
      <nav className={styles.ways}><a href={`/manage/sites/${encodeURIComponent(id)}`}>{words.back(label)}</a></nav>
      <h1>{words.copy.title(label)}</h1>
      <p className={styles.lead}>{words.copy.lead}</p>
      <CopyForm from={id} start={{ id: "", label: "", loop: record.loop ?? "", mirrored: false, faults: {} }} />
    </main>
  );
}
