import type { Policy, Verdict } from "@/lib/fit";
import { candidatesFor, gainsOf, type Gain } from "@/lib/insight";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { contentKey } from "./content-key";
import { rankInPool } from "./fit-pool";
import type { VerdictShare } from "./fit-worker";
import { keptAnswers } from "./kept-answers";
import type { MatrixOptions } from "./fit-matrix";
import { DEFAULT_TIME_LIMIT, stopAfter, threads } from "./threads";

/**
 * What one change to a site would let in of the rigs it turns away, the change that lets in most first. `refused` are the rigs
 * it turns away; the gains name them by their place there. Each change is one that would turn some refusal, and each
 * rig is solved anew with it.
 */
export async function weighChanges(site: Site, refused: readonly Rig[], policy: Policy, options: Pick<MatrixOptions, "signal" | "timeLimit"> = {}): Promise<readonly Gain[]> {
  const { gains: kept } = keptAnswers();
  const key = `${contentKey(site)} ${contentKey(policy)} ${refused.map(contentKey).join(" ")}`;
  const known = kept.get(key);
  if (known) return known;
  const { timeLimit = DEFAULT_TIME_LIMIT, signal } = options;
  const stop = stopAfter(timeLimit, signal, "Weighing what would let more rigs in");
  try {
    const answers = await Promise.all(refused.map((rig) => rankInPool([site], rig, policy, { remedies: true, timeLimit, signal: stop.signal })));
    const candidates = candidatesFor(site, refused.map((rig, r) => ({ rig, remedies: answers[r]![0]!.remedies })), policy);
    const verdicts = await Promise.all(candidates.map(async (candidate) => {
      const [row] = (await threads().run({ sites: [candidate.site], rigs: refused, policy: candidate.policy } satisfies VerdictShare, { name: "solveVerdicts", signal: stop.signal })) as Verdict[][];
      return row!;
    }));
    const gains = gainsOf(candidates, verdicts);
    kept.set(key, gains);
    return gains;
  } catch (error) {
    throw stop.explain(error);
  }
}
