import type { IsoDate } from "@/lib/stays";
import { StoreError } from "./errors";
import { notThere, requireStaff, type Actor } from "./stays-actor";
import { inClaimingTransaction } from "./stays-nights";
import { findSite } from "./stays-open";
import { dateColumn } from "./stays-record";
import { inStayTransaction } from "./stays-transaction";

/** Why nobody can have a site for a while, and until when: `ends` is the day it is open again. */
export interface ClosureAsk {
  readonly starts: IsoDate;
  readonly ends: IsoDate;
  readonly reason: string;
}

/** Closes a site for repairs or the season; the closure's id. Where a stay has one of the nights it is NightsTaken: move the stay first. */
export async function closeSite(actor: Actor, parkSlug: string, siteId: string, { starts, ends, reason }: ClosureAsk): Promise<string> {
  requireStaff(actor, parkSlug);
  return inClaimingTransaction(actor, parkSlug, reason, async (at, makeWay) => {
    if (ends <= starts) throw new StoreError("refused", `not allowed: a closure from ${starts} to ${ends} has no nights`, "closure_has_nights");
    const site = await findSite(at, siteId);
    await makeWay(site, { arrive: starts, depart: ends }, null);
    const { id } = await at.tx.closure.create({ data: { parkId: at.park.id, siteId: site.id, starts: dateColumn(starts), ends: dateColumn(ends), reason } });
    return id;
  });
}

/** Opens the site again, for every night that the closure still had. One that is lifted already stays so. */
export async function liftClosure(actor: Actor, parkSlug: string, closureId: string): Promise<void> {
  requireStaff(actor, parkSlug);
  await inStayTransaction(actor, parkSlug, undefined, async ({ tx, park, now }) => {
    const closure = await tx.closure.findFirst({ where: { id: closureId, parkId: park.id }, select: { id: true, liftedAt: true } });
    if (!closure) throw notThere("the closure");
    if (closure.liftedAt === null) await tx.closure.update({ where: { id: closureId }, data: { liftedAt: new Date(now) } });
  });
}
