import Link from "next/link";
import type { FitResult } from "@/lib/fit";
import { RankingStopped, rankInPool } from "@/lib/jobs/fit-pool";
import { findNearestNights, guestMayHave } from "@/lib/jobs/stay-fit";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { recordUnmet } from "@/lib/store/unmet";
import { catalogueOf, placeInWords, unbroken } from "@/lib/wording";
import type { Asked } from "../context";
import type { Offers } from "../offers";
import { siteAddress, withNights, type Standpoint } from "./address";
import type { Entry } from "./filters";
import { Remedies } from "./[id]/site-verdict";
import { LeaveWord } from "./leave-word";
import { unmetAsk } from "./unmet-ask";
import styles from "./nights.module.css";

interface NothingFreeProps {
  readonly asked: Asked;
  readonly rig: Rig;
  readonly offers: Offers;
  readonly entries: readonly Entry[];
  readonly standpoint: Standpoint;
}

/** Nothing that fits is free: as many nights close by, what comes closest and what would change it, and a way to leave word. The request is kept. */
export async function NothingFree({ asked, rig, offers, entries, standpoint }: NothingFreeProps) {
  const { nothing: words } = catalogueOf().guestStay;
  const why = entries.some(({ result }) => guestMayHave(result.verdict)) ? "taken" : "none";
  await recordUnmet({ kind: "guest", link: null }, asked.park.slug, unmetAsk(offers, rig, entries.map(({ result }) => result)));
  return (
    <section className={styles.nothing} aria-labelledby="nothing">
      <h2 id="nothing">{words.title[why]}</h2>
      <p>{words.line[why]}{why === "taken" && ` ${words.short}`}</p>
      {why === "taken" && <CloseBy asked={asked} offers={offers} entries={entries} standpoint={standpoint} />}
      <Misses asked={asked} rig={rig} offers={offers} entries={entries} standpoint={standpoint} />
      <LeaveWord query={standpoint.query} units={standpoint.units} />
    </section>
  );
}

/** As many nights on the sites that fit, the nearest first. */
async function CloseBy({ asked, offers, entries, standpoint }: Omit<NothingFreeProps, "rig">) {
  const { nothing: words } = catalogueOf().guestStay;
  const fitting = entries.filter(({ result }) => guestMayHave(result.verdict)).map(({ site }) => site);
  const near = await findNearestNights(asked.park, offers.nights, fitting.map(({ id }) => id), asked.stays.today);
  const labelOf = (id: string) => fitting.find((site) => site.id === id)?.label ?? id;
  return (
    <>
      <h3>{words.nearest}</h3>
      {near.length === 0 ? <p>{words.noneNear}</p> : (
        <ul className={styles.rows}>{near.map(({ site, nights }) => <li key={site}><Link href={siteAddress(site, withNights(standpoint, nights))} prefetch={false} className={styles.next}>{words.nearestAt(labelOf(site), nights)}</Link></li>)}</ul>
      )}
    </>
  );
}

/** Sites told of that the rig only just does not go on. */
const mostMisses = 3;

/** What comes closest, the free ones first, each with what would change it. */
async function Misses({ asked, rig, offers, entries, standpoint }: NothingFreeProps) {
  const { guestStay: { nothing: words }, guestSites: { site: { title } } } = catalogueOf();
  const refused = entries.filter(({ result }) => result.verdict === "no").map(({ site }) => site);
  const nearest = [...refused.filter(({ id }) => offers.isFree(id)), ...refused.filter(({ id }) => !offers.isFree(id))].slice(0, mostMisses);
  if (nearest.length === 0) return null;
  const results = await remediesFor(asked, rig, nearest);
  return (
    <>
      <h3>{words.misses}</h3>
      {results.map((result) => {
        const site = nearest.find(({ id }) => id === result.site)!;
        return (
          <details key={site.id} className={styles.miss}>
            <summary>{title(site.label ?? site.id)}: {unbroken(placeInWords(site, rig, result, asked.park.policy.comfort, asked.units))}</summary>
            <Remedies result={result} site={site} rig={rig} units={asked.units} />
            <p><Link href={siteAddress(site.id, standpoint)} prefetch={false}>{catalogueOf().guestSites.seePlanOf(site.label ?? site.id)}</Link></p>
          </details>
        );
      })}
    </>
  );
}

/** Nothing where the search for what would change it was given up: the rest of the page stands without. */
async function remediesFor({ park }: Asked, rig: Rig, sites: readonly Site[]): Promise<readonly FitResult[]> {
  try {
    return await rankInPool(sites, rig, park.policy, { remedies: true, access: true });
  } catch (error) {
    if (error instanceof RankingStopped) return [];
    throw error;
  }
}
