import type { ExchangeFile, ImportPlan, Inventory, Missing } from "@/lib/exchange";
import type { UploadTask } from "./read-upload";
import { stopAfter, threads } from "./threads";

/** Ten thousand sites take some seconds of it; a file that is made to take long is stopped by force. Milliseconds. */
const TIME_LIMIT = 30_000;

/**
 * What the files of an upload would change, worked out away from the thread that answers requests. Throws `RankingStopped` where that takes too
 * long, its asker goes or too much else waits.
 */
export async function planUpload(files: readonly ExchangeFile[], inventory: Inventory, missing: Missing, options: { readonly signal?: AbortSignal; readonly timeLimit?: number } = {}): Promise<ImportPlan> {
  const stop = stopAfter(options.timeLimit ?? TIME_LIMIT, options.signal, "Reading the files");
  try {
    stop.signal.throwIfAborted();
    return (await threads().run({ files, inventory, missing } satisfies UploadTask, { name: "readUpload", signal: stop.signal })) as ImportPlan;
  } catch (error) {
    throw stop.explain(error);
  }
}
