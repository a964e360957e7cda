import type { Policy, Unknown } from "@/lib/fit";
import { questionsFrom, type Question, type Turn } from "@/lib/insight";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { contentKey } from "./content-key";
import type { TurnShare } from "./fit-worker";
import { keptAnswers } from "./kept-answers";
import { shareOut } from "./share-out";
import { DEFAULT_TIME_LIMIT, SHARES_PER_THREAD, stopAfter, threads } from "./threads";

export interface Questions {
  /** The one that decides most sites first. */
  readonly questions: readonly Question[];
  /** What turns on each site, by its id; none for a site that no unknown number decides. */
  readonly turns: ReadonlyMap<string, readonly Turn[]>;
}

/**
 * What is worth measuring on `rig`, whose unknown numbers stand at their likely values, over all `sites`, worked out on the
 * threads. Sites asked about before with the same numbers are taken from there. Throws `RankingStopped` as a ranking does.
 */
export async function findQuestions(sites: readonly Site[], rig: Rig, unknowns: readonly Unknown[], policy: Policy, signal?: AbortSignal): Promise<Questions> {
  if (unknowns.length === 0) return { questions: [], turns: new Map() };
  const stop = stopAfter(DEFAULT_TIME_LIMIT, signal, `Looking for what to measure on ${sites.length} sites`);
  const pool = threads(), { turns: kept } = keptAnswers();
  const keyOf = (site: Site) => `${contentKey(site)} ${contentKey(rig)} ${contentKey(policy)} ${contentKey(unknowns)}`;
  const open = sites.filter((site) => !kept.has(keyOf(site)));
  const found = new Map(sites.flatMap((site) => { const turns = kept.get(keyOf(site)); return turns ? [[site.id, turns] as const] : []; }));
  try {
    stop.signal.throwIfAborted();
    await Promise.all(shareOut(open, pool.maxThreads * SHARES_PER_THREAD).map(async (share) => {
      const turns = (await pool.run({ sites: share, rig, unknowns, policy } satisfies TurnShare, { name: "solveTurns", signal: stop.signal })) as Turn[][];
      share.forEach((site, i) => {
        found.set(site.id, turns[i]!);
        kept.set(keyOf(site), turns[i]!);
      });
    }));
  } catch (error) {
    throw stop.explain(error);
  }
  return { questions: questionsFrom([...found.values()].flat(), unknowns), turns: found };
}
