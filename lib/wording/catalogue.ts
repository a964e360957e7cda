import { numbersIn, type Numbers } from "./format";
import type { Units } from "@/lib/measure";
import { en } from "./en";

/**
 * Every language is one catalogue of the same shape: words as texts, sentences as functions of data. Another
 * language is another folder beside `en` and one line here; the type checker lists what it still lacks.
 */
export type Catalogue = typeof en;
export type Language = "en";
export const languages: Record<Language, Catalogue> = { en };

export function catalogueOf(language: Language = "en"): Catalogue {
  return languages[language];
}

export function numbersFor(units: Units, language: Language = "en"): Numbers {
  return numbersIn(units, languages[language].thousands);
}
