import type { Policy } from "@/lib/fit";
import type { FitCell } from "@/lib/insight";
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

/** A site, and which of the rigs are asked about on it, by their place in the list. */
export interface PairRow {
  readonly site: Site;
  readonly rigs: readonly number[];
}

export interface PairOptions extends MatrixOptions {
  /** A pair that cannot be worked out is null, and the others are worked out all the same; else its error ends the work. */
  readonly singly?: boolean;
}

/** Some rigs on each site, as `fitMatrix` has all of them: `[row][rig]`, undefined where it was not asked for. */
export async function fitPairs(rows: readonly PairRow[], rigs: readonly Rig[], policy: Policy, options: PairOptions = {}): Promise<(FitCell | null | undefined)[][]> {
  const { timeLimit = DEFAULT_TIME_LIMIT, signal, onProgress, singly = false } = options;
  const stop = stopAfter(timeLimit, signal, `Working out ${rigs.length} rigs on ${rows.length} sites`);
  const total = rows.reduce((sum, { rigs: asked }) => sum + asked.length, 0);
  const { known, open } = takeKnown(rows, rigs, policy);
  let done = total - open.reduce((sum, { wanted }) => sum + wanted.length, 0);
  onProgress?.({ done, total });
  try {
    await runShares(sharesOf(open), (share) => solveShare(share, rigs, policy, singly, stop.signal), stop.signal, (row, cells) => {
      row.wanted.forEach((r, i) => { known[row.index]![r] = cells[i]; });
      done += row.wanted.length;
    }, () => onProgress?.({ done, total }));
  } catch (error) {
    throw stop.explain(error);
  }
  return known;
}

/** A site with the rigs that are not known on it. */
interface OpenRow {
  readonly index: number;
  readonly site: Site;
  readonly wanted: readonly number[];
}

function takeKnown(rows: readonly PairRow[], rigs: readonly Rig[], policy: Policy): { known: (FitCell | null | undefined)[][]; open: OpenRow[] } {
  const { cells } = keptAnswers();
  const known = rows.map(({ site, rigs: asked }) => {
    const row = new Array<FitCell | null | undefined>(rigs.length).fill(undefined);
    for (const r of asked) row[r] = cells.get(cellKey(site, rigs[r]!, policy));
    return row;
  });
  const open = rows.flatMap(({ site, rigs: asked }, index) => {
    const wanted = asked.filter((r) => known[index]![r] === undefined);
    return wanted.length > 0 ? [{ index, site, wanted }] : [];
  });
  return { known, open };
}

/** Rows together, as long as they are short: shares of about as many pairs each. A longer row is a share of its own. */
function sharesOf(open: readonly OpenRow[]): OpenRow[][] {
  const shares: OpenRow[][] = [];
  let pairs = Infinity;
  for (const row of open) {
    if (pairs + row.wanted.length > PAIRS_PER_SHARE) { shares.push([]); pairs = 0; }
    shares.at(-1)!.push(row);
    pairs += row.wanted.length;
  }
  return shares;
}

type Cells = readonly (readonly (FitCell | null)[])[];

async function runShares(shares: readonly OpenRow[][], solve: (share: readonly OpenRow[]) => Promise<Cells>, signal: AbortSignal, take: (row: OpenRow, cells: readonly (FitCell | null)[]) => void, afterShare: () => void): Promise<void> {
  const waiting = [...shares];
  const gone = new Promise<never>((_, reject) => {
    if (signal.aborted) reject(signal.reason as Error);
    else signal.addEventListener("abort", () => reject(signal.reason as Error), { once: true });
  });
  const hand = async (): Promise<void> => {
    for (let share = waiting.shift(); share; share = waiting.shift()) {
      signal.throwIfAborted();
      const solved = await solve(share);
      share.forEach((row, i) => take(row, solved[i]!));
      afterShare();
    }
  };
  const hands = Promise.all(Array.from({ length: threads().maxThreads * AHEAD }, hand));
  await Promise.race([hands, gone]);
}

/** Solves a share and keeps its cells. Where it fails and each pair counts by itself, its pairs are tried one by one. */
async function solveShare(share: readonly OpenRow[], rigs: readonly Rig[], policy: Policy, singly: boolean, signal: AbortSignal): Promise<Cells> {
  const { cells: kept } = keptAnswers();
  try {
    const solved = (await threads().run(taskOf(share, rigs, policy), { name: "solveCells" })) as FitCell[][];
    share.forEach((row, i) => row.wanted.forEach((r, j) => kept.set(cellKey(row.site, rigs[r]!, policy), solved[i]![j]!)));
    return solved;
  } catch (error) {
    if (!singly || isRefusal(error)) throw error;
    const pairs = share.flatMap(({ wanted }) => wanted).length;
    if (pairs === 1) return [[null]];
    const rows: (FitCell | null)[][] = [];
    for (const row of share) {
      const cells: (FitCell | null)[] = [];
      for (const r of row.wanted) {
        signal.throwIfAborted();
        cells.push((await solveShare([{ ...row, wanted: [r] }], rigs, policy, true, signal))[0]![0]!);
      }
      rows.push(cells);
    }
    return rows;
  }
}

/** The threads took no more work on: that says nothing of the pair. */
function isRefusal(error: unknown): boolean {
  return error instanceof Error && /queue is at limit/i.test(error.message);
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
