import { catalogueOf, unbroken } from "@/lib/wording";
import { labelOf } from "./field-row";
import type { CountField } from "./fields";
import type { RigForm } from "./read";
import { hrefOfField } from "./step-links";
import styles from "./step-form.module.css";

/** Every fault of the form, whichever step it is in, each leading to its field. */
export function FaultSummary({ form }: { readonly form: RigForm }) {
  const { guestRig: words } = catalogueOf();
  const inputs = Object.keys(form.faults);
  if (inputs.length === 0) return null;
  return (
    <div className={styles.faults} role="alert" id="faults">
      <h2>{words.summary.title(inputs.length)}</h2>
      <ul>
        {inputs.map((input) => <li key={input}><a href={hrefOfField(form, input)}>{nameOf(form, input)}</a>: {unbroken(form.faults[input]!)}</li>)}
      </ul>
      <p>{words.summary.line}</p>
    </div>
  );
}

function nameOf({ fields, outline }: RigForm, input: string): string {
  const { guestRig: words, things } = catalogueOf();
  const field = fields.find((f) => f.input === input);
  if (!field) return words.fields[input as CountField];
  const part = outline.parts.find(({ part: { id } }) => id === field.group)?.part, inlet = outline.inlets.find(({ key }) => key === field.group);
  const label = labelOf(field, part?.side ?? inlet?.inlet?.side);
  if (part) return words.within(things.label({ type: "part", part }), label);
  return inlet && field.group ? words.within(words.hookups.inletNames[inlet.service], label) : label;
}
