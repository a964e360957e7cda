import type { Ask, Verdict } from "@/lib/fit/types";
import type { Units } from "@/lib/measure";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { catalogueOf, numbersFor, type Catalogue, type Language } from "./catalogue";
import { rigThing, siteThing, vehicleOf } from "./things";

/** What to measure, and what the answer turns to on either side of the value, as two sentences. Where the site's own survey is too rough, that it is. */
export function askSentence(ask: Ask, site: Site, rig: Rig, units: Units, language?: Language): string {
  const words = catalogueOf(language);
  if (site.survey && ask.field.startsWith("site.")) {
    const { what, told } = siteMeasure(ask, site, rig, words);
    return words.surveyAsk.again(what, valueOf(told, units, language), told.below, told.above);
  }
  return words.ask(whatToMeasure(ask.field, site, rig, words), valueOf(ask, units, language), ask.below, ask.above);
}

/** What to hold the tape to, for a field such as `rig.inlets.2.u`. `site` may be null where the field is the rig's. */
export function whatToMeasure(field: string, site: Site | null, rig: Rig, { measure, things }: Catalogue): string {
  const [root, group, index, ...rest] = field.split(".");
  const last = rest.at(-1) ?? index ?? "", k = Number(index);
  if (root === "site") {
    if (group === "ground") return measure.slope(last);
    const id = group === "obstacles" ? site?.obstacles[k]?.id : site?.hookups[k]?.id;
    const named = id === undefined || !site ? null : siteThing(id, site);
    if (!named) return measure.other(field);
    return group === "obstacles" ? measure.obstacle(last, named) : measure.hookup(named);
  }
  switch (group) {
    case "body": return measure.body(last);
    case "hitch": return measure.hitch();
    case "gear": return measure.gear(last);
    case "tow": return measure.tow(last, vehicleOf(rig));
    case "inlets": return measure.inlet(last, rig.inlets[k]?.kind ?? "");
    case "electric": return measure.load(things.theLoad(rig.electric?.loads[Number(rest[0])]?.id ?? "it"));
    case "parts": {
      const named = rigThing(rig.parts[k]?.id ?? "", rig);
      return named ? measure.part(rest.join("."), named) : measure.other(field);
    }
    default: return measure.other(field);
  }
}

/** What of the site to measure. A place is told as how far it lies from the pad's front edge or center line; on the other side of those, the number and its outcomes change sides. */
function siteMeasure(ask: Ask, site: Site, rig: Rig, words: Catalogue): { readonly what: string; readonly told: Ask } {
  const { surveyAsk: say } = words, [, group = "", index, ...rest] = ask.field.split(".");
  const last = rest.at(-1) ?? "", mirrored: Ask = { ...ask, turnsAt: -ask.turnsAt, below: ask.above, above: ask.below };
  const told = ask.turnsAt < 0 && !ask.field.startsWith("site.ground.") ? mirrored : ask;
  const far = last === "0" ? (ask.turnsAt < 0 ? "out" : "in") : ask.turnsAt < 0 ? "right" : "left";
  if (group === "roadEdge" || group === "exitEdge") return { what: say.place(far, say.edge(group === "exitEdge")), told };
  if (group === "pad" || group === "lot") return { what: say.place(far, say.corner(Number(rest[0]) + 1, { type: group })), told };
  const id = group === "obstacles" || group === "hookups" ? site[group][Number(index)]?.id : undefined, named = id === undefined ? null : siteThing(id, site);
  if (named && rest[0] === "at") return { what: say.place(far, say.middle(named)), told };
  if (named && rest[0] === "outline") return { what: say.place(far, say.corner(Number(rest[1]) + 1, named)), told };
  if (named && last === "groundZ") return { what: say.groundAt(ask.turnsAt < 0, named), told };
  if (named && last === "pressure") return { what: say.pressure(named), told };
  if (named && (last === "postRadius" || last === "postHeight")) return { what: say.post(last === "postHeight", named), told };
  return { what: whatToMeasure(ask.field, site, rig, words), told };
}

const RANK: Readonly<Record<Verdict, number>> = { fits: 0, gear: 1, ask: 2, unsettled: 3, no: 4 };

/** Rounded to the side where the answer is worse, so that a measurement near the turn is never taken for the better one. */
function valueOf({ field, turnsAt, below, above }: Ask, units: Units, language?: Language): string {
  if (field.startsWith("site.ground.")) return `${turnsAt.toFixed(1)} %`;
  if (field.endsWith(".va")) return `${Math.round(turnsAt)} VA`;
  const n = numbersFor(units, language);
  if (field.endsWith(".pressure")) return n.pressure(turnsAt);
  return RANK[below] <= RANK[above] ? n.spare(turnsAt) : n.lacking(turnsAt);
}
