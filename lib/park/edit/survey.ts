import { surveyTarget, type MeasurementInput, type SurveyMethod } from "../survey-schema";
import { mirrorSite } from "./mirror";
import { readAt, writeAt, type Draft, type Path } from "./record";

/** How whoever edits knows the new numbers. */
export interface Known {
  readonly how: Extract<SurveyMethod, "tape" | "from-plan" | "estimated">;
  /** Standard error of a length so known, mm. */
  readonly error: number;
  /** A day, as 2026-11-26. */
  readonly on: string;
  readonly by: string;
}

/**
 * The edited record with a survey that is true: a measurement whose number was changed no longer says how that number was come by, so what was read
 * goes and `known` takes its place; one whose thing is gone goes too. A thing that got another id keeps its measurements, and a mirrored site its readings.
 */
export function settleSurvey(before: Draft, after: Draft, known: Known): Draft {
  const measurements = after.survey?.measurements;
  if (!measurements || measurements.length === 0) return after;
  const bases = [before, mirrorSite(before)];
  const settled = measurements.flatMap((measurement): MeasurementInput[] => {
    const held = valueOf(after, measurement.of);
    const was = bases.map((base) => ({ measurement: base.survey?.measurements?.find(({ id }) => id === measurement.id), base }));
    if (held === undefined) return [];
    if (was.some((one) => one.measurement && same(one.measurement.readings, measurement.readings) && same(valueOf(one.base, one.measurement.of), held))) return [measurement];
    const { readings: _readings, again: _again, ...rest } = measurement;
    // An error in per cent or kPa is not one of a length: it stays as it was, since nothing better is known.
    const isLength = !/^ground|pressure$/.test(measurement.of);
    return [{ ...rest, how: known.how, on: known.on, by: known.by, error: isLength ? known.error : rest.error }];
  });
  return writeAt(after, ["survey", "measurements"], settled);
}

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

/** What a measurement gives, wherever its thing stands in its list. */
function valueOf(draft: Draft, of: string): unknown {
  const target = surveyTarget(of);
  if (!target) return undefined;
  const steps = target.list === "" ? [] : target.list.split(".");
  if (target.id === null) return readAt(draft, target.field.split("."));
  const list = readAt(draft, steps);
  const index = Array.isArray(list) ? list.findIndex((thing: { id?: unknown } | null) => thing?.id === target.id) : -1;
  return index < 0 ? undefined : readAt(draft, [...steps, index, target.field]);
}

/** Records are plain data: the same if they read the same. */
function same(a: unknown, b: unknown): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}
