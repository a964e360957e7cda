import type { FitResult } from "@/lib/fit/types";
import type { Units } from "@/lib/measure";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { catalogueOf, numbersFor, type Language } from "./catalogue";
import { sentence } from "./sentences";

/** Within this of the comfort a park aims for, room is plenty (the search settles it to 5 mm). */
const SETTLED = 10;

/**
 * One line on why a site stands where it does in the order: for a place that was found, what decides the order; for
 * a refusal, the first thing that stands against it.
 */
export function placeInWords(site: Site, rig: Rig, result: FitResult, comfort: number, units: Units, language?: Language): string {
  if (!result.pose) {
    const first = result.reasons.find((r) => !r.code.startsWith("wish:"));
    return first ? sentence(first, site, rig, units, result, language) : catalogueOf(language).verdicts[result.verdict].line;
  }
  return catalogueOf(language).line([roomWords(result, comfort, units, language), ...runWords(result, units, language), liftWords(result, units, language)]);
}

function roomWords({ room, tight }: FitResult, comfort: number, units: Units, language?: Language): string {
  const { order } = catalogueOf(language).pages, n = numbersFor(units, language);
  const spare = n.spare(Math.max(0, room ?? 0));
  if (tight) return /^0 /.test(spare) ? order.noRoom : order.tight(spare);
  return (room ?? 0) >= comfort - SETTLED ? order.plenty : order.room(spare);
}

function runWords({ needs }: FitResult, units: Units, language?: Language): string[] {
  const { pages: { order }, things } = catalogueOf(language);
  const longest = needs.reduce<FitResult["needs"][number] | null>((most, need) => ((need.route ?? 0) > (most?.route ?? 0) ? need : most), null);
  return longest?.route ? [order.run(things.services[longest.service], numbersFor(units, language).lacking(longest.route))] : [];
}

function liftWords({ level }: FitResult, units: Units, language?: Language): string {
  const { order } = catalogueOf(language).pages;
  const lift = Math.max(level.side, level.along);
  return lift > 0 ? order.lift(numbersFor(units, language).lacking(lift)) : order.noBlocks;
}
