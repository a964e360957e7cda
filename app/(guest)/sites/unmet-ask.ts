import type { FitResult } from "@/lib/fit";
import { guestMayHave } from "@/lib/jobs/stay-fit";
import type { Rig } from "@/lib/rig";
import type { Nights, Wanted } from "@/lib/stays";
import type { UnmetAsk } from "@/lib/store/unmet";

const anything: Wanted = { loop: undefined, services: [] };

/** What a request that found nothing is kept as: how many sites each thing turned the rig away from, how many fit and were taken. `results` are those of the sites that were asked about, none of them free and fitting. */
export function unmetAsk({ nights }: { readonly nights: Nights }, rig: Rig, results: readonly FitResult[], wanted: Wanted = anything): UnmetAsk {
  const turnedAway: Record<string, number> = {};
  for (const { verdict, reasons } of results) for (const code of new Set(verdict === "no" ? reasons.map((reason) => reason.code) : [])) turnedAway[code] = (turnedAway[code] ?? 0) + 1;
  return { nights, rig, wanted, reasons: { turnedAway, taken: results.filter(({ verdict }) => guestMayHave(verdict)).length } };
}
