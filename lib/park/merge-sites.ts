import type { SiteInput } from "./schema";
import { entriesOf, isNothing, saysSame, thingsIn, type SitePart, type SiteThing } from "./site-things";

/** A thing that both changed, and not alike. Undefined where it is not (any more). */
export interface MergeConflict {
  readonly key: string;
  readonly part: SitePart;
  readonly id: string | null;
  readonly base: unknown;
  readonly mine: unknown;
  readonly theirs: unknown;
}

export interface SiteMerge {
  /** Both changes in one record; of each conflict what was chosen, theirs where nothing was. It may break rules that hold across things: have it read by the schema. */
  readonly record: SiteInput;
  readonly conflicts: readonly MergeConflict[];
  /** Keys of what only I changed, and of what only they did. */
  readonly mine: readonly string[];
  readonly theirs: readonly string[];
}

export type MergeChoice = "mine" | "theirs";

/**
 * Puts two changes of one record together, thing by thing. `base` is what both began from. A thing that one side alone changed is
 * as that side has it; one that both changed alike is that; one that both changed differently is a conflict, for somebody to choose.
 */
export function mergeSites(base: SiteInput, mine: SiteInput, theirs: SiteInput, choices: ReadonlyMap<string, MergeChoice> = new Map()): SiteMerge {
  const [was, my, their] = [thingsIn(base), thingsIn(mine), thingsIn(theirs)];
  const conflicts: MergeConflict[] = [], onlyMine: string[] = [], onlyTheirs: string[] = [];
  const kept = new Map<string, SiteThing>();
  for (const key of new Set([...their.keys(), ...my.keys(), ...was.keys()])) {
    const [b, m, t] = [was.get(key), my.get(key), their.get(key)];
    let chosen = t;
    if (!saysSame(m?.value, t?.value)) {
      if (saysSame(m?.value, b?.value)) onlyTheirs.push(key);
      else if (saysSame(t?.value, b?.value)) { onlyMine.push(key); chosen = m; }
      else {
        const { part, id } = (t ?? m)!;
        conflicts.push({ key, part, id, base: b?.value, mine: m?.value, theirs: t?.value });
        if (choices.get(key) === "mine") chosen = m;
      }
    }
    if (chosen) kept.set(key, chosen);
  }
  // What nobody touched on one side is the other's, to the letter.
  const record = onlyMine.length === 0 && (conflicts.length === 0 || conflicts.every(({ key }) => choices.get(key) !== "mine")) ? theirs
    : onlyTheirs.length === 0 && conflicts.every(({ key }) => choices.get(key) === "mine") ? mine
      : assemble(base, mine, theirs, kept);
  return { record, conflicts, mine: onlyMine, theirs: onlyTheirs };
}

/** A record of the things kept. */
function assemble(base: SiteInput, mine: SiteInput, theirs: SiteInput, kept: ReadonlyMap<string, SiteThing>): SiteInput {
  const record: Record<string, unknown> = { id: theirs.id };
  const things = [...kept.values()];
  for (const { part, id, value } of things) {
    if (part === "other") record[id!] = value;
    else if (part === "rules") record["rules"] = { ...(record["rules"] as object | undefined), [id!]: value };
    else if (part !== "obstacles" && part !== "hookups" && part !== "parking" && part !== "survey") record[part] = value;
  }
  for (const part of ["obstacles", "hookups", "parking"] as const) {
    const order = orderOf(part, base, mine, theirs);
    if (order.length > 0 || !isNothing(theirs[part]) || !isNothing(mine[part])) record[part] = order.flatMap((id) => kept.get(`${part}.${id}`)?.value ?? []);
  }
  const measurements = orderOf("survey", base, mine, theirs).flatMap((id) => kept.get(`survey.${id}`)?.value ?? []);
  const survey = kept.get("survey")?.value as object | undefined;
  if (measurements.length > 0 || survey || (theirs.survey && mine.survey)) record["survey"] = { ...survey, measurements };
  return record as SiteInput;
}

/** Ids in the order of whoever reordered or, where both did, in theirs; what the other added comes last. */
function orderOf(part: "obstacles" | "hookups" | "parking" | "survey", base: SiteInput, mine: SiteInput, theirs: SiteInput): string[] {
  const ids = (record: SiteInput) => entriesOf(record, part).map(({ id }) => id);
  const [was, my, their] = [ids(base), ids(mine), ids(theirs)];
  const [first, second] = saysSame(was, their) ? [my, their] : [their, my];
  return [...new Set([...first, ...second])];
}
