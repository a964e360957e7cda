import type { Means, Reason } from "@/lib/fit/types";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import type { Numbers } from "../format";
import type { Thing } from "../things";

/** What a sentence about a reason may draw on. */
export interface Telling {
  readonly reason: Reason;
  /** `reason.parts`, resolved. */
  readonly named: readonly Thing[];
  readonly site: Site;
  readonly rig: Rig;
  /** What else has to hold at the same time, as clauses; empty for what fails by itself. */
  readonly conditions: readonly string[];
  readonly n: Numbers;
  /** How the need behind the reason was met, where the result is at hand. */
  readonly means: Means | null;
}
