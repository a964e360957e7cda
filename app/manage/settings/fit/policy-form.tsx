import { defaultPolicy } from "@/lib/fit/policy";
import type { Units } from "@/lib/measure/parse";
import { catalogueOf } from "@/lib/wording";
import { recordText, valueText } from "../policy-words";
import { isLength, policyFields, valueOf, type PolicyField } from "./fields";
import { textOf, type PolicyForm } from "./read-policy";
import type { PolicyContext } from "./context";
import styles from "../settings.module.css";

const { settings: words } = catalogueOf();

interface FormProps {
  readonly context: PolicyContext;
  readonly form: PolicyForm;
  readonly units: Units;
}

/** Every value, with what it means and where its default comes from. Goes to an address of what differs; nothing is saved by it. */
export function PolicyFields({ context, form, units }: FormProps) {
  const groups = Object.entries(words.groups) as [keyof typeof words.groups, { title: string; note: string | null }][];
  return (
    <form action="/manage/settings/fit/go" method="get" className={styles.form} noValidate aria-label={words.fit.title}>
      <input type="hidden" name="units" value={units} />
      <input type="hidden" name="based" value={context.version} />
      {groups.map(([group, { title, note }]) => (
        <fieldset key={group} className={styles.group}>
          <legend>{title}</legend>
          {note && <p className={styles.caution}>{note}</p>}
          {policyFields.filter((field) => field.group === group).map((field) => <Field key={field.name} field={field} context={context} form={form} units={units} />)}
        </fieldset>
      ))}
      <p className={styles.submit}><button type="submit">{words.fit.check}</button></p>
    </form>
  );
}

function Field({ field, context: { policy }, form: { texts, faults }, units }: FormProps & { readonly field: PolicyField }) {
  const { name } = field, { label, means, source } = words.policy[name], fault = faults[name];
  const held = valueOf(policy, name), record = recordText(held, field, units);
  const about = [`${name}-means`, ...(fault ? [`${name}-fault`] : [])].join(" ");
  return (
    <div className={fault ? styles.faulty : styles.field}>
      <input type="hidden" name={`was.${name}`} value={textOf(held, field, units)} />
      <div className={styles.entry}>
        <Entry field={field} label={label} text={texts[name]} about={about} invalid={fault !== undefined} units={units} />
        {fault && <p id={`${name}-fault`} className={styles.fault}>{fault}</p>}
      </div>
      <p id={`${name}-means`} className={styles.means}>
        {means} <span className={styles.source}>{words.fit.usual(valueText(valueOf(defaultPolicy, name), field, units))} {source} {record && words.fit.record(record)}</span>
      </p>
    </div>
  );
}

interface EntryProps {
  readonly field: PolicyField;
  readonly label: string;
  readonly text: string;
  readonly about: string;
  readonly invalid: boolean;
  readonly units: Units;
}

function Entry({ field: { name, kind }, label, text, about, invalid, units }: EntryProps) {
  const { fit } = words;
  if (kind === "yes-no") {
    return (
      <label className={styles.label}>{label}
        <select id={name} name={name} defaultValue={text} aria-describedby={about} aria-invalid={invalid || undefined}><option value="yes">{fit.yes}</option><option value="no">{fit.no}</option></select>
      </label>
    );
  }
  if (kind === "services") {
    const ticked = text.split(",");
    return (
      <div role="group" aria-labelledby={`${name}-label`} aria-describedby={about}>
        <p id={`${name}-label`} className={styles.label}>{label}</p>
        <input type="hidden" name={name} value="-" />
        {Object.entries(fit.services).map(([service, called]) => <label key={service} className={styles.tick}><input type="checkbox" name={name} value={service} defaultChecked={ticked.includes(service)} /> {called}</label>)}
      </div>
    );
  }
  const unit = kind === "pressure" ? (units === "metric" ? fit.unit.kPa : fit.unit.psi) : isLength(kind) ? null : fit.unit.percent;
  return (
    <label className={styles.label}>{label}
      <span className={styles.typed}>
        <input id={name} className={styles.short} name={name} defaultValue={text} inputMode={isLength(kind) ? "text" : "decimal"} maxLength={40} autoComplete="off" autoCapitalize="none" spellCheck={false} aria-describedby={about} aria-invalid={invalid || undefined} />
        {unit && <span>{unit}</span>}
      </span>
    </label>
  );
}
