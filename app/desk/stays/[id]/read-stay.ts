import { cache } from "react";
import type { FitResult } from "@/lib/fit";
import { findSites, fitOn, type Found } from "@/lib/jobs/stay-fit";
import type { Site } from "@/lib/park";
import { costOfCancelling, termsOf, type CancellationCost } from "@/lib/stays";
import type { StaffActor } from "@/app/staff-session";
import { StoreError } from "@/lib/store/errors";
import { listLoans, listStock, type Loan } from "@/lib/store/loans";
import { getStayContext, type StayContext } from "@/lib/store/park-settings";
import { getPark, type Park } from "@/lib/store/parks";
import { getRates } from "@/lib/store/rates";
import { getSiteOnRecord, listSites } from "@/lib/store/sites";
import { listOpenEffects, type OpenEffect } from "@/lib/store/site-effects";
import { listNotes, type StayNote } from "@/lib/store/stay-notes";
import { listAudit, type AuditEntry } from "@/lib/store/stays-audit";
import { listCompanions, type BoardStay } from "@/lib/store/stays-board";
import { getStay } from "@/lib/store/stays-change";
import { getAccount, type StayAccount } from "@/lib/store/stays-money";
import type { Stay } from "@/lib/store/stays";

/** All that the page of a stay shows. */
export interface StayPageData {
  readonly stay: Stay;
  readonly park: Park;
  readonly context: StayContext;
  readonly site: Site | null;
  readonly result: FitResult | null;
  /** Other sites for the same nights; null where the stay is over. */
  readonly found: Found | null;
  readonly account: StayAccount;
  readonly currency: string;
  readonly cost: CancellationCost;
  readonly notes: readonly StayNote[];
  readonly loans: readonly Loan[];
  readonly stock: Awaited<ReturnType<typeof listStock>>;
  readonly history: readonly AuditEntry[];
  readonly companions: readonly BoardStay[];
  /** Where it no longer fits because a site changed, or begins to, and nobody has seen to it. */
  readonly changed: readonly OpenEffect[];
  /** Free sites that take the rig and lie within a short walk of where the companions stand, nearest first. */
  readonly near: readonly string[];
  readonly labelOf: (siteId: string) => string;
}

/** Null where there is no such stay for this person. */
export const readStayPage = cache(async (actor: StaffActor, id: string): Promise<StayPageData | null> => {
  const [park, context, stay] = await Promise.all([getPark(actor.park), getStayContext(actor.park), getStay(actor, actor.park, id).catch(noneIfMissing)]);
  if (!park || !context || !stay) return null;
  const open = stay.state === "held" || stay.state === "requested" || stay.state === "booked" || stay.state === "arrived";
  const [sites, result, found, account, rates, notes, loans, stock, history, companions, changed] = await Promise.all([
    listSites(park.slug),
    stay.site === null ? null : fitOn(park, stay.site, stay.rig),
    open ? findSites(park, stay.nights, stay.rig, stay.wanted) : null,
    getAccount(actor, park.slug, id),
    getRates(park.slug),
    listNotes(actor, park.slug, id),
    listLoans(actor, park.slug, id),
    listStock(actor, park.slug),
    listAudit(actor, park.slug, id),
    stay.together === null ? [] : listCompanions(actor, park.slug, stay.together, id),
    listOpenEffects(actor, park.slug, id),
  ]);
  // One that is out of use is in no list, while the stays it had can still be read.
  const site = sites.find(({ id: siteId }) => siteId === stay.site) ?? (stay.site === null ? null : await getSiteOnRecord(park.slug, stay.site));
  const labels = new Map([...sites, ...(site ? [site] : [])].map(({ id: siteId, label }) => [siteId, label ?? siteId]));
  return {
    stay, park, context, result, found, account, notes, loans, stock, history,
    site,
    currency: account.quotes[0]?.currency ?? rates?.card.currency ?? "USD",
    cost: costOfCancelling(termsOf(account.quotes, context.settings.cancellation), { nights: stay.nights, total: account.total, paid: account.paid, today: context.today }),
    companions, changed,
    near: found ? neighbours(sites, companions.flatMap(({ site }) => (site === null ? [] : [site])), found.offered.map(({ site }) => site.id)) : [],
    labelOf: (siteId) => labels.get(siteId) ?? siteId,
  };
});

function noneIfMissing(error: unknown): null {
  if (error instanceof StoreError && error.kind === "missing") return null;
  throw error;
}

/** What counts as beside one another, mm between the sites' entries. */
const besides = 60_000;
const mostNear = 5;

function neighbours(sites: readonly Site[], of: readonly string[], free: readonly string[]): string[] {
  const placeOf = new Map(sites.map(({ id, place }) => [id, place]));
  const distance = (id: string) => Math.min(...of.map((other) => apart(placeOf.get(id), placeOf.get(other))));
  return free.map((id) => ({ id, far: distance(id) })).filter(({ far }) => far <= besides).sort((a, b) => a.far - b.far).slice(0, mostNear).map(({ id }) => id);
}

function apart(a: Site["place"] | undefined, b: Site["place"] | undefined): number {
  return a && b ? Math.hypot(a.east - b.east, a.north - b.north) : Infinity;
}
