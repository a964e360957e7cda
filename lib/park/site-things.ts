import type { SiteInput } from "./schema";

/** What a site's record is made of, as changes are told and put together: whole things, those in lists by their ids. */
export const siteParts = ["label", "loop", "entry", "enterFrom", "pad", "lot", "roadEdge", "exitEdge", "place", "ground", "approach", "obstacles", "hookups", "parking", "rules", "survey", "other"] as const;
export type SitePart = (typeof siteParts)[number];

/** One thing of a record. */
export interface SiteThing {
  /** The same for the same thing in any record: `pad`, `obstacles.oak`, `rules.pets`, `survey.m3`. */
  readonly key: string;
  readonly part: SitePart;
  /** Of things in lists and of rules: their id or name there; of what the format does not know, its name. Else null. */
  readonly id: string | null;
  readonly value: unknown;
}

/** Every thing of a record with something in it, by its key, in the order of {@link siteParts}, those in lists in theirs. Its id is none. */
export function thingsIn(record: SiteInput): Map<string, SiteThing> {
  const found = siteParts.flatMap((part) => (part === "other" ? [] : thingsOfPart(record, part)));
  const known: readonly string[] = siteParts;
  const others = Object.entries(record).flatMap(([name, value]) => (name === "id" || (known.includes(name) && name !== "other") || isNothing(value) ? [] : [{ key: `other.${name}`, part: "other" as const, id: name, value }]));
  return new Map([...found, ...others].map((thing) => [thing.key, thing]));
}

/** The entries of a list of things with ids; empty where there is no such list. */
export function entriesOf(record: SiteInput, part: "obstacles" | "hookups" | "parking" | "survey"): readonly { readonly id: string }[] {
  const list: unknown = part === "survey" ? record.survey?.measurements : record[part];
  return Array.isArray(list) ? (list as { id: string }[]) : [];
}

/** Whether two values of records say the same: the order of fields says nothing, and null and nothing at all are one. */
export function saysSame(a: unknown, b: unknown): boolean {
  if (isNothing(a) || isNothing(b)) return isNothing(a) && isNothing(b);
  if (typeof a !== "object" || typeof b !== "object") return a === b;
  if (Array.isArray(a) !== Array.isArray(b)) return false;
  if (Array.isArray(a) && Array.isArray(b)) return a.length === b.length && a.every((value, i) => saysSame(value, b[i]));
  const [x, y] = [a as Record<string, unknown>, b as Record<string, unknown>];
  return [...new Set([...Object.keys(x), ...Object.keys(y)])].every((name) => saysSame(x[name], y[name]));
}

export function isNothing(value: unknown): value is null | undefined {
  return value === undefined || value === null;
}

function thingsOfPart(record: SiteInput, part: Exclude<SitePart, "other">): SiteThing[] {
  switch (part) {
    case "obstacles": case "hookups": case "parking":
      return entriesOf(record, part).map((value) => ({ key: `${part}.${value.id}`, part, id: value.id, value }));
    case "survey": {
      const { measurements: _, ...rest } = (record.survey ?? {}) as Record<string, unknown>;
      const whole = Object.values(rest).every(isNothing) ? [] : [{ key: "survey", part, id: null, value: rest }];
      return [...whole, ...entriesOf(record, part).map((value) => ({ key: `survey.${value.id}`, part, id: value.id, value }))];
    }
    case "rules":
      return Object.entries(record.rules ?? {}).flatMap(([id, value]) => (isNothing(value) ? [] : [{ key: `rules.${id}`, part, id, value }]));
    default:
      return isNothing(record[part]) ? [] : [{ key: part, part, id: null, value: record[part] }];
  }
}
