import type { Metadata } from "next";
import { headers } from "next/headers";
import { notFound } from "next/navigation";
import { ArrivalCard } from "../../../../components/arrival-card/arrival-card";
import type { Params } from "../../../../components/rig-form/params";
import { arrival as words } from "@/lib/wording/en/arrival";
import { linkBase } from "../../../../link-base";
import { readCardOf } from "../read-card";
import styles from "../site.module.css";

export const metadata: Metadata = { title: words.page };

interface PageProps {
  readonly params: Promise<{ id: string }>;
  readonly searchParams: Promise<Params>;
}

/** The arrival card of any rig on a site it fits, before anything is booked. */
export default async function SiteCardPage({ params, searchParams }: PageProps) {
  const [{ id }, query] = await Promise.all([params, searchParams]);
  const found = await readCardOf(id, query);
  if (!found) notFound();
  const path = `/sites/${encodeURIComponent(id)}`;
  return (
    <main>
      <p className={styles.up}><a href={`${path}?${found.query}`}>{words.back}</a></p>
      <ArrivalCard {...found.card} address={`${linkBase(await headers())}${path}/card?${found.query}`} pdf={`${path}/card.pdf?${found.query}&`} keptIn="/sites/" />
    </main>
  );
}
