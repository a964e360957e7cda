import { mirrorSite } from "./mirror";
import type { Draft } from "./record";

/** What of a site can be given to others. */
export const copyable = ["pad", "surface", "lot", "ground", "roadEdge", "exitEdge", "approach", "obstacles", "hookups", "offers", "parking", "rules"] as const;
export type Copyable = (typeof copyable)[number];

/**
 * A new site with the same ground and things. Where it lies is not known yet, and nothing of it was measured: place, survey and the day of measuring
 * stay behind.
 */
export function copySite(draft: Draft, { id, label, loop, mirrored }: { readonly id: string; readonly label: string | null; readonly loop: string | null; readonly mirrored: boolean }): Draft {
  const { place: _place, survey: _survey, label: _label, loop: _loop, ...rest } = mirrored ? mirrorSite(draft) : draft;
  const kept = Object.fromEntries(Object.entries(rest).filter(([key]) => key !== "measuredOn")) as typeof rest;
  return { ...kept, id, ...(label === null ? {} : { label }), ...(loop === null ? {} : { loop }) };
}

/**
 * The record of another site with the chosen things as on this one. `offers` leaves hookups where they stand and gives those of a kind the receptacles, voltage, pressure
 * and height of this one's first of that kind. What of the other's survey told of things that are replaced goes with them.
 */
export function applyTo(target: Draft, source: Draft, parts: readonly Copyable[]): Draft {
  return parts.reduce((draft, part) => applyPart(draft, source, part), target);
}

function applyPart(target: Draft, source: Draft, part: Copyable): Draft {
  switch (part) {
    case "pad": return withoutSurveyOf({ ...target, pad: { ...target.pad, outline: source.pad.outline } }, (of) => of === "pad");
    case "surface": return { ...target, pad: taking(target.pad, source.pad, ["surface"]) };
    case "ground": return withoutSurveyOf({ ...target, ground: source.ground }, (of) => of === "ground" || of.startsWith("ground."));
    case "lot": case "roadEdge": case "exitEdge": case "approach":
      return withoutSurveyOf(taking(target, source, [part]), (of) => of === part || of.startsWith(`${part}.`));
    case "obstacles": case "hookups": case "parking":
      return withoutSurveyOf(taking(target, source, [part]), (of) => of.startsWith(`${part}.`));
    case "rules": return taking(target, source, ["rules"]);
    case "offers": return applyOffers(target, source);
  }
}

function applyOffers(target: Draft, source: Draft): Draft {
  const offering = (kind: string) => (source.hookups ?? []).find((h) => h.kind === kind);
  const hookups = (target.hookups ?? []).map((hookup) => {
    const like = offering(hookup.kind);
    return like ? taking(hookup, like, ["receptacles", "volts", "pressure", "height"]) : hookup;
  });
  return target.hookups ? withoutSurveyOf({ ...target, hookups }, (of) => /^hookups\..+\.(pressure|height)$/.test(of)) : target;
}

/** One record with some fields of the other; a field that the other lacks is taken out. */
function taking<T extends object>(one: T, other: T, fields: readonly (keyof T)[]): T {
  const taken = { ...one };
  for (const field of fields) {
    if (other[field] === undefined || other[field] === null) Reflect.deleteProperty(taken, field);
    else taken[field] = other[field];
  }
  return taken;
}

function withoutSurveyOf(draft: Draft, gone: (of: string) => boolean): Draft {
  const measurements = draft.survey?.measurements;
  if (!measurements?.some(({ of }) => gone(of))) return draft;
  return { ...draft, survey: { ...draft.survey, measurements: measurements.filter(({ of }) => !gone(of)) } };
}
