import { isMotorized } from "@/lib/rig";
import { catalogueOf } from "@/lib/wording";
import { Check, CountRow, FieldRow } from "./field-row";
import { countFields, steerInputs, wishes } from "./fields";
import { NONE } from "./outline";
import type { RigForm } from "./read";
import styles from "./step-form.module.css";

const STAYS = ["on-site", "hitched", "elsewhere"] as const;

/** Who and what comes along, and what they would like. */
export function PartyStep({ form }: { readonly form: RigForm }) {
  const { guestRig: { party: words } } = catalogueOf();
  const { rig } = form.outline;
  return (
    <>
      <p className={styles.lead}>{words.lead}</p>
      <fieldset className={styles.group}>
        <legend>{words.people}</legend>
        <div className={styles.counts}>{countFields.map((field) => <CountRow key={field} form={form} field={field} />)}</div>
      </fieldset>
      <Vehicle form={form} />
      <Steering form={form} />
      <section className={styles.group}>
        <input type="hidden" name="accessible" value="0" />
        <Check name="accessible" value="1" on={rig.party.accessible}>{words.accessible}</Check>
        <p className={styles.quiet}>{words.accessibleHelp}</p>
      </section>
      <fieldset className={styles.group}>
        <legend>{words.wishes}</legend>
        <input type="hidden" name="wish" value={NONE} />
        <div className={styles.checks}>{wishes.map((w) => <Check key={w} name="wish" value={w} on={rig.wishes.includes(w)}>{words.wishNames[w]}</Check>)}</div>
        <p className={styles.quiet}>{words.wishHelp}</p>
      </fieldset>
    </>
  );
}

/** A trailer has something that tows it; a motorized rig may tow a car. */
function Vehicle({ form }: { readonly form: RigForm }) {
  const { guestRig: { party: words } } = catalogueOf();
  const { base, outline: { rig }, fields } = form;
  const motorized = isMotorized(base.kind);
  if (!motorized && !base.tow) return null;
  const length = fields.find((f) => f.input === "towLength");
  return (
    <section className={styles.group} aria-labelledby="tow-heading">
      <h2 id="tow-heading">{motorized ? words.towed : words.vehicle}</h2>
      <div className={styles.choice}>
        <label htmlFor="tow">{words.where}</label>
        <select id="tow" name="tow" defaultValue={rig.tow?.stays ?? NONE}>
          {motorized && <option value={NONE}>{words.towedStays.none}</option>}
          {STAYS.map((stays) => <option key={stays} value={stays}>{motorized ? words.towedStays[stays] : words.stays[stays]}</option>)}
        </select>
      </div>
      {length && <FieldRow form={form} field={length} />}
    </section>
  );
}

/** What steers the rig: folded away, as the usual numbers do where the way in does not hang on them. */
function Steering({ form }: { readonly form: RigForm }) {
  const { guestRig: { party: words } } = catalogueOf();
  const fields = form.fields.filter(({ input }) => (steerInputs as readonly string[]).includes(input));
  if (fields.length === 0) return null;
  const open = fields.some(({ input }) => form.texts[input] !== "" || form.faults[input] !== undefined);
  return (
    <details className={styles.group} open={open}>
      <summary>{isMotorized(form.base.kind) ? words.steersItself : words.steers}</summary>
      <p className={styles.quiet}>{words.steersHelp}</p>
      {fields.map((field) => <FieldRow key={field.input} form={form} field={field} />)}
    </details>
  );
}
