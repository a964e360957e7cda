import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { ArrivalCard } from "../../../../components/arrival-card/arrival-card";
import { requireDesk } from "../../../../staff-session";
import { arrival as words } from "@/lib/wording/en/arrival";
import { readStaffCard } from "../read-card";
import styles from "./card.module.css";

export const metadata: Metadata = { title: words.page, robots: { index: false } };

interface PageProps {
  readonly params: Promise<{ id: string }>;
}

/** The arrival card of a stay, for the desk to print or to read out on the phone. */
export default async function DeskCardPage({ params }: PageProps) {
  const { actor } = await requireDesk(), { id } = await params;
  const card = await readStaffCard(actor, id);
  if (!card) notFound();
  const path = `/desk/stays/${encodeURIComponent(id)}`;
  return (
    <main className={styles.page}>
      <p className={styles.back}><a href={path}>{words.backToStay}</a></p>
      <ArrivalCard {...card} pdf={`${path}/card.pdf?`} note={words.deskNote} />
    </main>
  );
}
