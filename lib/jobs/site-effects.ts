import type { FitResult, Policy } from "@/lib/fit";
import { cellOf, turnOf, turnOfAny, type MaybeCell, type PolicyTurn, type StayUnknown } from "@/lib/insight";
import { siteSchema, type Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { getStayContext } from "@/lib/store/park-settings";
import { getPark } from "@/lib/store/parks";
import { keepNoEffects, keepSiteEffects, listSitesToWeigh, listToldStays, type SiteToWeigh } from "@/lib/store/site-effects";
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
      return turn ? { effect: { id, turn, was, now } } : {};
    }
    const turn = await turnAnywhere(rig, (site) => meets(site, wanted), around);
    return turn ? { effect: { id, turn, was: null, now: null } } : {};
  } catch (error) {
    if (error instanceof RankingStopped || around.signal.aborted) throw error;
    return { unknown: { id, why: "failed" } };
  }
}

/** For a stay that any site will do for: the sites that change, and only where those alone would turn it, all others. */
async function turnAnywhere(rig: Rig, may: (site: Site) => boolean, around: Around): Promise<PolicyTurn | null> {
  const cellsOf = async (sites: readonly (Site | null)[]): Promise<MaybeCell[]> =>
    Promise.all(sites.filter((site) => site !== null).filter(may).map(async (site) => cellOf(await fitAlone(site, rig, around))));
  const [was, now] = [await cellsOf(around.swaps.map(({ before }) => before)), await cellsOf(around.swaps.map(({ after }) => after))];
  if (turnOfAny(was, now) === null) return null;
  const rest = await fitPairs(around.others.filter(may).map((site) => ({ site, rigs: [0] })), [rig], around.policy, { singly: true, signal: around.signal, timeLimit: around.timeLimit });
  const elsewhere = rest.map(([cell]) => cell);
  return turnOfAny([...was, ...elsewhere], [...now, ...elsewhere]);
}

async function fitAlone(site: Site, rig: Rig, { policy, signal, timeLimit }: Around): Promise<FitResult> {
  return (await rankInPool([site], rig, policy, { access: true, signal, timeLimit }))[0]!;
}

/** So many sites are told of in one go; what is left comes with the next. */
const MOST_AT_ONCE = 2_000;
/** One site's stays take some seconds; what is not done by then is tried again. Milliseconds. */
const PATIENCE = 120_000;

/**
 * Tells the desk of every stay that no longer fits because its site changed, and takes back what fits again: for whatever changed since it was
 * last told. Done by itself soon after a change is saved, by whom and however it was. One site that cannot be worked out keeps no other waiting.
 */
export async function tellOfSiteChanges(stop?: AbortSignal): Promise<void> {
  const byPark = new Map<string, SiteToWeigh[]>(), failures: unknown[] = [];
  for (const due of await listSitesToWeigh(MOST_AT_ONCE)) byPark.set(due.park, [...(byPark.get(due.park) ?? []), due]);
  for (const [slug, due] of byPark) {
    const [park, context] = await Promise.all([getPark(slug), getStayContext(slug)]);
    if (!park || !context) continue;
    const ahead = await listStaysAhead({ kind: "clock" }, slug, context.today);
    const staysOn = (siteId: string) => ahead.filter(({ site }) => site === siteId);
    await keepNoEffects(slug, due.filter(({ siteId }) => staysOn(siteId).length === 0));
    for (const site of due) {
      const stays = staysOn(site.siteId);
      if (stays.length === 0) continue;
      if (stop?.aborted) return;
      await tellOfSite(site, stays, park.policy, stop).catch((error: unknown) => failures.push(error));
    }
  }
  if (failures.length > 0) throw failures[0];
}

async function tellOfSite(due: SiteToWeigh, stays: readonly StayAhead[], policy: Policy, stop: AbortSignal | undefined): Promise<void> {
  if (due.from < 1) return tellAsTheyStand(due, stays, policy, stop);
  const swap = { siteId: due.siteId, before: readSite(due.before), after: readSite(due.after) };
  const { stays: turned } = await weighSites({ swaps: [swap], stays, others: [] }, policy, { timeLimit: PATIENCE, ...(stop ? { signal: stop } : {}) });
  const shut = turned.flatMap(({ id, turn, was, now }) => (turn === "shut" && was && now ? [{ stay: id, was: was.verdict, now: now.verdict, reasons: now.reasons.map(({ code }) => code) }] : []));
  // What was told of an earlier change is over for every stay that this one lets in again.
  await keepSiteEffects(due, shut, turned.flatMap(({ id, now }) => (now && now.verdict !== "no" ? [id] : [])));
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
