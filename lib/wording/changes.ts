import { remedyOwner, type Owner } from "@/lib/fit/refusal/changes";
import type { Change, FitResult, Remedy } from "@/lib/fit/types";
import type { Units } from "@/lib/measure";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { catalogueOf, numbersFor, type Language } from "./catalogue";
import { bringSentence } from "./sentences";
import { rigThing, siteThing, vehicleOf, type Thing } from "./things";

/** What would turn a refusal, as one sentence or two. */
export function remedySentence({ changes, bring }: Remedy, site: Site, rig: Rig, units: Units, language?: Language): string {
  const words = catalogueOf(language), n = numbersFor(units, language);
  return words.together(changes.map((change) => words.change(change, thingOf(change, site, rig), n)), bring.map((item) => bringSentence(item, rig, units, language)));
}

/** Remedies as sentences by whose job they are, easiest first; a pair that is partly the park's is the park's. `none` where there are none. */
export function remediesInWords({ remedies }: Pick<FitResult, "remedies">, site: Site, rig: Rig, units: Units, language?: Language): Record<Owner, string[]> & { none: string | null } {
  const words = catalogueOf(language);
  const of = (owner: Owner) => remedies.filter((remedy) => ownerOf(remedy) === owner).map((remedy) => remedySentence(remedy, site, rig, units, language));
  return { guest: of("guest"), park: of("park"), none: remedies.length === 0 ? words.remedyWords.none : null };
}

function ownerOf({ changes }: Remedy): Owner {
  return changes.every((change) => remedyOwner(change) === "guest") ? "guest" : "park";
}

function thingOf(change: Change, site: Site, rig: Rig): Thing | null {
  switch (change.code) {
    case "remove": case "trim": case "move": case "add-receptacle": return siteThing(change.what, site);
    case "leave-in": return rigThing(change.what, rig);
    case "park-elsewhere": return vehicleOf(rig);
    default: return null;
  }
}
