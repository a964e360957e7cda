import { existsSync } from "node:fs";
import { availableParallelism } from "node:os";
import path from "node:path";
import Piscina from "piscina";
import { orderResults, type FitResult, type Policy, type Unknowns } from "@/lib/fit";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import type { FitShare } from "./fit-worker";

export interface PoolOptions {
  /** Evaluations per site before it is given up as unsettled; the engine's own default where left out. */
  readonly budget?: number;
  /** What would turn each refusal, too: some tens of answers' work for each. */
  readonly remedies?: boolean;
  /** Numbers that are not known for sure. */
  readonly unknowns?: Unknowns;
  /** The whole ranking is given up after this, in milliseconds. */
  readonly timeLimit?: number;
  /** Gives it up when the one who asked has gone. */
  readonly signal?: AbortSignal;
}

/** A ranking that was given up: it took too long, its asker went, or too many others were waiting. */
export class RankingStopped extends Error {
  override readonly name = "RankingStopped";
  constructor(
    readonly why: "time" | "asker" | "busy",
    message: string,
    options?: ErrorOptions,
  ) {
    super(message, options);
  }
}

/** Nobody waits longer for a page; a ranking of hundreds of sites takes well under a second. */
const defaultTimeLimit = 30_000;
/** Shares per thread: sites differ in difficulty, so equal numbers of them are not equal work. */
const sharesPerThread = 4;
/** Shares waiting beyond which another ranking is refused. */
const longestQueue = 2_000;

/**
 * Ranks `sites` for `rig` on worker threads, best first, the same answer as `rankSites` gives: the thread that
 * answers requests stays free meanwhile.
 */
export async function rankInPool(sites: readonly Site[], rig: Rig, policy: Policy, options: PoolOptions = {}): Promise<FitResult[]> {
  const { budget, remedies = false, unknowns, timeLimit = defaultTimeLimit, signal } = options;
  const clock = AbortSignal.timeout(timeLimit);
  const stop = AbortSignal.any(signal ? [clock, signal] : [clock]);
  const threads = pool();
  try {
    const shares = shareOut(sites, threads.maxThreads * sharesPerThread);
    const solved = await Promise.all(
      shares.map((share): Promise<FitResult[]> => threads.run({ sites: share, rig, policy, remedies, ...(unknowns ? { unknowns } : {}), ...(budget === undefined ? {} : { budget }) } satisfies FitShare, { signal: stop })),
    );
    return orderResults(solved.flat());
  } catch (error) {
    if (clock.aborted) throw new RankingStopped("time", `Ranking ${sites.length} sites took longer than ${timeLimit / 1000} s and was given up.`, { cause: error });
    if (signal?.aborted) throw new RankingStopped("asker", "The ranking was given up: nobody waits for it any more.", { cause: error });
    if (error instanceof Error && /queue is at limit/i.test(error.message)) throw new RankingStopped("busy", "Too many rankings are waiting. Try again in a moment.", { cause: error });
    throw error;
  }
}

/** Ends the threads. A command that used the pool ends by itself only then. */
export async function closePool(): Promise<void> {
  const open = kept.padwrightFitPool;
  delete kept.padwrightFitPool;
  await open?.destroy();
}

/** Survives the reloading of modules in development, where each edit would otherwise leave threads behind. */
const kept = globalThis as typeof globalThis & { padwrightFitPool?: Piscina };

function pool(): Piscina {
  kept.padwrightFitPool ??= new Piscina({
    ...worker(),
    minThreads: 1,
    maxThreads: availableParallelism(),
    idleTimeout: 60_000,
    maxQueue: longestQueue,
  });
  return kept.padwrightFitPool;
}

/** The built worker in production; from its source elsewhere, so that an edit needs no build. */
function worker(): { filename: string; execArgv?: string[] } {
  const built = path.join(process.cwd(), "dist", "fit-worker.mjs");
  if (process.env.NODE_ENV === "production" && existsSync(built)) return { filename: built };
  return { filename: path.join(process.cwd(), "lib", "jobs", "fit-worker.ts"), execArgv: ["--import", "tsx"] };
}

/** Deals the sites out like cards, so that neighbours, which are often alike, go to different shares. */
function shareOut<T>(items: readonly T[], most: number): T[][] {
  const shares: T[][] = Array.from({ length: Math.min(most, items.length) }, () => []);
  items.forEach((item, i) => shares[i % shares.length]?.push(item));
  return shares;
}
