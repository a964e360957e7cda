import Link from "next/link";
import { TakenMark, VerdictMark } from "../../components/verdict/mark";
import { findNearestNights } from "@/lib/jobs/stay-fit";
import { catalogueOf } from "@/lib/wording";
import type { Asked } from "../context";
import type { Offers } from "../offers";
import { siteAddress, withNights, type Standpoint } from "./address";
import type { Entry } from "./filters";
import styles from "./nights.module.css";

interface TakenListProps {
  readonly asked: Asked;
  readonly offers: Offers;
  /** Best first. */
  readonly entries: readonly Entry[];
  readonly standpoint: Standpoint;
}

/** What would do and is taken, folded away: each with the nearest nights at which it is free. */
export async function TakenList({ asked: { park, stays }, offers: { nights }, entries, standpoint }: TakenListProps) {
  const { guestStay: { sites: words }, guestSites: { seePlanOf }, verdicts } = catalogueOf();
  const near = new Map((await findNearestNights(park, nights, entries.map(({ site }) => site.id), stays.today, entries.length)).map((found) => [found.site, found.nights]));
  return (
    <details className={styles.fold}>
      <summary>{words.taken(entries.length)}</summary>
      <p>{words.takenLine}</p>
      <ul className={styles.rows}>
        {entries.map(({ site, result }) => {
          const label = site.label ?? site.id, next = near.get(site.id);
          return (
            <li key={site.id}>
              <Link href={siteAddress(site.id, standpoint)} prefetch={false} className={styles.label} aria-label={seePlanOf(label)}>{label}</Link>
              <span className={styles.marked}><VerdictMark verdict={result.verdict} /> {verdicts[result.verdict].label}</span>
              <span className={styles.marked}><TakenMark /> {words.takenMark}</span>
              {next ? <Link href={siteAddress(site.id, withNights(standpoint, next))} prefetch={false} className={styles.next}>{words.nearest(next)}</Link> : <span className={styles.next}>{words.noneNear}</span>}
            </li>
          );
        })}
      </ul>
    </details>
  );
}
