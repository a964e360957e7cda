import { overallLength } from "@/lib/rig";
import { catalogueOf, formatLength, unbroken } from "@/lib/wording";
import styles from "../stay.module.css";
import type { GuestStay } from "./read-stay";

/** What is on record of the rig and who comes, with the way to change it. */
export function Brought({ data: { stay, park, mayEdit }, token }: { readonly data: GuestStay; readonly token: string }) {
  const { guestStay: words, guestRig: { kindLine }, things: { rigKinds } } = catalogueOf();
  const { rig: { kind, party: { adults, children, pets } } } = stay;
  return (
    <>
      <h2>{words.stay.rig}</h2>
      <p>{unbroken(kindLine(rigKinds[kind], formatLength(overallLength(stay.rig), park.units, "nearest")))}<br />{words.hold.partyLine(adults, children, pets)}</p>
      {mayEdit && <p className={styles.way}><a className={styles.button} href={`/stay/${token}/rig`}>{words.stay.rigChange}</a> <span className={styles.small}>{words.stay.rigNote}</span></p>}
    </>
  );
}
