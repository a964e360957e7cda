/** The form in the order it is asked. Every step may be skipped. */
export const steps = ["size", "opens", "hookups", "party"] as const;
export type Step = (typeof steps)[number];

export function stepOf(text: string | undefined): Step {
  return steps.find((step) => step === text) ?? "size";
}

/** The id that a field carries on the page of its step. */
export function idOfField(input: string): string {
  return `field-${input}`;
}
