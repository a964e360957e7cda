import { parseLength } from "@/lib/measure";
import { addedKind, addedSide, textForAdded } from "./added-parts";
import { list, one, typed, type Params } from "./params";
import { readRigForm, type RigForm } from "./read";
import { startOf } from "./start";
import { firstFaultyStep, hrefOfStep, stepsWithFaults } from "./step-links";
import { stepOf, steps, type Step } from "./steps";

/**
 * The address that the press of a button of the form leads to. A length class is taken over, a part put on or taken off;
 * then on to another step or to the sites, unless what was typed in this step, or for the sites in any, cannot be read.
 */
export function nextAddress(params: Params, form: RigForm): string {
  const here = stepOf(one(params.step));
  const cls = one(params.class), add = addedSide(one(params.add)), drop = one(params.drop);
  if (cls !== undefined && parseLength(cls, "ft").ok) return hrefOfStep(reread({ ...params, length: cls }, form), here);
  if (add) return withPart(params, form, here, add);
  if (drop !== undefined) return hrefOfStep(reread(without(params, form, drop), form), here);
  const go = one(params.go), faulty = stepsWithFaults(form);
  if (faulty.has(here)) return hrefOfStep(form, here);
  if (go !== "sites") return hrefOfStep(form, steps.find((s) => s === go) ?? here);
  const first = firstFaultyStep(form);
  return first ? hrefOfStep(form, first) : `${form.way?.answer ?? "/sites"}?${form.query}&units=${form.units}`;
}

function withPart(params: Params, form: RigForm, here: Step, side: NonNullable<ReturnType<typeof addedSide>>): string {
  const at = typed(params.addAt), whole = { ...form.outline.rig, parts: form.outline.parts.map(({ part }) => part) };
  const text = textForAdded(addedKind(one(params.addKind)), side, whole, at === undefined || !/^\d{1,3}$/.test(at) ? undefined : Number(at));
  if (text === null) return hrefOfStep(form, here);
  const id = text.split("@")[0]!;
  return `${hrefOfStep(reread({ ...params, part: [...list(params.part), text] }, form), here, id)}#part-${id}`;
}

/** What a guest has put on is gone with all its numbers; what the kind usually has stays in. */
function without(params: Params, form: RigForm, id: string): Params {
  const entry = form.outline.parts.find(({ part }) => part.id === id);
  if (!entry) return params;
  const bare = Object.fromEntries(Object.entries(params).filter(([name]) => name !== `part-${id}` && !name.startsWith(`part-${id}.`)));
  if (!entry.added) return { ...bare, [`part-${id}`]: "off" };
  return { ...bare, part: list(params.part).filter((text) => !text.startsWith(`${id}@`)) };
}

/** The form again, after something was changed: a class makes another typical rig. */
function reread(params: Params, form: RigForm): RigForm {
  const start = form.start.kind ? startOf(params, [], form.units) : form.start;
  return { ...readRigForm(params, start ?? form.start, form.units), ...(form.way ? { way: form.way } : {}) };
}
