import type { FitResult, Verdict } from "@/lib/fit";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { addDays, daysBetween, hookupsOf, nearestFree, partyOf, quoteStay, type FitOverride, type IsoDate, type Nights, type QuoteOutcome, type StayFault, type Wanted } from "@/lib/stays";
import { getRates } from "@/lib/store/rates";
import { getSiteLabel, getSiteOnRecord, listSites } from "@/lib/store/sites";
import type { Park } from "@/lib/store/parks";
import { listOccupancies } from "@/lib/store/stays-board";
import { listFreeSites } from "@/lib/store/stays-nights";
import { countUnassigned } from "@/lib/store/stays-unassigned";
import { rankInPool, type PoolOptions } from "./fit-pool";

/** A site that can be had for the nights asked, and how the rig stands there. */
export interface Offered {
  readonly site: Site;
  readonly result: FitResult;
  /** The price, or why there is none; null where the park has no rates. */
  readonly quote: QuoteOutcome | null;
}

export interface Found {
  /** Free and not refused by the fit, best first: `fits`, then `gear`, then what hangs on a measurement. */
  readonly offered: readonly Offered[];
  /** Would do, but somebody has one of the nights. Best first. */
  readonly taken: readonly FitResult[];
  /** Free or not, the rig does not go there. Nearest to it first. */
  readonly refused: readonly FitResult[];
  /** All sites that nobody has on one of the nights. */
  readonly free: ReadonlySet<string>;
  /** How many of those offered are left for one more stay that any of them will do for: one less for every stay that waits for a site. */
  readonly left: number;
}

/** Every site of the park for a rig and nights: one query for who is there, the fits from the worker threads, the price of each from the rates in force. */
export async function findSites(park: Park, nights: Nights, rig: Rig, wanted: Wanted, options: PoolOptions = {}): Promise<Found> {
  const [all, freeIds, rates, waiting] = await Promise.all([listSites(park.slug), listFreeSites(park.slug, nights), getRates(park.slug), countUnassigned(park.slug, nights)]);
  const sites = all.filter((site) => meets(site, wanted));
  const results = await rankInPool(sites, rig, park.policy, { access: true, ...options });
  const [byId, free] = [new Map(sites.map((site) => [site.id, site])), new Set(freeIds)];
  const quoteOn = (site: Site): QuoteOutcome | null => rates && quoteStay(rates.card, { nights, hookups: hookupsOf(site), party: partyOf(rig) });
  const offered = results.filter((result) => guestMayHave(result.verdict) && free.has(result.site)).map((result) => ({ site: byId.get(result.site)!, result, quote: quoteOn(byId.get(result.site)!) }));
  return {
    offered, free,
    left: Math.max(0, offered.length - waiting),
    taken: results.filter((result) => guestMayHave(result.verdict) && !free.has(result.site)),
    refused: results.filter((result) => !guestMayHave(result.verdict)),
  };
}

/** Whether a site has what was asked for where any that fits will do. */
export function meets(site: Site, { loop, services }: Wanted): boolean {
  return (loop === undefined || site.loop === loop) && services.every((service) => hookupsOf(site).services.includes(service));
}

/** How the rig stands on some sites of the park, best first. */
export async function rankOn(park: Park, rig: Rig, siteIds: readonly string[], options: PoolOptions = {}): Promise<FitResult[]> {
  const wanted = new Set(siteIds);
  return rankInPool((await listSites(park.slug)).filter(({ id }) => wanted.has(id)), rig, park.policy, { access: true, ...options });
}

/** How the rig stands on one site of the park; null where there is no such site. */
export async function fitOn(park: Park, siteId: string, rig: Rig, options: PoolOptions = {}): Promise<FitResult | null> {
  const site = await getSiteOnRecord(park.slug, siteId);
  return site && ((await rankInPool([site], rig, park.policy, { access: true, ...options }))[0] ?? null);
}

/** A stay as it would be. */
export interface Judged {
  readonly site: string | undefined;
  readonly nights: Nights;
  readonly rig: Rig;
  readonly wanted: Wanted;
  /** It is there already; without a site it is then one of those that wait for one. */
  readonly kept: boolean;
}

/**
 * What of the fit stands against a stay: nothing, the site, or that no free site is left that fits where any was asked for. A guest may have
 * what fits, what fits with gear, and what hangs on a measurement, which the page names; staff may have anything, with an override.
 */
export async function judgeFit(park: Park, { site, nights, rig, wanted, kept }: Judged, override: FitOverride | undefined): Promise<StayFault[]> {
  if (site === undefined) {
    const { offered, left } = await findSites(park, nights, rig, wanted);
    return (kept ? offered.length : left) > 0 || override ? [] : [{ code: "none-fits" }];
  }
  const result = await fitOn(park, site, rig);
  return result && !guestMayHave(result.verdict) && !override ? [fitFault(result, await getSiteLabel(park.slug, site))] : [];
}

function fitFault({ site, verdict, reasons }: FitResult, label: string): StayFault {
  return { code: "fit", site, label, verdict, reasons: reasons.map(({ code }) => code) };
}

/** Verdicts that let a guest have a site without somebody at the desk answering for it. */
export function guestMayHave(verdict: Verdict): boolean {
  return verdict === "fits" || verdict === "gear" || verdict === "ask";
}

/** How far around the wanted nights others are looked for, days. */
const nearby = 45;

/** As many nights as asked, as near to them as can be had, on sites that would do: the nearest first, one for each of the sites, at most `most`. */
export async function findNearestNights(park: Park, nights: Nights, siteIds: readonly string[], today: IsoDate, most = 5): Promise<{ readonly site: string; readonly nights: Nights }[]> {
  const from = addDays(nights.arrive, -nearby);
  const span = { arrive: from < today ? today : from, depart: addDays(nights.depart, nearby) };
  const taken = new Map<string, Nights[]>(siteIds.map((id) => [id, []]));
  for (const occupancy of await listOccupancies(park.slug, span)) taken.get(occupancy.site)?.push(occupancy.nights);
  const found = [...taken].flatMap(([site, list]) => { const near = nearestFree(nights, list, span); return near ? [{ site, nights: near }] : []; });
  const distance = (near: Nights) => Math.abs(daysBetween(nights.arrive, near.arrive));
  return found.sort((a, b) => distance(a.nights) - distance(b.nights)).slice(0, most);
}
