import type { RigForm } from "../../components/rig-form/read";
import { overallLength } from "@/lib/rig";
import { catalogueOf, numbersFor, unbroken } from "@/lib/wording";
import styles from "./sites.module.css";

/** The rig that the answer is about, in one line, with the way to change it. */
export function RigLine({ form: { rig, units, start, query } }: { readonly form: RigForm }) {
  const { guestSites } = catalogueOf();
  const n = numbersFor(units);
  return (
    <p className={styles.rig}>
      <b>{start.name}</b>
      {rig && <span className={styles.size}>{unbroken(guestSites.size(n.measured(overallLength(rig)), n.measured(rig.body.width), n.measured(rig.body.height)))}</span>}
      <a href={`/rig?${query}&units=${units}`}>{guestSites.change}</a>
    </p>
  );
}
