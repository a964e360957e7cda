import type { Metadata } from "next";
import { headers } from "next/headers";
import { notFound } from "next/navigation";
import { ArrivalCard } from "../../../../components/arrival-card/arrival-card";
import { wayIn } from "@/lib/jobs/way-in";
import { arrival as words } from "@/lib/wording/en/arrival";
import { linkBase } from "../../../../link-base";
import { readStayOf } from "../read-stay";
import styles from "../../stay.module.css";

export const metadata: Metadata = { title: words.page, robots: { index: false, follow: false }, referrer: "same-origin" };

/** The arrival card of a guest's stay, behind their private link. */
export default async function StayCardPage({ params }: { readonly params: Promise<{ token: string }> }) {
  const { token } = await params;
  const data = await readStayOf(token);
  if (!data?.site || !data.result?.pose || data.stay.state === "cancelled") notFound();
  const way = await wayIn({ site: data.site, rig: data.stay.rig, pose: data.result.pose, policy: data.park.policy });
  const path = `/stay/${token}/card`;
  return (
    <main>
      <p className={styles.up}><a href={`/stay/${token}`}>{words.back}</a></p>
      <ArrivalCard site={data.site} rig={data.stay.rig} result={data.result} way={way} units={data.park.units} lends={data.context.settings.lends} park={data.park.name} address={`${linkBase(await headers())}${path}`} pdf={`${path}.pdf?`} keptIn="/stay/" />
    </main>
  );
}
