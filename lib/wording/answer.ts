import type { Ask, Bring, FitResult, Reason, Remedy } from "@/lib/fit/types";
import type { Units } from "@/lib/measure";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import type { Language } from "./catalogue";
import { askSentence } from "./asks";
import { remedySentence } from "./changes";
import { bringSentence, sentence } from "./sentences";

/** A result as the open interface hands it out: with a sentence beside every reason, everything to bring, every measurement asked for and every remedy. */
export interface WordedResult extends Omit<FitResult, "reasons" | "bring" | "remedies" | "asks"> {
  readonly reasons: readonly (Reason & { readonly text: string })[];
  readonly bring: readonly (Bring & { readonly text: string })[];
  readonly remedies: readonly (Remedy & { readonly text: string })[];
  readonly asks: readonly (Ask & { readonly text: string })[];
}

export interface Answer {
  readonly results: readonly WordedResult[];
}

/** The answer that the API and the command line both give. Results keep their order. */
export function answerOf(results: readonly FitResult[], sites: readonly Site[], rig: Rig, units: Units, language?: Language): Answer {
  const byId = new Map(sites.map((site) => [site.id, site]));
  return { results: results.map((result) => wordResult(result, byId.get(result.site), rig, units, language)) };
}

function wordResult(result: FitResult, site: Site | undefined, rig: Rig, units: Units, language?: Language): WordedResult {
  if (!site) throw new RangeError(`a result names site "${result.site}", which is not among the sites asked about`);
  return {
    ...result,
    reasons: result.reasons.map((reason) => ({ ...reason, text: sentence(reason, site, rig, units, result, language) })),
    asks: result.asks.map((ask) => ({ ...ask, text: askSentence(ask, site, rig, units, language) })),
    remedies: result.remedies.map((remedy) => ({ ...remedy, text: remedySentence(remedy, site, rig, units, language) })),
    bring: result.bring.map((item) => ({ ...item, text: bringSentence(item, rig, units, language) })),
  };
}
