import { surveyTarget, type Site } from "@/lib/park";
import { numbersIn } from "@/lib/wording/format";
import type { Units } from "@/lib/measure";
import { siteThing } from "@/lib/wording/things";
import { surveyWalk as words } from "@/lib/wording/en/survey-walk";
import { things } from "@/lib/wording/en/things";
import { cornersOf } from "./start-form";

/** What a field is called by somebody who walks the site: "Oak: lowest limb". */
export function nameOf(of: string, site: Site): string {
  const target = surveyTarget(of);
  if (!target || target.id === null) return words.what[of] ?? of;
  return words.ofThing(thingName(target.id, site), words.what[target.field] ?? target.field);
}

export function thingName(id: string, site: Site): string {
  const thing = siteThing(id, site), name = thing ? things.full(thing).replace(/^the /, "") : (site.approach?.heightLimits.find((limit) => limit.id === id)?.id ?? id).replace(/[-_]+/g, " ");
  return name.charAt(0).toUpperCase() + name.slice(1);
}

/** A point that tapes are held to, by its name in the record. */
export function pointName(name: string, site: Site): string {
  const corner = cornersOf(site).find((one) => one.name === name);
  if (corner) return words.corner(corner.letter);
  const id = /^(?:obstacles|hookups)\.(.+)\.at$/.exec(name)?.[1];
  return id === undefined ? name : thingName(id, site);
}

/** What the record has for a field, in a reader's units; null where it has nothing to be told in a line. */
export function valueOf(of: string, site: Site, units: Units): string | null {
  const target = surveyTarget(of), n = numbersIn(units, ",");
  if (!target) return null;
  const { list, id, field } = target;
  if (of === "ground.along" || of === "ground.across") {
    const { along, across, heights } = site.ground;
    const value = of === "ground.along" ? along : across;
    return value === undefined ? (heights ? words.methods.spots : null) : `${Math.round(value * 100) / 100}%`;
  }
  if (list === "") return null;
  const things = list === "approach.heightLimits" ? site.approach?.heightLimits : site[list];
  const thing = (things ?? []).find((one) => one.id === id) as Readonly<Record<string, unknown>> | undefined, value = thing?.[field];
  if (field === "pressure") return typeof value === "number" ? n.pressure(value) : null;
  if (typeof value === "number") return n.measured(value);
  return null;
}
