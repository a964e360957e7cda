import type { ReactNode } from "react";
import { catalogueOf } from "@/lib/wording";
import { Busy } from "./busy";
import { bareUnit, wishes, type CountField, type LengthField } from "./fields";
import { canWant, type RigForm as Form } from "./read";
import styles from "./rig-form.module.css";

const SIZE: readonly LengthField[] = ["length", "hitch", "width", "height"];
const GEAR: readonly LengthField[] = ["powerCord", "waterHose", "sewerHose", "liftSide", "liftAlong"];
const PARTY: readonly CountField[] = ["adults", "children", "pets", "tents"];
const SERVICES = ["power", "water", "sewer"] as const;

/** A rig's key numbers as a plain GET form: the address keeps them, and it works without script. */
export function RigForm({ form }: { readonly form: Form }) {
  const { pages } = catalogueOf();
  const { base, units } = form;
  return (
    <form method="get" action="/sites" className={styles.form} noValidate>
      {Object.entries(form.start.query).map(([name, value]) => <input key={name} type="hidden" name={name} value={value} />)}
      <input type="hidden" name="units" value={units} />
      <input type="hidden" name="form" value="1" />
      <p className={styles.help}>{pages.first.numbersHelp}</p>
      <Group title={pages.first.size}>
        {SIZE.filter((f) => f !== "hitch" || base.hitch).map((field) => <Field key={field} form={form} field={field} unit={bareUnit(field, units)} />)}
      </Group>
      {base.parts.length > 0 && <Group title={pages.first.opens}><Parts form={form} /></Group>}
      <Group title={pages.first.gear}>
        {GEAR.map((field) => <Field key={field} form={form} field={field} unit={bareUnit(field, units)} />)}
      </Group>
      <Group title={pages.first.stay}>
        <Wants form={form} />
        {base.tow && <Tow form={form} />}
        <div className={styles.counts}>{PARTY.map((field) => <Field key={field} form={form} field={field} unit={null} />)}</div>
        <Check name="accessible" value="1" on={current(form).party.accessible}>{pages.fields.accessible}</Check>
        <Wishes form={form} />
      </Group>
      <Busy className={styles.submit} label={pages.first.submit} busy={pages.first.loading} />
    </form>
  );
}

/** The rig as the form has it; where a number is at fault, its choices still come from the typical one. */
function current({ rig, base }: Form) {
  return rig ?? base;
}

function Group({ title, children }: { readonly title: string; readonly children: ReactNode }) {
  return <fieldset className={styles.group}><legend>{title}</legend>{children}</fieldset>;
}

function Field({ form, field, unit }: { readonly form: Form; readonly field: LengthField | CountField; readonly unit: string | null }) {
  const { pages } = catalogueOf();
  const fault = form.faults[field];
  const id = `field-${field}`;
  return (
    <div className={fault ? styles.faulty : styles.field}>
      <label htmlFor={id}>{pages.fields[field]}</label>
      <input id={id} name={field} defaultValue={form.texts[field]} autoComplete="off" inputMode={unit === null ? "numeric" : "text"} maxLength={40} aria-invalid={fault ? true : undefined} aria-describedby={fault ? `${id}-fault` : undefined} />
      {fault && <p id={`${id}-fault`} className={styles.fault}>{fault}</p>}
    </div>
  );
}

function Parts({ form: { base, rig } }: { readonly form: Form }) {
  const { things, pages } = catalogueOf();
  return base.parts.map((part) => {
    const now = rig ? (rig.parts.find((p) => p.id === part.id)?.need ?? "off") : part.need;
    return (
      <div key={part.id} className={styles.field}>
        <label htmlFor={`part-${part.id}`}>{things.label({ type: "part", part })} <span className={styles.side}>{things.sides[part.side]}</span></label>
        <select id={`part-${part.id}`} name={`part-${part.id}`} defaultValue={now}>
          {(["must", "nice", "off"] as const).map((need) => <option key={need} value={need}>{pages.fields.need[need]}</option>)}
        </select>
      </div>
    );
  });
}

function Wants({ form }: { readonly form: Form }) {
  const { pages, things } = catalogueOf();
  const possible = SERVICES.filter((s) => canWant(form.base, s));
  if (possible.length === 0) return null;
  return (
    <div role="group" aria-label={pages.fields.wants} className={styles.checks}>
      <span className={styles.label}>{pages.fields.wants}</span>
      {possible.map((s) => <Check key={s} name="want" value={s} on={current(form).wants.includes(s)}>{things.services[s]}</Check>)}
    </div>
  );
}

function Wishes({ form }: { readonly form: Form }) {
  const { pages, wishLabels } = catalogueOf();
  return (
    <div role="group" aria-label={pages.fields.wishes} className={styles.checks}>
      <span className={styles.label}>{pages.fields.wishes}</span>
      {wishes.map((w) => <Check key={w} name="wish" value={w} on={current(form).wishes.includes(w)}>{wishLabels[w] ?? w}</Check>)}
    </div>
  );
}

function Tow({ form }: { readonly form: Form }) {
  const { pages } = catalogueOf();
  return (
    <div className={styles.field}>
      <label htmlFor="tow">{pages.fields.tow}</label>
      <select id="tow" name="tow" defaultValue={current(form).tow?.stays}>
        {(["on-site", "hitched", "elsewhere"] as const).map((stays) => <option key={stays} value={stays}>{pages.fields.towStays[stays]}</option>)}
      </select>
    </div>
  );
}

function Check({ name, value, on, children }: { readonly name: string; readonly value: string; readonly on: boolean; readonly children: ReactNode }) {
  return <label className={styles.check}><input type="checkbox" name={name} value={value} defaultChecked={on} /><span>{children}</span></label>;
}
