import type { Effect, Question } from "@/lib/insight/questions";
import { effectsOf } from "@/lib/insight/questions";
import type { Units } from "@/lib/measure";
import type { Rig } from "@/lib/rig";
import { whatToMeasure } from "./asks";
import { catalogueOf, numbersFor, type Language } from "./catalogue";

/** A question as a guest reads it: what to measure, what was taken for it, and what the answer may change. */
export interface WordedQuestion {
  readonly measure: string;
  readonly taken: string;
  readonly effects: readonly string[];
}

export function questionInWords(question: Question, rig: Rig, units: Units, language?: Language): WordedQuestion {
  const words = catalogueOf(language);
  const { field, typical } = question.unknown;
  const effects = effectsOf(question).map((effect) => effectSentence(effect, field, units, language));
  const joint = question.turns.every(({ together }) => together.length > 0);
  return {
    measure: words.questions.measure(whatToMeasure(field, null, rig, words)),
    taken: words.questions.nowAt(isPower(field) ? `${Math.round(typical)} VA` : numbersFor(units, language).measured(typical)),
    effects: [...(effects.length > 0 ? effects : [words.questions.gearOnly]), ...(joint ? [words.questions.together] : [])],
  };
}

/** Rounded to the side where fewer sites fit, so that a measurement near the turn is never taken for the better one. */
function effectSentence({ change, side, first, last, sites }: Effect, field: string, units: Units, language?: Language): string {
  const n = numbersFor(units, language);
  const round = (side === "below") === (change === "more") ? n.spare : n.lacking;
  const value = (turnsAt: number) => (isPower(field) ? `${Math.round(turnsAt)} VA` : round(turnsAt));
  return catalogueOf(language).questions.effect({ change, side, first: value(first), last: value(last), sites: sites.length });
}

function isPower(field: string): boolean {
  return field.endsWith(".va");
}
