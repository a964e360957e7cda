import type { RigForm } from "./read";
import { idOfField, steps, type Step } from "./steps";

/** The address of a step, with the rig as the form has it. `open` names a part or an inlet whose numbers are to be unfolded. */
export function hrefOfStep({ query, units, way }: Pick<RigForm, "query" | "units" | "way">, step: Step, open?: string): string {
  return `${way?.path ?? "/rig"}?${query}&units=${units}&step=${step}${open === undefined ? "" : `&open=${encodeURIComponent(open)}`}`;
}

/** The address of one field: the step that asks for it, unfolded and scrolled to where it is typed. */
export function hrefOfField(form: Pick<RigForm, "query" | "units" | "fields" | "way">, input: string): string {
  const field = form.fields.find((f) => f.input === input);
  return `${hrefOfStep(form, field?.step ?? stepOfInput(input), field?.group)}#${encodeURIComponent(idOfField(input))}`;
}

/** The steps that hold something that cannot be read. */
export function stepsWithFaults({ faults, fields }: Pick<RigForm, "faults" | "fields">): ReadonlySet<Step> {
  return new Set(Object.keys(faults).map((input) => fields.find((f) => f.input === input)?.step ?? stepOfInput(input)));
}

export function firstFaultyStep(form: Pick<RigForm, "faults" | "fields">): Step | null {
  const faulty = stepsWithFaults(form);
  return steps.find((step) => faulty.has(step)) ?? null;
}

/** Counts are no lengths: they all stand in the last step. */
function stepOfInput(input: string): Step {
  return input.startsWith("part-") ? "opens" : input.startsWith("inlet-") ? "hookups" : "party";
}
