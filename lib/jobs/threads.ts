import { existsSync } from "node:fs";
import { availableParallelism } from "node:os";
import path from "node:path";
import { MessageChannel, type MessagePort } from "node:worker_threads";
import Piscina from "piscina";

/** Work that was given up: it took too long, its asker went, or too much else was waiting. No answer about any site. */
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

/** Nobody waits longer for a page. Milliseconds. */
export const DEFAULT_TIME_LIMIT = 30_000;

/** Shares of one piece of work per thread: sites differ in difficulty, so equal numbers of them are not equal work. */
export const SHARES_PER_THREAD = 4;

/** Tasks waiting beyond which more are refused. */
const LONGEST_QUEUE = 2_000;

/** Survives the reloading of modules in development, where each edit would otherwise leave threads behind. */
const kept = globalThis as typeof globalThis & { padwrightFitPool?: Piscina };

/** The threads that solve: one for each core. */
export function threads(): Piscina {
  kept.padwrightFitPool ??= openPool();
  return kept.padwrightFitPool;
}

function openPool(): Piscina {
  const pool = new Piscina({
    ...worker(),
    minThreads: 1,
    maxThreads: availableParallelism(),
    idleTimeout: 60_000,
    maxQueue: LONGEST_QUEUE,
  });
  // An answer that was under way when its asker gave up is an error to the library, and one that nobody listens to ends the process. What a task fails with reaches its asker as well.
  pool.on("error", () => undefined);
  return pool;
}

/** Ends the threads. A command that used them ends by itself only then. */
export async function closePool(): Promise<void> {
  const open = kept.padwrightFitPool;
  delete kept.padwrightFitPool;
  await open?.destroy();
}

/** What ends a piece of work before its time, and the words for it. */
export interface Stop {
  readonly signal: AbortSignal;
  /** The error to throw in place of `error`, which something that was stopped threw. */
  readonly explain: (error: unknown) => unknown;
}

/** Stops after `timeLimit` milliseconds, or when `asker` goes. `what` begins its sentence: "Ranking 72 sites". */
export function stopAfter(timeLimit: number, asker: AbortSignal | undefined, what: string): Stop {
  const clock = AbortSignal.timeout(timeLimit);
  return {
    signal: AbortSignal.any(asker ? [clock, asker] : [clock]),
    explain: (error) => {
      if (clock.aborted) return new RankingStopped("time", `${what} took longer than ${timeLimit / 1000} s and was given up.`, { cause: error });
      if (asker?.aborted) return new RankingStopped("asker", `${what} was given up: nobody waits for it any more.`, { cause: error });
      return explainBusy(error);
    },
  };
}

/** A task whose thread says over `begun` that it takes it up. */
export interface TimedTask<T> {
  readonly task: T;
  readonly begun: MessagePort;
}

/**
 * Has a thread do `task`, for at most `timeLimit` milliseconds from when one takes it up: that a thread had to start, or was at other work, says
 * nothing of how long the task takes. Where none takes it up for as long as anybody waits for a page, too much else is at work. Throws
 * `RankingStopped`.
 */
export async function runTimed<T>(name: string, task: T, timeLimit: number, what: string): Promise<unknown> {
  const { port1: word, port2: begun } = new MessageChannel(), ended = new AbortController();
  let taken = false, clock = setTimeout(() => ended.abort(), DEFAULT_TIME_LIMIT);
  word.once("message", () => {
    clearTimeout(clock);
    taken = true;
    clock = setTimeout(() => ended.abort(), timeLimit);
  });
  try {
    return await threads().run({ task, begun } satisfies TimedTask<T>, { name, signal: ended.signal, transferList: [begun] });
  } catch (error) {
    if (!ended.signal.aborted) throw explainBusy(error);
    throw taken ? new RankingStopped("time", `${what} took longer than ${timeLimit / 1000} s and was given up.`, { cause: error }) : new RankingStopped("busy", BUSY, { cause: error });
  } finally {
    clearTimeout(clock);
    word.close();
  }
}

const BUSY = "Too much else is waiting to be worked out. Try again in a moment.";

const explainBusy = (error: unknown): unknown => (error instanceof Error && /queue is at limit/i.test(error.message) ? new RankingStopped("busy", BUSY, { cause: error }) : error);

/** The built worker in production; from its source elsewhere, so that an edit needs no build. */
function worker(): { filename: string; execArgv?: string[] } {
  const built = path.join(process.cwd(), "dist", "fit-worker.mjs");
  if (process.env.NODE_ENV === "production" && existsSync(built)) return { filename: built };
  return { filename: path.join(process.cwd(), "lib", "jobs", "fit-worker.ts"), execArgv: ["--import", "tsx"] };
}
