import { toStoreError } from "@/lib/store/errors";
import { log } from "@/lib/store/log";

/** Something that is done over and over by itself. Several processes may do it at once: it claims what it works on in the database. */
export interface Chore {
  /** For the log. */
  readonly name: string;
  /** How long after one time the next begins, milliseconds. */
  readonly every: number;
  /** Does what is due. Stops early, with nothing half done, once `stop` is aborted. */
  readonly run: (stop: AbortSignal) => Promise<void>;
}

/** A chore that fails, the database being away first of all, is tried ever less often, up to this, milliseconds. */
const longestPause = 5 * 60_000;

/** Does each chore in a loop of its own until the function returned is called, which resolves when none is at work any more. */
export function keepDoing(chores: readonly Chore[]): () => Promise<void> {
  const stop = new AbortController();
  const loops = chores.map((chore) => loop(chore, stop.signal));
  return async () => {
    stop.abort();
    await Promise.all(loops);
  };
}

/** How long to wait after so many failures in a row, milliseconds. */
export function pauseAfter(failures: number, every: number): number {
  return failures === 0 ? every : Math.max(every, Math.min(longestPause, every * 2 ** Math.min(failures, 30)));
}

async function loop({ name, every, run }: Chore, stop: AbortSignal): Promise<void> {
  // Processes that start together do not all come at once.
  let pause = every * Math.random();
  for (let failures = 0; await passed(pause, stop); pause = pauseAfter(failures, every)) {
    try {
      await run(stop);
      if (failures > 0) log.info({ chore: name, failures }, "a chore works again");
      failures = 0;
    } catch (error) {
      failures++;
      log.warn({ chore: name, kind: toStoreError(error).kind, failures, err: error }, "a chore failed; it is tried again later");
    }
  }
}

/** Waits; false where it was told to stop. Keeps no process alive. */
function passed(pause: number, stop: AbortSignal): Promise<boolean> {
  if (stop.aborted) return Promise.resolve(false);
  return new Promise((resolve) => {
    const timer = setTimeout(() => end(true), pause).unref();
    const onStop = () => end(false);
    const end = (whole: boolean) => {
      clearTimeout(timer);
      stop.removeEventListener("abort", onStop);
      resolve(whole);
    };
    stop.addEventListener("abort", onStop, { once: true });
  });
}
