import { unitSystems } from "@/lib/measure/parse";
import { getPark } from "@/lib/store/parks";
import { getRates } from "@/lib/store/rates";
import { placesOf } from "@/lib/wording/money";
import type { DraftUnits } from "./draft";

/** What texts are read by, and the currency they are told in. */
export interface DraftContext extends DraftUnits {
  readonly currency: string;
}

/** In the units asked for, or the park's own. A park without rates has no currency yet: then amounts are dollars. */
export async function unitsOfDraft(parkSlug: string, asked: string): Promise<DraftContext> {
  const [park, rates] = await Promise.all([getPark(parkSlug), getRates(parkSlug)]);
  const currency = rates?.card.currency ?? "USD";
  return { units: unitSystems.find((known) => known === asked) ?? park?.units ?? "ft-in", currency, places: placesOf(currency) };
}
