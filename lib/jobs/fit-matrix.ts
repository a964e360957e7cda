import type { Policy } from "@/lib/fit";
import type { FitCell, FitMatrix } from "@/lib/insight";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { fitPairs, type MatrixOptions } from "./fit-pairs";

export type { MatrixOptions, MatrixProgress } from "./fit-pairs";

/**
 * Every rig on every site. Cells known from before are taken from there, so that a site measured anew costs one row and
 * a rig come anew one column; the rest is solved on worker threads.
 *
 * A matrix given up (by its signal or its time limit, with a `RankingStopped`) hands out no more shares. Those being worked on
 * run to their end and are kept, as a thread that is killed would have to warm up again for the next asker.
 */
export async function fitMatrix(sites: readonly Site[], rigs: readonly Rig[], policy: Policy, options: MatrixOptions = {}): Promise<FitMatrix> {
  const all = rigs.map((_, r) => r);
  return { sites, rigs, cells: (await fitPairs(sites.map((site) => ({ site, rigs: all })), rigs, policy, options)) as FitCell[][] };
}
