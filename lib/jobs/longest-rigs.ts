import type { Policy } from "@/lib/fit";
import { hasSlides, type LengthSteps, type LengthVariant, type LongestFit } from "@/lib/insight";
import type { Site } from "@/lib/park";
import { typicalKinds } from "@/lib/rig";
import { contentKey } from "./content-key";
import type { LongestShare } from "./fit-worker";
import { keptAnswers } from "./kept-answers";
import type { MatrixOptions } from "./fit-matrix";
import { DEFAULT_TIME_LIMIT, stopAfter, threads } from "./threads";

/** The longest rig of every kind that a site takes, with its slides and without, on worker threads. Kinds in the order of `typicalKinds`. */
export async function longestRigs(site: Site, policy: Policy, steps: LengthSteps, options: Pick<MatrixOptions, "signal" | "timeLimit"> = {}): Promise<readonly LongestFit[]> {
  const { longest: kept } = keptAnswers();
  const key = `${contentKey(site)} ${contentKey(policy)} ${steps.coarse}/${steps.fine}`;
  const known = kept.get(key);
  if (known) return known;
  const stop = stopAfter(options.timeLimit ?? DEFAULT_TIME_LIMIT, options.signal, "Looking for the longest rigs");
  try {
    stop.signal.throwIfAborted();
    const found = (await Promise.all(typicalKinds.map(async (kind) => {
      const variants: LengthVariant[] = hasSlides(kind) ? ["slides", "no-slides"] : ["no-slides"];
      return (await threads().run({ site, kind, variants, steps, policy } satisfies LongestShare, { name: "solveLongest", signal: stop.signal })) as LongestFit[];
    }))).flat();
    kept.set(key, found);
    return found;
  } catch (error) {
    throw stop.explain(error);
  }
}
