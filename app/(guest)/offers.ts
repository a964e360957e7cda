import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { hookupsOf, partyOf, quoteStay, type Nights, type QuoteOutcome } from "@/lib/stays";
import { getRates } from "@/lib/store/rates";
import { listFreeSites } from "@/lib/store/stays-nights";
import type { Asked } from "./context";

/** What can be had for the nights of the address. */
export interface Offers {
  readonly nights: Nights;
  readonly isFree: (siteId: string) => boolean;
  /** The price, or why there is none; null where the park has no rates. */
  readonly quoteOn: (site: Site, rig: Rig) => QuoteOutcome | null;
}

/** Who has what is one query, the prices come from the rates in force. Null where no nights were asked about. */
export async function offersFor({ when: { nights }, park }: Asked): Promise<Offers | null> {
  return nights && offersOn(park.slug, nights);
}

export async function offersOn(parkSlug: string, nights: Nights): Promise<Offers> {
  const [free, rates] = await Promise.all([listFreeSites(parkSlug, nights), getRates(parkSlug)]);
  const ids = new Set(free);
  return {
    nights,
    isFree: (siteId) => ids.has(siteId),
    quoteOn: (site, rig) => rates && quoteStay(rates.card, { nights, hookups: hookupsOf(site), party: partyOf(rig) }),
  };
}
