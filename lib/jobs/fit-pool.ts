import { MOST_WAYS, orderResults, type FitResult, type Policy, type Unknowns } from "@/lib/fit";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { contentKey } from "./content-key";
import type { AccessShare, FitShare } from "./fit-worker";
import { keptAnswers } from "./kept-answers";
import { shareOut } from "./share-out";
import { DEFAULT_TIME_LIMIT, SHARES_PER_THREAD, stopAfter, threads } from "./threads";

export { closePool, RankingStopped } from "./threads";

export interface PoolOptions {
  /** Evaluations per site before it is given up as unsettled; the engine's own default where left out. */
  readonly budget?: number;
  /** What would turn each refusal, too: some tens of answers' work for each. */
  readonly remedies?: boolean;
  /** The way in, too, where it is measured, for the first `MOST_WAYS` sites in their order. */
  readonly access?: boolean;
  /** Numbers that are not known for sure. */
  readonly unknowns?: Unknowns;
  /** The whole ranking is given up after this, in milliseconds. */
  readonly timeLimit?: number;
  /** Gives it up when the one who asked has gone. */
  readonly signal?: AbortSignal;
  /** Told how many of the sites have to be solved; the rest is known from before. */
  readonly onSolving?: (sites: number) => void;
}

/**
 * Ranks `sites` for `rig`, best first, the same answer as `rankSites` gives. What was answered before is taken from
 * there; the rest is solved on worker threads, so that the thread that answers requests stays free.
 */
export async function rankInPool(sites: readonly Site[], rig: Rig, policy: Policy, options: PoolOptions = {}): Promise<FitResult[]> {
  const { timeLimit = DEFAULT_TIME_LIMIT, signal, onSolving } = options;
  const stop = stopAfter(timeLimit, signal, `Ranking ${sites.length} sites`);
  const { results } = keptAnswers();
  const keyed = sites.map((site) => ({ site, key: keyOf(site, rig, policy, options) }));
  const known = new Map(keyed.flatMap(({ key }) => { const result = results.get(key); return result ? [[key, result] as const] : []; }));
  // A site that is listed twice is solved once; one that somebody else is having solved is waited for.
  const open = [...new Map(keyed.filter(({ key }) => !known.has(key)).map((entry) => [entry.key, entry])).values()];
  const others = open.flatMap(({ key }) => { const solving = underWay.get(key); return solving ? [solving.then((result) => [key, result] as const)] : []; });
  const mine = open.filter(({ key }) => !underWay.has(key));
  onSolving?.(open.length);
  try {
    stop.signal.throwIfAborted();
    for (const { key, result } of await announce(mine, signal, solve(mine, rig, policy, options, stop.signal))) {
      known.set(key, result);
      results.set(key, result);
    }
    for (const [key, result] of await Promise.all(others)) known.set(key, result);
    const ranked = orderResults(keyed.map(({ key }) => known.get(key)!));
    return options.access === true ? orderResults(await withWaysIn(ranked, keyed, rig, policy, options, stop.signal)) : ranked;
  } catch (error) {
    throw stop.explain(error);
  }
}

/** The same answers with the way in, where it is measured and was not looked at before. */
async function withWaysIn(ranked: readonly FitResult[], keyed: readonly Keyed[], rig: Rig, policy: Policy, { remedies = false }: PoolOptions, signal: AbortSignal): Promise<FitResult[]> {
  const { results } = keptAnswers(), pool = threads(), byId = new Map(keyed.map((entry) => [entry.site.id, entry]));
  const asked = ranked.slice(0, MOST_WAYS).flatMap((result) => {
    const { site, key } = byId.get(result.site)!;
    return result.pose && site.approach ? [{ site, result, key: `${key} access` }] : [];
  });
  const open = asked.filter(({ key }) => !results.has(key));
  await Promise.all(shareOut(open, pool.maxThreads * SHARES_PER_THREAD).map(async (share) => {
    const task: AccessShare = { asked: share.map(({ site, result }) => ({ site, result })), rig, policy, remedies };
    const found = (await pool.run(task, { name: "solveAccess", signal })) as FitResult[];
    found.forEach((result, i) => results.set(share[i]!.key, result));
  }));
  const found = new Map(asked.map(({ result, key }) => [result.site, results.get(key) ?? result]));
  return ranked.map((result) => found.get(result.site) ?? result);
}

/** What is being solved for an asker who cannot go away half way, by its key. */
const underWay = new Map<string, Promise<FitResult>>();

/** Lets others wait for this work; not where its asker may give it up, since theirs would go with it. */
async function announce<T extends { key: string; result: FitResult }>(open: readonly Keyed[], asker: AbortSignal | undefined, work: Promise<T[]>): Promise<T[]> {
  if (asker) return work;
  const byKey = work.then((solved) => new Map(solved.map(({ key, result }) => [key, result])));
  // Who waits hears of a failure themselves.
  byKey.catch(() => undefined);
  for (const { key } of open) {
    const one = byKey.then((solved) => solved.get(key)!);
    one.catch(() => undefined);
    underWay.set(key, one);
  }
  try {
    return await work;
  } finally {
    for (const { key } of open) underWay.delete(key);
  }
}

interface Keyed {
  readonly site: Site;
  readonly key: string;
}

async function solve(open: readonly Keyed[], rig: Rig, policy: Policy, { budget, remedies = false, unknowns }: PoolOptions, signal: AbortSignal): Promise<{ key: string; result: FitResult }[]> {
  const pool = threads();
  const solved = await Promise.all(
    shareOut(open, pool.maxThreads * SHARES_PER_THREAD).map(async (share) => {
      const task: FitShare = { sites: share.map(({ site }) => site), rig, policy, remedies, ...(unknowns ? { unknowns } : {}), ...(budget === undefined ? {} : { budget }) };
      const results = (await pool.run(task, { signal })) as FitResult[];
      return results.map((result, i) => ({ key: share[i]!.key, result }));
    }),
  );
  return solved.flat();
}

/** All that an answer depends on. Of the numbers that are not known, those of this site alone. */
function keyOf(site: Site, rig: Rig, policy: Policy, { budget, remedies = false, unknowns }: PoolOptions): string {
  const unsure = [...(unknowns?.rig ?? []), ...(unknowns?.sites[site.id] ?? [])];
  return `${contentKey(site)} ${contentKey(rig)} ${contentKey(policy)} ${budget ?? ""} ${remedies ? "remedies" : ""} ${unsure.length > 0 ? contentKey(unsure) : ""}`;
}
