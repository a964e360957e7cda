import type { Policy } from "@/lib/fit/policy";
import type { MatrixProgress } from "@/lib/jobs/fit-matrix";
import { RankingStopped } from "@/lib/jobs/fit-pool";
import { weighSites, type SiteEffects, type SiteEffectsAsked } from "@/lib/jobs/site-effects";

export type Weighed =
  | { readonly state: "done"; readonly effects: SiteEffects }
  | { readonly state: "open"; readonly progress: MatrixProgress }
  | { readonly state: "busy" };

/** Nobody waits longer than this for an empty page: what is not known by then is worked out with progress in sight. Milliseconds. */
const patience = 600;
/** Who has no script to follow the progress by asks again by itself, and then waits this long. */
const longPatience = 20_000;

/** What the change means where that is known or soon done; else how far it came, which is kept. */
export async function weighSoon(asked: SiteEffectsAsked, policy: Policy, patient: boolean): Promise<Weighed> {
  let progress: MatrixProgress = { done: 0, total: 1 };
  try {
    return { state: "done", effects: await weighSites(asked, policy, { timeLimit: patient ? longPatience : patience, onProgress: (told) => { progress = told; } }) };
  } catch (error) {
    if (!(error instanceof RankingStopped)) throw error;
    return error.why === "busy" ? { state: "busy" } : { state: "open", progress };
  }
}
