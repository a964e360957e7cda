import { countFields, nightInputs } from "./fields";
import { loadsOf } from "./outline";
import type { RigForm } from "./read";
import type { Step } from "./steps";

/** The names that the fields of a step carry: what the form of that step must not carry along unseen as well. */
export function ownInputs({ fields, outline, base }: RigForm, step: Step): ReadonlySet<string> {
  const lengths = fields.filter((f) => f.step === step);
  switch (step) {
    case "size": return new Set(lengths.map((f) => f.input));
    // What stays in keeps its numbers unseen.
    case "opens": return new Set([
      ...outline.parts.map(({ part }) => `part-${part.id}`),
      ...lengths.filter((f) => outline.parts.some(({ part, need }) => part.id === f.group && need !== "off")).map((f) => f.input),
    ]);
    case "hookups": return new Set([
      ...lengths.map((f) => f.input), ...outline.inlets.map(({ key }) => `inlet-${key}.side`), ...loadsOf(base).map(({ id }) => `load-${id}`),
      "want", "adapter", "regulator", "plug",
    ]);
    case "party": return new Set<string>([...countFields, ...nightInputs, ...lengths.map((f) => f.input), "tow", "accessible", "wish"]);
  }
}
