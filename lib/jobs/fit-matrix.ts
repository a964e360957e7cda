import type { Policy } from "@/lib/fit";
import type { FitCell, FitMatrix } from "@/lib/insight";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { contentKey } from "./content-key";
import type { CellShare } from "./fit-worker";
import { keptAnswers } from "./kept-answers";
import { DEFAULT_TIME_LIMIT, stopAfter, threads } from "./threads";

export interface MatrixOptions {
  /** The whole matrix is given up after this, in milliseconds. */
  readonly timeLimit?: number;
  /** Gives it up when the one who asked has gone. */
  readonly signal?: AbortSignal;
  /** Told once at the start, with what was known before, and after every share that is done. */
  readonly onProgress?: (progress: MatrixProgress) => void;
}

/** Pairs of a site and a rig. */
export interface MatrixProgress {
  readonly done: number;
  readonly total: number;
}

/** About this many pairs a share: some 30 ms of work, so that progress is seen and a matrix given up ends soon. */
const PAIRS_PER_SHARE = 48;
/** Shares handed to the threads at a time, for each: one to work on and one to go on with. */
const AHEAD = 2;

/**
 * Every rig on every site. Cells known from before are taken from there, so that a site measured anew costs one row and
 * a rig come anew one column; the rest is solved on worker threads.
 *
 * A matrix given up (by its signal or its time limit, with a `RankingStopped`) hands out no more shares. Those being worked on
 * run to their end and are kept, as a thread that is killed would have to warm up again for the next asker.
 */
export async function fitMatrix(sites: readonly Site[], rigs: readonly Rig[], policy: Policy, options: MatrixOptions = {}): Promise<FitMatrix> {
  const { timeLimit = DEFAULT_TIME_LIMIT, signal, onProgress } = options;
  const stop = stopAfter(timeLimit, signal, `Working out ${rigs.length} rigs on ${sites.length} sites`);
  const total = sites.length * rigs.length;
  const { known, open } = takeKnown(sites, rigs, policy);
  let done = total - open.reduce((sum, { wanted }) => sum + wanted.length, 0);
  onProgress?.({ done, total });
  try {
    await runShares(sharesOf(open, rigs.length), rigs, policy, stop.signal, (row, cells) => {
      row.wanted.forEach((r, i) => { known[row.index]![r] = cells[i]!; });
      done += row.wanted.length;
    }, () => onProgress?.({ done, total }));
  } catch (error) {
    throw stop.explain(error);
  }
  return { sites, rigs, cells: known as FitCell[][] };
}

/** A site with the rigs that are not known on it. */
interface OpenRow {
  readonly index: number;
  readonly site: Site;
  readonly wanted: readonly number[];
}

function takeKnown(sites: readonly Site[], rigs: readonly Rig[], policy: Policy): { known: (FitCell | undefined)[][]; open: OpenRow[] } {
  const { cells } = keptAnswers();
  const known = sites.map((site) => rigs.map((rig) => cells.get(cellKey(site, rig, policy))));
  const open = sites.flatMap((site, index) => {
    const wanted = rigs.map((_, r) => r).filter((r) => known[index]![r] === undefined);
    return wanted.length > 0 ? [{ index, site, wanted }] : [];
  });
  return { known, open };
}

function sharesOf(open: readonly OpenRow[], rigs: number): OpenRow[][] {
  const rows = Math.max(1, Math.floor(PAIRS_PER_SHARE / Math.max(1, rigs)));
  return Array.from({ length: Math.ceil(open.length / rows) }, (_, i) => open.slice(i * rows, (i + 1) * rows));
}

async function runShares(shares: readonly OpenRow[][], rigs: readonly Rig[], policy: Policy, signal: AbortSignal, take: (row: OpenRow, cells: readonly FitCell[]) => void, afterShare: () => void): Promise<void> {
  const pool = threads(), { cells: kept } = keptAnswers();
  const waiting = [...shares];
  const gone = new Promise<never>((_, reject) => {
    if (signal.aborted) reject(signal.reason as Error);
    else signal.addEventListener("abort", () => reject(signal.reason as Error), { once: true });
  });
  const hand = async (): Promise<void> => {
    for (let share = waiting.shift(); share; share = waiting.shift()) {
      signal.throwIfAborted();
      const solved = (await pool.run(taskOf(share, rigs, policy), { name: "solveCells" })) as FitCell[][];
      share.forEach((row, i) => {
        row.wanted.forEach((r, j) => kept.set(cellKey(row.site, rigs[r]!, policy), solved[i]![j]!));
        take(row, solved[i]!);
      });
      afterShare();
    }
  };
  const hands = Promise.all(Array.from({ length: pool.maxThreads * AHEAD }, hand));
  await Promise.race([hands, gone]);
}

/** Only the rigs that some site of the share wants are sent along. */
function taskOf(share: readonly OpenRow[], rigs: readonly Rig[], policy: Policy): CellShare {
  const sent = [...new Set(share.flatMap(({ wanted }) => wanted))];
  const at = new Map(sent.map((r, i) => [r, i]));
  return { sites: share.map(({ site }) => site), rigs: sent.map((r) => rigs[r]!), wanted: share.map(({ wanted }) => wanted.map((r) => at.get(r)!)), policy };
}

function cellKey(site: Site, rig: Rig, policy: Policy): string {
  return `${contentKey(site)} ${contentKey(rig)} ${contentKey(policy)}`;
}
