import type { SurveyMethod } from "@/lib/park";
import type { BareUnit } from "@/lib/measure";

/** How one field can be measured on a phone: what is read, and how it is typed. */
export type Method = "tapes" | "offsets" | "pole" | "angle" | "girth" | "reach" | "level" | "degrees" | "percent" | "spots" | "ring" | "gauge" | "eye";

/** What can be measured of a field here; none where the plan editor is the place for it. */
export function methodsFor(of: string): readonly Method[] {
  const field = of.slice(of.lastIndexOf(".") + 1);
  if (of === "pad") return ["ring"];
  if (of === "ground.along" || of === "ground.across") return ["level", "degrees", "percent", "spots", "eye"];
  switch (field) {
    case "at": return ["tapes", "offsets"];
    case "trunkRadius": case "postRadius": return ["girth", "eye"];
    case "radius": return ["girth", "reach", "eye"];
    case "crownRadius": return ["reach", "eye"];
    case "height": case "from": case "to": case "crownFrom": case "crownTo": case "postHeight": return ["pole", "angle", "eye"];
    case "pressure": return ["gauge"];
    default: return [];
  }
}

/** As the record names it. */
export const surveyMethodOf: Readonly<Record<Method, SurveyMethod>> = {
  tapes: "tape", offsets: "offsets", pole: "pole", angle: "angle", girth: "girth", reach: "tape", level: "level", degrees: "inclinometer", percent: "inclinometer", spots: "spot-heights", ring: "tape", gauge: "gauge", eye: "estimated",
};

/** One thing that is read, as it is typed. `signed` lengths may lie on either side. */
export interface Typed {
  readonly name: string;
  readonly sort: "length" | "small" | "angle" | "percent" | "pressure";
  readonly needed: boolean;
}

/** The fields of the methods that read a fixed few numbers. */
export function fieldsOf(method: Method, of: string): readonly Typed[] {
  const slope = of.startsWith("ground.");
  switch (method) {
    case "offsets": return [{ name: "along", sort: "length", needed: true }, { name: "across", sort: "length", needed: true }];
    case "pole": return [{ name: "length", sort: "length", needed: true }];
    case "reach": return [{ name: "length", sort: "length", needed: true }];
    case "girth": return [{ name: "girth", sort: "small", needed: true }];
    case "angle": return [{ name: "distance", sort: "length", needed: true }, { name: "top", sort: "angle", needed: true }, { name: "eye", sort: "length", needed: false }, { name: "base", sort: "angle", needed: false }];
    case "level": return [{ name: "over", sort: "small", needed: true }, { name: "rise", sort: "small", needed: true }];
    case "degrees": return [{ name: "degrees", sort: "angle", needed: true }];
    case "percent": return [{ name: "percent", sort: "percent", needed: true }];
    case "gauge": return [{ name: "pressure", sort: "pressure", needed: true }];
    case "eye": return [slope ? { name: "percent", sort: "percent", needed: true } : { name: "length", sort: of.endsWith("Radius") && !of.endsWith("crownRadius") ? "small" : "length", needed: true }];
    case "tapes": case "ring": case "spots": return [];
  }
}

export function bareFor(sort: Typed["sort"], metric: boolean): BareUnit {
  return metric ? (sort === "small" ? "cm" : "m") : sort === "small" ? "in" : "ft";
}
