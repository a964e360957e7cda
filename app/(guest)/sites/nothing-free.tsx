import Link from "next/link";
import { findNearestNights, guestMayHave } from "@/lib/jobs/stay-fit";
import type { Rig } from "@/lib/rig";
import { recordUnmet, type UnmetAsk } from "@/lib/store/unmet";
import { catalogueOf } from "@/lib/wording";
import type { Asked } from "../context";
import type { Offers } from "../offers";
import { siteAddress, withNights, type Standpoint } from "./address";
import type { Entry } from "./filters";
import { LeaveWord } from "./leave-word";
import styles from "./nights.module.css";

interface NothingFreeProps {
  readonly asked: Asked;
  readonly rig: Rig;
  readonly offers: Offers;
  readonly entries: readonly Entry[];
  readonly standpoint: Standpoint;
}

/** What a request that found nothing is kept as: how many sites each thing turned the rig away from. */
export function unmetAsk({ nights }: Pick<Offers, "nights">, rig: Rig, entries: readonly Entry[]): UnmetAsk {
  const turnedAway: Record<string, number> = {};
  for (const { result } of entries) for (const code of new Set(result.verdict === "no" ? result.reasons.map((reason) => reason.code) : [])) turnedAway[code] = (turnedAway[code] ?? 0) + 1;
  return { nights, rig, wanted: { loop: undefined, services: [] }, reasons: { turnedAway, taken: entries.filter(({ result }) => guestMayHave(result.verdict)).length } };
}

/** Nothing that fits is free: as many nights close by, what comes closest, and a way to leave word. The request is kept. */
export async function NothingFree({ asked, rig, offers, entries, standpoint }: NothingFreeProps) {
  const { nothing: words } = catalogueOf().guestStay;
  const fitting = entries.filter(({ result }) => guestMayHave(result.verdict));
  const ask = unmetAsk(offers, rig, entries);
  const [near] = await Promise.all([
    findNearestNights(asked.park, offers.nights, fitting.map(({ site }) => site.id), asked.stays.today),
    recordUnmet({ kind: "guest", link: null }, asked.park.slug, ask),
  ]);
  const why = fitting.length === 0 ? "none" : "taken";
  const labels = new Map(entries.map(({ site }) => [site.id, site.label ?? site.id]));
  return (
    <section className={styles.nothing} aria-labelledby="nothing">
      <h2 id="nothing">{words.title[why]}</h2>
      <p>{words.line[why]}</p>
      {why === "taken" && (
        <>
          <h3>{words.nearest}</h3>
          {near.length === 0 ? <p>{words.noneNear}</p> : <ul>{near.map(({ site, nights }) => <li key={site}><Link href={siteAddress(site, withNights(standpoint, nights))} prefetch={false}>{words.nearestAt(labels.get(site) ?? site, nights)}</Link></li>)}</ul>}
        </>
      )}
      <LeaveWord query={standpoint.query} units={standpoint.units} />
    </section>
  );
}
