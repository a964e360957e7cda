import type { Change, Remedy } from "@/lib/fit/types";
import type { Units } from "@/lib/measure";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { catalogueOf, numbersFor, type Language } from "./catalogue";
import { rigThing, siteThing, vehicleOf, type Thing } from "./things";

/** What would turn a refusal, as one sentence or two. */
export function remedySentence({ changes }: Remedy, site: Site, rig: Rig, units: Units, language?: Language): string {
  const words = catalogueOf(language), n = numbersFor(units, language);
  return words.together(changes.map((change) => words.change(change, thingOf(change, site, rig), n)));
}

function thingOf(change: Change, site: Site, rig: Rig): Thing | null {
  switch (change.code) {
    case "remove": case "trim": case "move": case "add-receptacle": return siteThing(change.what, site);
    case "leave-in": return rigThing(change.what, rig);
    case "park-elsewhere": return vehicleOf(rig);
    default: return null;
  }
}
