import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { one, type Params } from "../../../components/rig-form/params";
import { catalogueOf } from "@/lib/wording";
import styles from "../stay.module.css";
import { Cancelled, Cancelling } from "./cancelling";
import { Gone } from "./gone";
import { Held } from "./held";
import { Kept } from "./kept";
import { readStayOf, type GuestStay } from "./read-stay";

const { guestStay: words } = catalogueOf();

// The address is the secret: no other host learns it as where somebody came from. Ours must, or forms are refused without script.
export const metadata: Metadata = { title: words.stay.page, robots: { index: false, follow: false }, referrer: "same-origin" };

interface PageProps {
  readonly params: Promise<{ token: string }>;
  readonly searchParams: Promise<Params>;
}

/** A guest's own stay, behind their private link. */
export default async function GuestStayPage({ params, searchParams }: PageProps) {
  const [{ token }, query] = await Promise.all([params, searchParams]);
  const data = await readStayOf(token);
  if (!data) notFound();
  const { stay, park, label } = data;
  return (
    <main className={styles.main}>
      <p className={styles.park}>{park.name}</p>
      <h1>{words.stay.stateTitles[stay.state]}</h1>
      {stay.guest && <p className={styles.lead}>{words.stay.stateLines[stay.state]}</p>}
      <dl className={styles.facts}>
        <div><dt>{words.stay.site}</dt><dd>{label ?? words.stay.anySite}{label === null && <span>{words.any.wanted(stay.wanted.loop, stay.wanted.services)}</span>}</dd></div>
        <div><dt>{words.stay.when}</dt><dd>{words.stay.nights(stay.nights)}</dd></div>
        <div><dt>{words.stay.reference}</dt><dd className={styles.reference}>{stay.reference}</dd></div>
      </dl>
      {one(query.changed) !== undefined && <p className={styles.said} role="status">{words.change.done}</p>}
      <Body data={data} token={token} cancelling={one(query.cancel) !== undefined} />
    </main>
  );
}

function Body({ data, token, cancelling }: { readonly data: GuestStay; readonly token: string; readonly cancelling: boolean }) {
  const { stay, mayCancel } = data;
  if (stay.state === "held") return <Held data={data} token={token} />;
  if (cancelling && mayCancel) return <Cancelling data={data} token={token} />;
  if (stay.state === "cancelled") return stay.guest ? <Cancelled data={data} /> : <Gone data={data} />;
  return <Kept data={data} token={token} />;
}
