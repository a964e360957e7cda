import { rankSites, type FitResult, type Policy, type Unknowns } from "@/lib/fit";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";

/** A share of one ranking: some of its sites, all else the same. */
export interface FitShare {
  readonly sites: readonly Site[];
  readonly rig: Rig;
  readonly policy: Policy;
  readonly budget?: number;
  readonly remedies?: boolean;
  readonly unknowns?: Unknowns;
}

/** Runs in a worker thread. */
export default function solveShare({ sites, rig, policy, budget, remedies = false, unknowns }: FitShare): FitResult[] {
  return rankSites(sites, rig, policy, { remedies, ...(unknowns ? { unknowns } : {}), ...(budget === undefined ? {} : { budget }) });
}
