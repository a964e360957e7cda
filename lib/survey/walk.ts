import { surveyTarget, type SiteInput } from "@/lib/park";
import { soundSite } from "./record";
import { takeReading, type Reading } from "./take";
import { usualError } from "./tolerances";
import type { SurveyNote } from "./types";

/** What can be found standing about that the record does not have. */
export const newKinds = ["tree", "post", "rock", "table", "fire-ring", "wire", "power", "water", "sewer"] as const;
export type NewKind = (typeof newKinds)[number];

/** What somebody who walks a site with a tape does, one after the other. */
export type Step =
  | { readonly do: "read"; readonly reading: Reading }
  /** Something that the record does not have, with how its place was measured; its other numbers are guesses until they are measured. */
  | { readonly do: "add"; readonly kind: NewKind; readonly name: string; readonly place: Omit<Reading, "of"> }
  /** Something that is no longer there. `step` is the step's own id: without one it takes off again whatever goes by that id since. */
  | { readonly do: "gone"; readonly id: string; readonly list: "obstacles" | "hookups"; readonly step?: string };

/** Why a step could not be done: a reading that gives nothing, one that contradicts what was measured before, an id that is taken, something that is not there. */
export type Undone = { readonly code: "reading"; readonly notes: readonly SurveyNote[] } | { readonly code: "taken" | "no-such" | "unsound" };

export type Done = { readonly ok: true; readonly record: SiteInput; readonly notes: readonly SurveyNote[] } | { readonly ok: false; readonly why: Undone };

/** The record after one more step. The same step taken again changes nothing more, so that one that was sent twice counts once. */
export function takeStep(record: SiteInput, step: Step): Done {
  if (step.do === "gone") return { ok: true, record: step.step !== undefined && isDone(record, step.step) ? record : without(record, step), notes: [] };
  if (step.do === "add") return addThing(record, step);
  if (isDone(record, step.reading.id)) return { ok: true, record, notes: [] };
  if (!isIn(record, step.reading.of)) return { ok: false, why: { code: "no-such" } };
  const taken = takeReading(record, step.reading);
  if (taken.ok && !soundSite(taken.value.record)) return { ok: false, why: { code: "unsound" } };
  return taken.ok ? { ok: true, record: taken.value.record, notes: taken.warnings } : { ok: false, why: { code: "reading", notes: taken.faults } };
}

/** The record after all the steps that can be taken, null being none that can be read. `told` are the places in the list of those that cannot. */
export function takeSteps(before: SiteInput, steps: readonly (Step | null)[]): { readonly record: SiteInput; readonly told: readonly number[] } {
  let record = before;
  const told: number[] = [];
  steps.forEach((step, i) => {
    const done = step && takeStep(record, step);
    // What a step makes has to be a site: else it is as if it had not been taken.
    if (done?.ok && soundSite(done.record)) record = done.record;
    else told.push(i);
  });
  return { record, told };
}

function addThing(record: SiteInput, { kind, name, place }: Extract<Step, { do: "add" }>): Done {
  if (isDone(record, place.id)) return { ok: true, record, notes: [] };
  const id = idFrom(name), list = isHookup(kind) ? "hookups" : "obstacles";
  const taken = new Set([...(record.obstacles ?? []), ...(record.hookups ?? []), ...(record.approach?.heightLimits ?? [])].map((thing) => thing.id));
  if (id === "" || taken.has(id)) return { ok: false, why: { code: "taken" } };
  const guess = GUESSES[kind], numbers = Object.entries(guess).filter(([, value]) => typeof value === "number");
  const thing = { id, kind, at: [0, 0] as [number, number], ...(isHookup(kind) ? { ...guess, ...(kind === "power" ? { receptacles: [30 as const], volts: 120 } : {}) } : guess) };
  const added: SiteInput = { ...record, [list]: [...(record[list] ?? []), thing] };
  const guessed = numbers.map(([field, value]) => ({ id: `${place.id}-${field}`, of: `${list}.${id}.${field}`, how: "estimated" as const, error: usualError("estimated", value), on: place.on, ...(place.by ? { by: place.by } : {}) }));
  const known: SiteInput = { ...added, survey: { ...added.survey, measurements: [...(added.survey?.measurements ?? []), ...guessed] } };
  return takeStep(known, { do: "read", reading: { ...place, of: `${list}.${id}.at` } });
}

/** The ids of what goes with the thing are kept: else a step that is sent again would be taken for one of a thing that came in its place. */
function without(record: SiteInput, { list, id, step }: Extract<Step, { do: "gone" }>): SiteInput {
  const measured = record.survey?.measurements ?? [], left = (record[list] ?? []).filter((thing) => thing.id !== id);
  const isOfIt = ({ of }: { readonly of: string }) => { const target = surveyTarget(of); return target?.list === list && target.id === id; };
  const removed = [...(record.survey?.removed ?? []), ...measured.filter(isOfIt).map((m) => m.id), ...(step === undefined ? [] : [step])];
  const survey = { ...record.survey, measurements: measured.filter((m) => !isOfIt(m)), ...(removed.length > 0 ? { removed } : {}) };
  return { ...record, [list]: left, ...(record.survey || removed.length > 0 ? { survey } : {}) };
}

/** What such a thing usually measures, mm: enough to be drawn, and told as guessed until somebody measures it (common practice). */
const GUESSES: Readonly<Record<NewKind, Readonly<Record<string, number>>>> = {
  tree: { trunkRadius: 150, crownRadius: 2500, crownFrom: 3000, crownTo: 9000 },
  post: { radius: 60, from: 0, to: 1000 }, rock: { radius: 400, from: 0, to: 500 }, table: { radius: 900, from: 0, to: 760 }, "fire-ring": { radius: 450, from: 0, to: 300 }, wire: { radius: 50, from: 5000, to: 5100 },
  power: { height: 900, postRadius: 100, postHeight: 1200 }, water: { height: 600, postRadius: 50, postHeight: 700 }, sewer: { height: 60 },
};

export function isHookup(kind: NewKind): kind is "power" | "water" | "sewer" {
  return kind === "power" || kind === "water" || kind === "sewer";
}

/** "Old oak" as an id: old-oak. */
export function idFrom(name: string): string {
  return name.toLowerCase().normalize("NFKD").replace(/[^a-z0-9]+/g, "-").replace(/^-+|-+$/g, "").slice(0, 60);
}

function isDone(record: SiteInput, id: string): boolean {
  return (record.survey?.measurements?.some((m) => m.id === id) ?? false) || (record.survey?.removed?.includes(id) ?? false);
}

function isIn(record: SiteInput, of: string): boolean {
  const target = surveyTarget(of);
  if (!target) return false;
  const { list, id } = target;
  const things = list === "" ? null : list === "approach.heightLimits" ? record.approach?.heightLimits : record[list];
  return list === "" || (things ?? []).some((thing) => thing.id === id);
}
