import { lengthClassesOf } from "@/lib/rig";
import { catalogueOf, formatLength, numbersFor, unbroken } from "@/lib/wording";
import { BodyLength } from "./body-length";
import { FieldRow } from "./field-row";
import { typicalText } from "./fields";
import type { RigForm } from "./read";
import { idOfField } from "./steps";
import styles from "./step-form.module.css";

/** How large it is: a length class by one tap, or what was measured. */
export function SizeStep({ form }: { readonly form: RigForm }) {
  const { guestRig: words } = catalogueOf();
  const [length, ...others] = form.fields.filter(({ step }) => step === "size");
  const hitch = others.find(({ what }) => what === "hitch"), after = others.filter(({ what }) => what !== "hitch");
  return (
    <>
      {form.start.kind && <Classes form={form} />}
      <section className={styles.group} aria-labelledby="size-exact">
        <h2 id="size-exact">{words.size.exact}</h2>
        <p className={styles.quiet}>{form.units === "metric" ? words.howMetric : words.how} {words.skip}</p>
        <div className={styles.columns}>
          <FieldRow form={form} field={length!} />
          {hitch && <FieldRow form={form} field={hitch} />}
        </div>
        {hitch && (
          <p className={styles.sum}>
            <span>{words.size.bodyEquals}</span>
            <BodyLength
              length={idOfField("length")} hitch={idOfField("hitch")} units={form.units}
              standing={{ length: typicalText(length!, form.units), hitch: typicalText(hitch, form.units) }}
              told={unbroken(numbersFor(form.units).measured(form.outline.rig.body.length))} unclear={words.size.bodyUnclear}
            />
          </p>
        )}
        <div className={styles.columns}>{after.map((field) => <FieldRow key={field.input} form={form} field={field} />)}</div>
      </section>
    </>
  );
}

function Classes({ form: { base, units, lengthAssumed, outline: { rig } } }: { readonly form: RigForm }) {
  const { guestRig: { size: words } } = catalogueOf();
  const now = !lengthAssumed ? rig.body.length + (rig.hitch?.length ?? 0) : null;
  return (
    <fieldset className={styles.group}>
      <legend>{words.classes}</legend>
      <p className={styles.quiet}>{base.hitch ? words.classesHelp : words.classesHelpMotor}</p>
      <div className={styles.chips}>
        {lengthClassesOf(base.kind).map((mm) => (
          <button key={mm} type="submit" name="class" value={classText(mm)} aria-pressed={now !== null && Math.abs(now - mm) < 1}>{unbroken(formatLength(mm, units, "nearest"))}</button>
        ))}
      </div>
    </fieldset>
  );
}

/** Classes are whole feet, whatever the reader's units: "31 ft" means the same to both. */
export function classText(mm: number): string {
  return `${Math.round(mm / 304.8)} ft`;
}
