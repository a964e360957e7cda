import type { Entry } from "@/app/(guest)/sites/filters";
import { defaultPolicy, rankSites } from "@/lib/fit";
import { demoRig, demoSites } from "../wording/scene";

/** The demo park answered for one of its rigs, best first. */
export function answered(rigId: string): Entry[] {
  return rankSites(demoSites, demoRig(rigId), defaultPolicy).map((result) => ({ result, site: demoSites.find((s) => s.id === result.site)! }));
}
