import type { FitResult, Policy } from "@/lib/fit";
import { cellOf, takesStay, turnOf, turnOfAny, type FitCell, type MaybeCell, type PolicyTurn, type StayUnknown } from "@/lib/insight";
import { siteSchema, type Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { getStayContext } from "@/lib/store/park-settings";
import { getPark } from "@/lib/store/parks";
import { keepSiteEffects, keepWeighed, listSitesToWeigh, listToldRecords, listToldStays, type SiteToWeigh, type StayTold } from "@/lib/store/site-effects";
import { listSites } from "@/lib/store/sites";
import type { Actor } from "@/lib/store/stays-actor";
import { listStaysAhead, type StayAhead } from "@/lib/store/stays-ahead";
import { fitPairs, type MatrixOptions } from "./fit-pairs";
import { rankInPool, RankingStopped } from "./fit-pool";
import { guestMayHave, meets } from "./stay-fit";
import { fitStays } from "./stays-fits";
import { DEFAULT_TIME_LIMIT, stopAfter, threads } from "./threads";

/** One site as it is and as it would be; null: not there, or out of use. */
export interface SiteSwap {
  readonly siteId: string;
  readonly before: Site | null;
  readonly after: Site | null;
}

export interface SiteEffectsAsked {
  readonly swaps: readonly SiteSwap[];
  /** The stays ahead of the whole park: those on other sites are passed over. */
  readonly stays: readonly StayAhead[];
  /** The sites of the park that stay as they are: a stay for any site that fits may find its place there. */
  readonly others: readonly Site[];
}

/** A stay of which something changes. The answers are those on its own site; null where it has none, or the site has no record on that side. */
export interface StayEffect {
  readonly id: string;
  readonly turn: PolicyTurn;
  readonly was: FitResult | null;
  readonly now: FitResult | null;
  /** The site whose change turns it: its own; of one for any site, the one that took it and does no longer, or takes it now. Null where that cannot be told. */
  readonly by: string | null;
}

export interface SiteEffects {
  /** In the order asked. */
  readonly stays: readonly StayEffect[];
  /** Stays that nothing is said of, and why. */
  readonly notWorkedOut: readonly { readonly id: string; readonly why: StayUnknown }[];
  /** Stays that were asked about: on the sites, and for any site. */
  readonly staysAsked: number;
}

/**
 * Which stays to come would no longer fit, or begin to, when the records of some sites change: each stay on one of them, its way in
 * included, and each that is for any site that fits. One that cannot be worked out does not stop the others. Answers are kept by content, so
 * that the next asker goes on from where one gave up; throws `RankingStopped` where it takes too long or its asker goes.
 */
export async function weighSites({ swaps, stays, others }: SiteEffectsAsked, policy: Policy, options: MatrixOptions = {}): Promise<SiteEffects> {
  const { timeLimit = DEFAULT_TIME_LIMIT, signal, onProgress } = options;
  const stop = stopAfter(timeLimit, signal, `Working out what changes of ${swaps.length} sites mean`);
  const bySite = new Map(swaps.map((swap) => [swap.siteId, swap]));
  const asked = stays.filter(({ site }) => site === null || bySite.has(site));
  const found: { effect?: StayEffect; unknown?: { id: string; why: StayUnknown } }[] = [];
  let done = 0;
  onProgress?.({ done, total: asked.length });
  const waiting = asked.map((stay, i) => ({ stay, i }));
  const hand = async (): Promise<void> => {
    for (let next = waiting.shift(); next; next = waiting.shift()) {
      stop.signal.throwIfAborted();
      found[next.i] = await weighStay(next.stay, next.stay.site === null ? null : bySite.get(next.stay.site)!, { swaps, others, policy, signal: stop.signal, timeLimit });
      onProgress?.({ done: ++done, total: asked.length });
    }
  };
  try {
    await Promise.all(Array.from({ length: 2 * threads().maxThreads }, hand));
  } catch (error) {
    throw stop.explain(error);
  }
  return { stays: found.flatMap(({ effect }) => effect ?? []), notWorkedOut: found.flatMap(({ unknown }) => unknown ?? []), staysAsked: asked.length };
}

/** That for some sites of a park, beside its other sites as they are, with its stays ahead, for staff; null where it takes longer than so many milliseconds. */
export async function weighInPark(actor: Actor, parkSlug: string, swaps: readonly SiteSwap[], timeLimit: number): Promise<{ effects: SiteEffects; stays: StayAhead[] } | null> {
  const [park, context, sites] = await Promise.all([getPark(parkSlug), getStayContext(parkSlug), listSites(parkSlug)]);
  if (!park || !context) return null;
  const stays = await listStaysAhead(actor, parkSlug, context.today), touched = new Set(swaps.map(({ siteId }) => siteId));
  try {
    return { effects: await weighSites({ swaps, stays, others: sites.filter(({ id }) => !touched.has(id)) }, park.policy, { timeLimit }), stays };
  } catch (error) {
    if (error instanceof RankingStopped) return null;
    throw error;
  }
}

/** From two records as they are kept; one that cannot be read counts as none. */
export function swapOf(siteId: string, before: unknown, after: unknown): SiteSwap {
  return { siteId, before: readSite(before), after: readSite(after) };
}

interface Around {
  readonly swaps: readonly SiteSwap[];
  readonly others: readonly Site[];
  readonly policy: Policy;
  readonly signal: AbortSignal;
  readonly timeLimit: number;
}

async function weighStay({ id, rig, wanted }: StayAhead, swap: SiteSwap | null, around: Around): Promise<{ effect?: StayEffect; unknown?: { id: string; why: StayUnknown } }> {
  if (!rig) return { unknown: { id, why: "rig" } };
  try {
    if (swap) {
      if (!swap.before) return { unknown: { id, why: "site" } };
      const [was, now] = [await fitAlone(swap.before, rig, around), swap.after && (await fitAlone(swap.after, rig, around))];
      const turn = now ? turnOf(cellOf(was), cellOf(now)) : "shut";
      return turn ? { effect: { id, turn, was, now, by: swap.siteId } } : {};
    }
    const turned = await turnAnywhere(rig, (site) => meets(site, wanted), around);
    return turned ? { effect: { id, ...turned, was: null, now: null } } : {};
  } catch (error) {
    if (error instanceof RankingStopped || around.signal.aborted) throw error;
    return { unknown: { id, why: "failed" } };
  }
}

/** So many sites are asked about at once for a stay that any will do for: others wait for the threads as well. */
const SITES_AT_ONCE = 8;
/** Of the sites that stay as they are, which are asked about only seldom, so many. */
const OTHERS_AT_ONCE = 200;

/** For a stay that any site will do for: the sites that change, and only where those alone would turn it, all others. Each until one takes it. */
async function turnAnywhere(rig: Rig, may: (site: Site) => boolean, around: Around): Promise<Pick<StayEffect, "turn" | "by"> | null> {
  const was = await askInTurn(around.swaps.map(({ before }) => before), rig, may, around), now = await askInTurn(around.swaps.map(({ after }) => after), rig, may, around);
  if (turnOfAny(was.cells, now.cells) === null) return null;
  const elsewhere = await askOthers(rig, may, around);
  const turn = turnOfAny([...was.cells, ...elsewhere], [...now.cells, ...elsewhere]);
  return turn && { turn, by: turn === "unclear" ? null : was.taker ?? now.taker };
}

async function askInTurn(sites: readonly (Site | null)[], rig: Rig, may: (site: Site) => boolean, around: Around): Promise<{ cells: FitCell[]; taker: string | null }> {
  const asked = sites.filter((site) => site !== null).filter(may), cells: FitCell[] = [];
  for (let from = 0; from < asked.length; from += SITES_AT_ONCE) {
    around.signal.throwIfAborted();
    const part = asked.slice(from, from + SITES_AT_ONCE);
    const these = await Promise.all(part.map(async (site) => cellOf(await fitAlone(site, rig, around))));
    cells.push(...these);
    const taker = these.findIndex(takesStay);
    if (taker >= 0) return { cells, taker: part[taker]!.id };
  }
  return { cells, taker: null };
}

/** Without the way in, which only ever turns a rig away, and with it where that alone is open. */
async function askOthers(rig: Rig, may: (site: Site) => boolean, around: Around): Promise<MaybeCell[]> {
  const asked = around.others.filter(may), cells: MaybeCell[] = [];
  for (let from = 0; from < asked.length; from += OTHERS_AT_ONCE) {
    const part = asked.slice(from, from + OTHERS_AT_ONCE);
    const these = await fitPairs(part.map((site) => ({ site, rigs: [0] })), [rig], around.policy, { singly: true, signal: around.signal, timeLimit: around.timeLimit });
    for (const [i, [cell]] of these.entries()) {
      const whole = takesStay(cell) ? cellOf(await fitAlone(part[i]!, rig, around)) : cell;
      cells.push(whole);
      if (takesStay(whole)) return cells;
    }
  }
  return cells;
}

async function fitAlone(site: Site, rig: Rig, { policy, signal, timeLimit }: Around): Promise<FitResult> {
  return (await rankInPool([site], rig, policy, { access: true, signal, timeLimit }))[0]!;
}

/** So many sites are told of in one go; what is left comes with the next. */
const MOST_AT_ONCE = 2_000;
/** One site's stays take some seconds; what is not done by then is tried again. Milliseconds. */
const PATIENCE = 120_000;

/**
 * Tells the desk of every stay that no longer fits because sites changed, or begins to, on its site or on any: for whatever changed since it was
 * last told. Done by itself soon after a change is saved, by whom and however it was. One site that cannot be worked out keeps no other waiting.
 */
export async function tellOfSiteChanges(stop?: AbortSignal): Promise<void> {
  const byPark = new Map<string, SiteToWeigh[]>(), failures: unknown[] = [];
  for (const due of await listSitesToWeigh(MOST_AT_ONCE)) byPark.set(due.park, [...(byPark.get(due.park) ?? []), due]);
  for (const [slug, due] of byPark) await tellOfPark(slug, due, failures, stop);
  if (failures.length > 0) throw failures[0];
}

/** A site counts as weighed when all is told: where this breaks off before, it is done again, and nothing is told twice. */
async function tellOfPark(slug: string, due: readonly SiteToWeigh[], failures: unknown[], stop: AbortSignal | undefined): Promise<void> {
  const [park, context] = await Promise.all([getPark(slug), getStayContext(slug)]);
  if (!park || !context) return;
  const ahead = await listStaysAhead({ kind: "clock" }, slug, context.today), anywhere = ahead.filter(({ site }) => site === null), weighed: SiteToWeigh[] = [];
  for (const site of due) {
    if (stop?.aborted) return;
    const stays = ahead.filter((stay) => stay.site === site.siteId);
    try {
      if (stays.length > 0) await tellOfSite(site, stays, park.policy, stop);
      weighed.push(site);
    } catch (error) {
      failures.push(error);
    }
  }
  try {
    if (anywhere.length > 0) await tellOfAnywhere(slug, weighed, anywhere, park.policy, stop);
    await keepWeighed(slug, weighed);
  } catch (error) {
    failures.push(error);
  }
}

async function tellOfSite(due: SiteToWeigh, stays: readonly StayAhead[], policy: Policy, stop: AbortSignal | undefined): Promise<void> {
  if (due.from < 1) return tellAsTheyStand(due, stays, policy, stop);
  const { stays: turned } = await weighSites({ swaps: [swapOf(due.siteId, due.before, due.after)], stays, others: [] }, policy, { timeLimit: PATIENCE, ...(stop ? { signal: stop } : {}) });
  const told = turned.flatMap(({ id, turn, was, now }) => ((turn === "shut" || turn === "opened") && was && now ? [{ stay: id, was: was.verdict, now: now.verdict, reasons: now.reasons.map(({ code }) => code) }] : []));
  // What was told of an earlier change is over for every stay that this one lets in again.
  await keepSiteEffects(due, told, turned.flatMap(({ id, now }) => (now && now.verdict !== "no" ? [id] : [])));
}

/** Of stays for any site that fits: all of the sites that changed together, since one may take what another no longer does. */
async function tellOfAnywhere(park: string, due: readonly SiteToWeigh[], stays: readonly StayAhead[], policy: Policy, stop: AbortSignal | undefined): Promise<void> {
  const changed = due.filter(({ from, anew }) => anew || from >= 1);
  if (changed.length === 0) return;
  const others = (await listToldRecords(park, changed.map(({ siteId }) => siteId))).flatMap((record) => readSite(record) ?? []);
  const { stays: turned } = await weighSites({ swaps: changed.map(({ siteId, before, after }) => swapOf(siteId, before, after)), stays, others }, policy, { timeLimit: PATIENCE, ...(stop ? { signal: stop } : {}) });
  for (const site of changed) {
    const told = turned.flatMap(({ id, turn, by }): StayTold[] => (by !== site.siteId ? [] : turn === "shut" ? [{ stay: id, was: "some", now: "none", reasons: [] }] : [{ stay: id, was: "none", now: "some", reasons: [] }]));
    if (told.length > 0) await keepSiteEffects(site, told, []);
  }
}

/**
 * Stays were read in onto a site, which nobody judged when they were written: of all that are ahead on it, those that do not fit are told, once
 * each. Who is there in spite of that has somebody who said why. A verdict on both sides of the change says that it was no change of the site.
 */
async function tellAsTheyStand(due: SiteToWeigh, stays: readonly StayAhead[], policy: Policy, stop: AbortSignal | undefined): Promise<void> {
  const site = readSite(due.after), judged = site ? stays.filter(({ rig, overridden }) => rig && !overridden) : [];
  const results = await fitStays(judged.map(({ rig }) => ({ site: site!, rig: rig! })), policy, { timeLimit: PATIENCE, ...(stop ? { signal: stop } : {}) });
  // What is known by now is kept: the next try goes on from there.
  if (results.includes(undefined)) throw new RankingStopped("time", `judging the stays on site ${due.siteId} takes too long`);
  const told = await listToldStays(due), known = judged.flatMap(({ id }, i) => { const result = results[i]; return result ? [{ id, result }] : []; });
  const poor = known.filter(({ id, result }) => !guestMayHave(result.verdict) && !told.has(id)).map(({ id, result: { verdict, reasons } }) => ({ stay: id, was: verdict, now: verdict, reasons: reasons.map(({ code }) => code) }));
  await keepSiteEffects(due, poor, known.filter(({ result }) => result.verdict !== "no").map(({ id }) => id));
}

function readSite(record: unknown): Site | null {
  return siteSchema.safeParse(record).data ?? null;
}
