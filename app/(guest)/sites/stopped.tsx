import type { RankingStopped } from "@/lib/jobs/fit-pool";
import { catalogueOf } from "@/lib/wording";
import styles from "./sites.module.css";

/** A ranking that was given up, told as what it is: neither a yes nor a no. The address is the same, so trying again is one tap. */
export function Stopped({ why, again }: { readonly why: RankingStopped["why"]; readonly again: string }) {
  const { guestSites: { stopped } } = catalogueOf();
  return (
    <div className={styles.alert} role="alert">
      <h2>{stopped.title}</h2>
      <p>{stopped.why[why]} {stopped.kept}</p>
      <p><a className={styles.action} href={again}>{stopped.again}</a></p>
    </div>
  );
}
