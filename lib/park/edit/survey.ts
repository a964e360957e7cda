import { saysSame } from "../site-things";
import { measurable, type MeasurementInput, type SurveyMethod } from "../survey-schema";
import { measurementsOf, surveyedValue } from "../surveyed";
import { mirrorSite } from "./mirror";
import { readAt, writeAt, type Draft, type Path } from "./record";

/** How whoever edits knows the new numbers. */
export interface Known {
  readonly how: Extract<SurveyMethod, "tape" | "from-plan" | "estimated">;
  /** Standard error of what a measurement of this field gives, if so known, in its own unit; null where nothing usual can be said. `value` null: a place or an outline. */
  readonly error: (of: string, value: number | null) => number | null;
  /** A day, as 2026-11-26. */
  readonly on: string;
  readonly by: string;
}

/**
 * The changed record with a survey that is true: a measurement whose number was changed no longer says how that number was come by. What was read
 * goes and `known` takes its place, at numbers too that had no measurement; where nobody said how the new numbers are known (null) the measurement goes. One whose
 * thing is gone goes too. A thing that got another id keeps its measurements, and a site mirrored by who edits it its readings.
 */
export function settleSurvey(before: Draft, after: Draft, known: Known | null): Draft {
  const bases = known ? [before, mirrorSite(before)] : [before], measurements = measurementsOf(after);
  const settled = measurements.flatMap((measurement): MeasurementInput[] => {
    const held = surveyedValue(after, measurement.of);
    const was = bases.map((base) => ({ measurement: measurementsOf(base).find(({ id }) => id === measurement.id), base }));
    if (was.some((one) => one.measurement && saysSame(one.measurement.readings, measurement.readings) && saysSame(surveyedValue(one.base, one.measurement.of), held))) return [measurement];
    if (held === undefined || !known) return [];
    const { readings: _readings, again: _again, ...rest } = measurement;
    return [{ ...rest, how: known.how, on: known.on, by: known.by, error: errorOf(known, measurement.of, held) ?? rest.error }];
  });
  const added = known ? newlySaid(bases, after, known) : [];
  return measurements.length + added.length === 0 ? after : writeAt(after, ["survey", "measurements"], [...settled, ...added]);
}

/** The record without measurements whose own reading, a length or a girth, is another number than the record has; those that `before` has too, with the same number, stay. */
export function dropContradicted(before: Draft | null, after: Draft): Draft {
  const measurements = measurementsOf(after), held = new Map(measurementsOf(before ?? ({} as Draft)).map((one) => [one.id, one]));
  const stays = (one: MeasurementInput) => {
    const value = surveyedValue(after, one.of), read = one.readings?.length ?? (typeof one.readings?.girth === "number" ? one.readings.girth / (2 * Math.PI) : null);
    return read === null || typeof value !== "number" || Math.abs(read - value) <= ROUNDED || (before !== null && saysSame(held.get(one.id), one) && saysSame(surveyedValue(before, one.of), value));
  };
  return measurements.every(stays) ? after : writeAt(after, ["survey", "measurements"], measurements.filter(stays));
}

/** What was read is kept to a whole millimetre. */
const ROUNDED = 1;

/** The record with another id for a thing, in what its survey says of it too, as long as the id is free. */
export function renameThing(draft: Draft, path: Path, id: string): Draft {
  const list = path.slice(0, -1).join("."), old = readAt(draft, [...path, "id"]);
  const renamed = writeAt(draft, [...path, "id"], id);
  const measurements = draft.survey?.measurements;
  if (!measurements || typeof old !== "string" || id === "" || isTaken(draft, path, id)) return renamed;
  const follow = (of: string) => (of.startsWith(`${list}.${old}.`) ? `${list}.${id}.${of.slice(list.length + old.length + 2)}` : of);
  // Tapes and base lines name the things that they were held to: every text of what was read that is such a name.
  const deep = (value: unknown): unknown =>
    typeof value === "string" ? follow(value) : Array.isArray(value) ? value.map(deep) : typeof value === "object" && value !== null ? Object.fromEntries(Object.entries(value).map(([key, one]) => [key, deep(one)])) : value;
  return writeAt(renamed, ["survey", "measurements"], measurements.map((m) => ({ ...m, of: follow(m.of), ...(m.readings && { readings: deep(m.readings) }) })));
}

function isTaken(draft: Draft, path: Path, id: string): boolean {
  const list = readAt(draft, path.slice(0, -1));
  return Array.isArray(list) && list.some((thing: { id?: unknown } | null, i) => i !== path.at(-1) && thing?.id === id);
}

/** Measurements of the numbers that were changed or are new, and had none. What stands on the ground begins there: a height of nothing is not a number somebody came by. */
function newlySaid(bases: readonly Draft[], after: Draft, known: Known): MeasurementInput[] {
  const taken = new Set(measurementsOf(after).flatMap(({ id, of }) => [id, of]));
  const isNew = (of: string, was: (base: Draft) => unknown) => bases.every((base) => !saysSame(was(base), surveyedValue(after, of)));
  const own = measurable[""].filter((of) => isNew(of, (base) => surveyedValue(base, of)));
  const ofThings = (["obstacles", "hookups", "parking", "approach.heightLimits"] as const).flatMap((list) =>
    thingsAt(after, list).flatMap((thing, i) => measurable[list].flatMap((field) => (isNew(`${list}.${thing.id}.${field}`, (base) => earlier(base, after, list, i)?.[field]) ? [`${list}.${thing.id}.${field}`] : []))));
  return [...own, ...ofThings].flatMap((of): MeasurementInput[] => {
    const value = surveyedValue(after, of), error = errorOf(known, of, value), id = of.slice(-LONGEST_ID), slopes = /^ground\./.test(of) && taken.has("ground");
    if (error === null || value === undefined || taken.has(of) || taken.has(id) || slopes || (value === 0 && of.endsWith(".from"))) return [];
    taken.add(id);
    return [{ id, of, how: known.how, error, on: known.on, by: known.by }];
  });
}

/** Characters of an id, as the schema has it. */
const LONGEST_ID = 80;

/** A thing as it was: by its id, or by its place in the list where it got another id. */
function earlier(base: Draft, after: Draft, list: ThingList, index: number): Thing | undefined {
  const now = thingsAt(after, list), was = thingsAt(base, list), moved = was[index];
  return was.find(({ id }) => id === now[index]!.id) ?? (moved && now.some(({ id }) => id === moved.id) ? undefined : moved);
}

type ThingList = Exclude<keyof typeof measurable, "">;
type Thing = Readonly<Record<string, unknown>> & { readonly id: string };

function thingsAt(draft: Draft, list: ThingList): readonly Thing[] {
  const held = readAt(draft, list.split("."));
  return Array.isArray(held) ? (held as Thing[]) : [];
}

function errorOf({ error }: Known, of: string, value: unknown): number | null {
  return error(of, typeof value === "number" ? value : null);
}
