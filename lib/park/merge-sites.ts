import type { SiteInput } from "./schema";
import { entriesOf, isNothing, saysSame, thingsIn, type SitePart, type SiteThing } from "./site-things";
import type { MeasurementInput } from "./survey-schema";
import { measurementsOf, surveyedValue, thingMeasured } from "./surveyed";

/** A thing that both changed, and not alike. Undefined where it is not (any more). */
export interface MergeConflict {
  readonly key: string;
  readonly part: SitePart;
  readonly id: string | null;
  readonly base: unknown;
  readonly mine: unknown;
  readonly theirs: unknown;
  /** Keys of the measurements that go with it, as their numbers are not the same on both sides. */
  readonly measured: readonly string[];
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
 * Measurements of a number that is not the same on both sides are part of its thing and come with it; all others are things of their own.
 */
export function mergeSites(base: SiteInput, mine: SiteInput, theirs: SiteInput, choices: ReadonlyMap<string, MergeChoice> = new Map()): SiteMerge {
  const goesAlong = ({ of }: MeasurementInput) => !saysSame(surveyedValue(mine, of), surveyedValue(theirs, of));
  const [was, my, their] = [partsOf(base, goesAlong), partsOf(mine, goesAlong), partsOf(theirs, goesAlong)];
  const conflicts: MergeConflict[] = [], onlyMine: string[] = [], onlyTheirs: string[] = [];
  const kept: Part[] = [];
  for (const key of new Set([...their.keys(), ...my.keys(), ...was.keys()])) {
    const [b, m, t] = [was.get(key), my.get(key), their.get(key)];
    let chosen = t;
    if (!saysSame(m, t)) {
      if (saysSame(m, b)) onlyTheirs.push(key, ...measuredIn(b, t));
      else if (saysSame(t, b)) { onlyMine.push(key, ...measuredIn(b, m)); chosen = m; }
      else {
        const { part, id } = (t?.thing ?? m?.thing ?? b?.thing)!;
        conflicts.push({ key, part, id, base: b?.thing?.value, mine: m?.thing?.value, theirs: t?.thing?.value, measured: [...new Set([...measuredIn(b, m), ...measuredIn(b, t)])] });
        if (choices.get(key) === "mine") chosen = m;
      }
    }
    if (chosen) kept.push(chosen);
  }
  // What nobody touched on one side is the other's, to the letter.
  const record = onlyMine.length === 0 && (conflicts.length === 0 || conflicts.every(({ key }) => choices.get(key) !== "mine")) ? theirs
    : onlyTheirs.length === 0 && conflicts.every(({ key }) => choices.get(key) === "mine") ? mine
      : assemble(base, mine, theirs, kept);
  return { record, conflicts, mine: onlyMine, theirs: onlyTheirs };
}

/** A thing with what goes along with it of the survey, by the measurements' keys. */
interface Part {
  readonly thing: SiteThing | undefined;
  readonly measured: Readonly<Record<string, MeasurementInput>>;
}

function partsOf(record: SiteInput, goesAlong: (measurement: MeasurementInput) => boolean): Map<string, Part> {
  const along = measurementsOf(record).filter(goesAlong), things = thingsIn(record);
  for (const { id } of along) things.delete(`survey.${id}`);
  const owners = new Set([...things.keys(), ...along.map(({ of }) => thingMeasured(of)!)]);
  return new Map([...owners].map((key) => [key, { thing: things.get(key), measured: Object.fromEntries(along.filter(({ of }) => thingMeasured(of) === key).map((one) => [`survey.${one.id}`, one])) }]));
}

/** Keys of the measurements of a part that are not as they were. */
function measuredIn(was: Part | undefined, is: Part | undefined): string[] {
  return [...new Set([...Object.keys(was?.measured ?? {}), ...Object.keys(is?.measured ?? {})])].filter((key) => !saysSame(was?.measured[key], is?.measured[key]));
}

/** A record of the things kept. */
function assemble(base: SiteInput, mine: SiteInput, theirs: SiteInput, parts: readonly Part[]): SiteInput {
  const record: Record<string, unknown> = { id: theirs.id };
  const kept = new Map(parts.flatMap(({ thing }) => (thing ? [[thing.key, thing] as const] : [])));
  for (const { part, id, value } of kept.values()) {
    if (part === "other") record[id!] = value;
    else if (part === "rules") record["rules"] = { ...(record["rules"] as object | undefined), [id!]: value };
    else if (part !== "obstacles" && part !== "hookups" && part !== "parking" && part !== "survey") record[part] = value;
  }
  for (const part of ["obstacles", "hookups", "parking"] as const) {
    const order = orderOf(part, base, mine, theirs);
    if (order.length > 0 || !isNothing(theirs[part]) || !isNothing(mine[part])) record[part] = order.flatMap((id) => kept.get(`${part}.${id}`)?.value ?? []);
  }
  const measurements = withOwnIds(orderOf("survey", base, mine, theirs).flatMap((id) => [kept.get(`survey.${id}`)?.value as MeasurementInput | undefined, ...parts.map(({ measured }) => measured[`survey.${id}`])].filter((one) => one !== undefined)));
  const survey = kept.get("survey")?.value as object | undefined;
  if (measurements.length > 0 || survey || (theirs.survey && mine.survey)) record["survey"] = { ...survey, measurements };
  return record as SiteInput;
}

/** Two sides may have given one id to measurements of two things: the later one gets another. */
function withOwnIds(measurements: readonly MeasurementInput[]): MeasurementInput[] {
  const ids = new Set<string>();
  return measurements.map((measurement) => {
    let id = measurement.id;
    for (let n = 2; ids.has(id); n++) id = `${measurement.id}-${n}`;
    ids.add(id);
    return id === measurement.id ? measurement : { ...measurement, id };
  });
}

/** Ids in the order of whoever reordered or, where both did, in theirs; what the other added comes last. */
function orderOf(part: "obstacles" | "hookups" | "parking" | "survey", base: SiteInput, mine: SiteInput, theirs: SiteInput): string[] {
  const ids = (record: SiteInput) => entriesOf(record, part).map(({ id }) => id);
  const [was, my, their] = [ids(base), ids(mine), ids(theirs)];
  const [first, second] = saysSame(was, their) ? [my, their] : [their, my];
  return [...new Set([...first, ...second])];
}
