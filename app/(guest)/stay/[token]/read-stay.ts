import { cache } from "react";
import type { FitResult } from "@/lib/fit";
import { fitOn } from "@/lib/jobs/stay-fit";
import type { Site } from "@/lib/park";
import { costOfCancelling, dateIn, daysBetween, judgeMove, mayChange, termsOf, type CancellationCost, type CancellationStep, type QuoteOutcome } from "@/lib/stays";
import { getStayContext, type StayContext } from "@/lib/store/park-settings";
import { getPark, type Park } from "@/lib/store/parks";
import { getRates } from "@/lib/store/rates";
import { getSiteOnRecord, listSites } from "@/lib/store/sites";
import type { Stay } from "@/lib/store/stays";
import { getStay } from "@/lib/store/stays-change";
import { findByLink } from "@/lib/store/stays-links";
import { getCancelledAt } from "@/lib/store/stays-audit";
import { getAccount, quoteFor, type StayAccount } from "@/lib/store/stays-money";

/** What a guest sees of their stay. */
export interface GuestStay {
  readonly stay: Stay;
  readonly park: Park;
  readonly context: StayContext;
  readonly sites: readonly Site[];
  readonly site: Site | null;
  readonly label: string | null;
  readonly result: FitResult | null;
  readonly account: StayAccount;
  readonly currency: string;
  /** The price to be agreed to, while it is held. */
  readonly price: QuoteOutcome | null;
  /** What canceling is under: as agreed to, or the park's own while nothing is. */
  readonly terms: readonly CancellationStep[];
  /** What canceling comes to: today, or on the day it was done. */
  readonly cost: CancellationCost;
  readonly mayCancel: boolean;
  readonly mayEdit: boolean;
}

/** The stay of a private link; null where the link leads to none: unknown, revoked and mistyped are one and the same. */
export const readStayOf = cache(async (token: string): Promise<GuestStay | null> => {
  const found = /^[\w-]{20,100}$/.test(token) ? await findByLink(token) : null;
  if (!found) return null;
  const actor = { kind: "guest", link: token } as const;
  const [park, context, stay, account, rates] = await Promise.all([getPark(found.park), getStayContext(found.park), getStay(actor, found.park, found.stay), getAccount(actor, found.park, found.stay), getRates(found.park)]);
  if (!park || !context) return null;
  const [sites, result, price, cancelledAt] = await Promise.all([
    listSites(park.slug),
    stay.site === null ? null : fitOn(park, stay.site, stay.rig),
    stay.state === "held" ? quoteFor(park.slug, stay, stay.nights, stay.rig) : null,
    stay.state === "cancelled" ? getCancelledAt(actor, park.slug, stay.id) : null,
  ]);
  const site = sites.find(({ id }) => id === stay.site) ?? (stay.site === null ? null : await getSiteOnRecord(park.slug, stay.site));
  const facts = { guestsMay: context.settings.guestsMay, daysToArrival: daysBetween(context.today, stay.nights.arrive), runOut: stay.until !== null && stay.until <= context.now };
  const terms = termsOf(account.quotes, context.settings.cancellation);
  return {
    stay, park, context, sites, site, result, account, price,
    label: site ? (site.label ?? site.id) : null,
    currency: account.quotes[0]?.currency ?? rates?.card.currency ?? "USD",
    terms,
    cost: costOfCancelling(terms, { nights: stay.nights, total: account.total, paid: account.paid, today: cancelledAt === null ? context.today : dateIn(context.settings.zone, cancelledAt) }),
    mayCancel: judgeMove(stay.state, "cancelled", "guest", facts).allowed,
    mayEdit: mayChange(stay.state, "guest", "guest"),
  };
});
