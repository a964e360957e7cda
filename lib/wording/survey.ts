import type { Units } from "@/lib/measure";
import type { SurveyNote } from "@/lib/survey";
import { catalogueOf, numbersFor, type Language } from "./catalogue";

/** What to mend or to mind, as a sentence. `nameOf` gives the words for what is to be measured again, such as "from corner A". */
export function surveyNoteSentence({ code, again, by }: SurveyNote, nameOf: (name: string) => string, units: Units, language?: Language): string {
  return catalogueOf(language).surveyNotes[code]({ again: again.map(nameOf), by: by === null ? "" : numbersFor(units, language).lacking(by) });
}
