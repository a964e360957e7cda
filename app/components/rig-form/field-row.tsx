import type { ReactNode } from "react";
import type { Inlet, RigPart } from "@/lib/rig";
import { catalogueOf, unbroken } from "@/lib/wording";
import { TapeSpot } from "./drawings/tape-spot";
import { isEnd, typicalText, type CountField, type Field } from "./fields";
import type { RigForm } from "./read";
import { idOfField } from "./steps";
import styles from "./fields.module.css";

interface FieldRowProps {
  readonly form: RigForm;
  readonly field: Field;
  readonly part?: RigPart;
  readonly inlet?: Inlet;
}

/** One length: what it is, where to hold the tape in words and on a drawing, and what counts until it is measured. */
export function FieldRow({ form, field, part, inlet }: FieldRowProps) {
  const { guestRig: words } = catalogueOf();
  const { input, what } = field, id = idOfField(input), fault = form.faults[input], note = form.notes[input];
  const typical = unbroken(typicalText(field, form.units));
  const label = labelOf(field, part?.side ?? inlet?.side), isTypical = form.start.kind !== null;
  const described = [`${id}-hold`, isTypical ? `${id}-typical` : "", fault ? `${id}-fault` : note ? `${id}-note` : ""].filter(Boolean).join(" ");
  return (
    <div className={fault ? styles.faulty : styles.field}>
      <div className={styles.asked}>
        <label htmlFor={id}>{label}</label>
        <p className={styles.hold} id={`${id}-hold`}>{holdOf(field, form, part?.side)}</p>
        <div className={styles.entry}>
          <input
            id={id} name={input} defaultValue={form.texts[input]} placeholder={isTypical ? typical : " "} autoComplete="off" inputMode="text" enterKeyHint="go" maxLength={40}
            aria-invalid={fault ? true : undefined} aria-describedby={described} autoFocus={fault !== undefined && input === firstFault(form)}
          />
          {isTypical && <>
            <span className={styles.typical} id={`${id}-typical`}><span className="visually-hidden">{typical}, </span>{words.typicalMark}</span>
            <span className={styles.yours} aria-hidden="true">{words.yoursMark}</span>
          </>}
        </div>
        {fault && <p id={`${id}-fault`} className={styles.fault}>{unbroken(fault)}</p>}
        {!fault && note && <p id={`${id}-note`} className={styles.note}>{unbroken(note)}</p>}
      </div>
      <div className={styles.drawing}><TapeSpot what={what} rig={form.outline.rig} label={words.tape(label.toLowerCase())} part={part} inlet={inlet} /></div>
    </div>
  );
}

export function CountRow({ form, field }: { readonly form: RigForm; readonly field: CountField }) {
  const { guestRig: words } = catalogueOf();
  const id = idOfField(field), fault = form.faults[field];
  return (
    <div className={fault ? styles.faultyCount : styles.count}>
      <label htmlFor={id}>{words.fields[field]}</label>
      <input id={id} name={field} defaultValue={form.texts[field]} autoComplete="off" inputMode="numeric" maxLength={10} aria-invalid={fault ? true : undefined} aria-describedby={fault ? `${id}-fault` : undefined} autoFocus={fault !== undefined && field === firstFault(form)} />
      {fault && <p id={`${id}-fault`} className={styles.fault}>{fault}</p>}
    </div>
  );
}

export function Check({ name, value, on, children }: { readonly name: string; readonly value: string; readonly on: boolean; readonly children: ReactNode }) {
  return <label className={styles.check}><input type="checkbox" name={name} value={value} defaultChecked={on} /><span>{children}</span></label>;
}

/** Nothing of a part or an inlet was measured: all its numbers are the typical ones. */
export function isUntouched({ start, fields, texts }: RigForm, group: string): boolean {
  return start.kind !== null && fields.every((f) => f.group !== group || texts[f.input] === "");
}

/** The first faulty field in the order the form asks. */
export function firstFault({ faults, fields }: RigForm): string | undefined {
  return fields.find(({ input }) => faults[input] !== undefined)?.input ?? Object.keys(faults)[0];
}

export function labelOf({ what }: Field, side?: RigPart["side"]): string {
  const { fields } = catalogueOf().guestRig;
  const end = side !== undefined && isEnd(side);
  if (what === "start") return end ? fields.startOnEnd : fields.start;
  if (what === "end") return end ? fields.endOnEnd : fields.end;
  if (what === "inletAt") return end ? fields.inletAtOnEnd : fields.inletAt;
  return fields[what];
}

function holdOf({ what }: Field, { base }: RigForm, side: RigPart["side"] | undefined): string {
  const { holds } = catalogueOf().guestRig;
  if (side !== undefined && isEnd(side) && (what === "start" || what === "end")) return what === "start" ? holds.startOnEnd : holds.endOnEnd;
  if (what === "length" && !base.hitch) return holds.lengthMotor;
  if (what === "hitch" && base.kind === "fifth-wheel") return holds.hitchFifth;
  return holds[what];
}
