import type { FitResult, Reason } from "@/lib/fit/types";
import { hindrancesOf } from "./hindrances";
import type { FitCell } from "./types";

/** What a matrix keeps of an answer. */
export function cellOf(result: FitResult): FitCell {
  return {
    verdict: result.verdict,
    tight: result.tight,
    reason: firstReason(result.reasons),
    needs: result.needs.map(({ service, ok }) => ({ service, ok })),
    level: { ok: result.level.ok },
    bring: result.bring.map(({ code }) => code),
    turnedAwayBy: result.verdict === "no" ? hindrancesOf(result) : [],
  };
}

/** A wish decides no verdict, so it is none of the reasons for one. */
function firstReason(reasons: readonly Reason[]): Reason | null {
  return reasons.find(({ code }) => !code.startsWith("wish:")) ?? null;
}
