import type { MatrixOptions, MatrixProgress } from "@/lib/jobs/fit-pairs";
import { RankingStopped } from "@/lib/jobs/fit-pool";

/** What a change means, or how far it is worked out. */
export type Weighed<T> =
  | { readonly state: "done"; readonly effects: T }
  | { readonly state: "open"; readonly progress: MatrixProgress }
  | { readonly state: "busy" };

/** Nobody waits longer than this for an empty page: what is not known by then is worked out with progress in sight. Milliseconds. */
const patience = 500;
/** Who has no script to follow the progress by asks again by itself, and then waits this long. */
const longPatience = 20_000;

/** The effects where they are known or soon done; else how far they came, which is kept by whoever works them out. */
export async function weighSoon<T>(weigh: (options: MatrixOptions) => Promise<T>, patient: boolean): Promise<Weighed<T>> {
  let progress: MatrixProgress = { done: 0, total: 1 };
  try {
    return { state: "done", effects: await weigh({ timeLimit: patient ? longPatience : patience, onProgress: (told) => { progress = told; } }) };
  } catch (error) {
    if (!(error instanceof RankingStopped)) throw error;
    return error.why === "busy" ? { state: "busy" } : { state: "open", progress };
  }
}
