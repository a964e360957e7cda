import { guestMayHave } from "@/lib/jobs/stay-fit";
import type { Rig } from "@/lib/rig";
import type { UnmetAsk } from "@/lib/store/unmet";
import type { Offers } from "../offers";
import type { Entry } from "./filters";

/** What a request that found nothing is kept as: how many sites each thing turned the rig away from. */
export function unmetAsk({ nights }: Pick<Offers, "nights">, rig: Rig, entries: readonly Entry[]): UnmetAsk {
  const turnedAway: Record<string, number> = {};
  for (const { result } of entries) for (const code of new Set(result.verdict === "no" ? result.reasons.map((reason) => reason.code) : [])) turnedAway[code] = (turnedAway[code] ?? 0) + 1;
  return { nights, rig, wanted: { loop: undefined, services: [] }, reasons: { turnedAway, taken: entries.filter(({ result }) => guestMayHave(result.verdict)).length } };
}
