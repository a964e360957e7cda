import type { Bring, LevelResult, Means, NeedResult, Reason } from "@/lib/fit/types";
import type { Units } from "@/lib/measure";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { catalogueOf, numbersFor, type Catalogue, type Language } from "./catalogue";
import { rigThing, siteThing, thingsOf } from "./things";

/** What a sentence draws on of a result: how needs and level were met. */
export interface Met {
  readonly needs: readonly Pick<NeedResult, "service" | "ok">[];
  readonly level: Pick<LevelResult, "ok">;
}

/**
 * The sentence for one reason. With the result at hand, a run that is too long says whether a longer hose helps or
 * the park forbids it; without, it speaks of the guest's own gear.
 */
export function sentence(reason: Reason, site: Site, rig: Rig, units: Units, result?: Met, language?: Language): string {
  const words = catalogueOf(language);
  const say = words.reasons[familyOf(reason.code, words)];
  if (!say) return words.unknownReason(reason.code);
  const named = thingsOf(partsOf(reason), site, rig);
  const conditions = words.clausesOf(conditionsOf(reason, site, rig), named[0], rig);
  return say({ reason, named, site, rig, conditions, n: numbersFor(units, language), means: meansOf(reason, result) });
}

/** A refusal may fail only together with others: what else has to hold. */
function conditionsOf(reason: Reason, site: Site, rig: Rig) {
  return (reason.while ?? []).map((id) => {
    const [family, what, against] = splitId(id);
    return { family, what, named: thingsOf([what ?? (family === "stand" ? "supports" : "rig"), ...(against === undefined ? [] : [against])], site, rig) };
  });
}

export function bringSentence(item: Bring, rig: Rig, units: Units, language?: Language): string {
  const { gear } = rig;
  const have = {
    cord: gear.powerCord, hose: gear.waterHose, "sewer-hose": gear.sewerHose,
    "lift-side": gear.liftSide, "lift-along": gear.liftAlong, adapter: 0, regulator: 0,
  };
  return catalogueOf(language).bring(item, have, numbersFor(units, language));
}

/** The two things between which the tightest gap lies, as names, from a constraint's id. */
export function namesInConstraint(id: string, site: Site, rig: Rig, language?: Language): [string, string] | null {
  const { things } = catalogueOf(language);
  const [family, what, against] = splitId(id);
  const one = rigThing(family === "stand" ? "supports" : (what ?? "rig"), rig);
  const other = siteThing(family === "stand" ? "pad" : family === "road" ? "road" : family === "lot" ? "lot" : (against ?? ""), site);
  return one && other ? [things.full(one), things.full(other)] : null;
}

/** `clear:lounge:oak` into its three: the obstacle's id may itself hold a colon. */
export function splitId(id: string): [string, string | undefined, string | undefined] {
  const [family = "", what, ...rest] = id.split(":");
  return [family, what, rest.length > 0 ? rest.join(":") : undefined];
}

function familyOf(code: string, words: Catalogue): keyof Catalogue["reasons"] {
  const head = code.split(":")[0] as keyof Catalogue["reasons"];
  return head in words.reasons ? head : (code as keyof Catalogue["reasons"]);
}

/** Hard constraints carry their two things in the code as well; take them from there where the data leaves them out. */
function partsOf(reason: Reason): readonly string[] {
  if (reason.parts.length > 0) return reason.parts;
  const [family, what, against] = splitId(reason.code);
  return family === "clear" || family === "road" || family === "lot" ? [what, against].filter((p) => p !== undefined) : [];
}

function meansOf(reason: Reason, result: Met | undefined): Means | null {
  if (!result) return null;
  const [family, service] = splitId(reason.code);
  if (family === "level") return result.level.ok;
  return result.needs.find((need) => need.service === service)?.ok ?? null;
}
