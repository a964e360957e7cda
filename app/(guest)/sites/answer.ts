import { RankingStopped, rankInPool } from "@/lib/jobs/fit-pool";
import type { Unknown } from "@/lib/fit";
import { findQuestions } from "@/lib/jobs/find-questions";
import { withAsks, type Question } from "@/lib/insight";
import type { Rig } from "@/lib/rig";
import { list } from "../../components/rig-form/params";
import type { Params } from "../../components/rig-form/params";
import type { Asked } from "../context";
import { noFilters, type Standpoint } from "./address";
import { readFilters, type Entry } from "./filters";

/** Ticked sites beyond this are not even looked at. */
const MOST_PICKED = 6;

/** Every site with its answer, best first; or why there is none. */
export type Answer = { readonly entries: readonly Entry[]; readonly questions: readonly Question[] } | { readonly stopped: RankingStopped["why"] };

/** Ranks every site of the park for the rig. A ranking that was given up is an answer too; anything else that fails is an error. */
export async function answerFor({ sites, park: { policy }, form }: Asked, rig: Rig): Promise<Answer> {
  try {
    const byId = new Map(sites.map((s) => [s.id, s]));
    const [likely, { questions, turns }] = await Promise.all([rankInPool(sites, rig, policy, { access: true }), findQuestions(sites, rig, unknownOf(form), policy)]);
    const results = withAsks(likely, turns);
    return { entries: results.flatMap((result) => (byId.has(result.site) ? [{ result, site: byId.get(result.site)! }] : [])), questions };
  } catch (error) {
    if (error instanceof RankingStopped) return { stopped: error.why };
    throw error;
  }
}

/** What nobody measured and may decide. A typical hitch under a length that was told only moves the wall behind it, and is left out. */
function unknownOf(form: Asked["form"]): readonly Unknown[] {
  return form?.assumed.filter(({ field }) => field !== "rig.hitch.length") ?? [];
}

export function standpointOf(params: Params, { form, units, sites }: Asked): Standpoint {
  const picked = [...new Set(list(params.site))].filter((id) => sites.some((s) => s.id === id)).slice(0, MOST_PICKED);
  return { skipped: list(params.skip), query: form?.query ?? "", units, filters: form ? readFilters(params, sites) : noFilters, picked };
}
