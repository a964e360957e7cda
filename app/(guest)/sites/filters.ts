import type { FitResult } from "@/lib/fit/types";
import type { Site } from "@/lib/park";
import { list, one, type Params } from "../../components/rig-form/params";

/** What a guest can ask of a site. The two ways in are alternatives; everything else has to hold together. */
export const filterNames = ["fits", "pets", "pull-through", "back-in", "50-amp", "sewer", "water", "accessible"] as const;
export type FilterName = (typeof filterNames)[number];

export interface Filters {
  readonly only: readonly FilterName[];
  readonly loop: string | null;
}

export interface Entry {
  readonly site: Site;
  readonly result: FitResult;
}

/** One filter or the loop: what can be dropped by itself. */
export type Dropped = FilterName | "loop";

/** The filters of an address. What it cannot mean is passed over: a loop that the park does not have, a filter unheard of. */
export function readFilters(params: Params, sites: readonly Site[]): Filters {
  const asked = list(params.only), loop = one(params.loop);
  return { only: filterNames.filter((name) => asked.includes(name)), loop: loop !== undefined && sites.some((s) => s.loop === loop) ? loop : null };
}

export function isFiltered({ only, loop }: Filters): boolean {
  return only.length > 0 || loop !== null;
}

export function passes({ site, result }: Entry, { only, loop }: Filters): boolean {
  if (loop !== null && site.loop !== loop) return false;
  const ways = only.filter((name) => name === "pull-through" || name === "back-in");
  return (ways.length === 0 || ways.some((way) => site.entry === way)) && only.every((name) => WAYS.has(name) || holds(name, site, result));
}

/** How many entries would pass with this filter put on, beside those that are. */
export function leftWith(entries: readonly Entry[], filters: Filters, name: FilterName): number {
  // Putting on a second way in would widen the answer: what is told is that way alone.
  const rest = WAYS.has(name) ? filters.only.filter((n) => !WAYS.has(n)) : filters.only;
  return entries.filter((e) => passes(e, { ...filters, only: [...rest, name] })).length;
}

/** Each thing that is on, with how many entries would pass were it dropped: most first. */
export function leftWithout(entries: readonly Entry[], filters: Filters): { readonly dropped: Dropped; readonly left: number }[] {
  const each: Dropped[] = [...filters.only, ...(filters.loop === null ? [] : ["loop" as const])];
  return each.map((dropped) => ({ dropped, left: entries.filter((e) => passes(e, without(filters, dropped))).length })).sort((a, b) => b.left - a.left);
}

export function without({ only, loop }: Filters, dropped: Dropped): Filters {
  return dropped === "loop" ? { only, loop: null } : { only: only.filter((name) => name !== dropped), loop };
}

const WAYS: ReadonlySet<FilterName> = new Set(["pull-through", "back-in"]);

/** A rule that nobody wrote down forbids nothing, as in the check itself. */
function holds(name: FilterName, { rules, hookups }: Site, { verdict }: FitResult): boolean {
  switch (name) {
    case "fits": return verdict === "fits" || verdict === "gear";
    case "pets": return rules?.pets !== false;
    case "50-amp": return hookups.some((h) => h.kind === "power" && (h.receptacles ?? []).includes(50));
    case "sewer": return hookups.some((h) => h.kind === "sewer");
    case "water": return hookups.some((h) => h.kind === "water");
    case "accessible": return rules?.accessible === true;
    default: return true;
  }
}
