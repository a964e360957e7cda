"use client";

import { useActionState } from "react";
import styles from "./send-form.module.css";

/** What became of a form: what was typed, what is wrong with each field, and what is said of the whole. */
export interface Sent {
  readonly values: Readonly<Record<string, string>>;
  readonly faults: Readonly<Record<string, string>>;
  readonly said: string | null;
  readonly done: boolean;
}

export interface SendField {
  readonly name: string;
  readonly label: string;
  readonly type: "text" | "email" | "tel";
  readonly complete: string;
  readonly most: number;
  readonly hint?: string;
}

interface SendFormProps {
  readonly action: (before: Sent, form: FormData) => Promise<Sent>;
  readonly fields: readonly SendField[];
  readonly hidden: Readonly<Record<string, string>>;
  readonly start?: Readonly<Record<string, string>>;
  readonly title?: string;
  readonly line?: string;
  readonly submit: string;
  readonly busy: string;
  readonly className?: string | undefined;
}

/** A guest's form: every fault beside its field, what was typed kept. Works without script: the same page comes back with the same words. */
export function SendForm({ action, fields, hidden, start = {}, title, line, submit, busy, className }: SendFormProps) {
  const [{ values, faults, said, done }, send, pending] = useActionState(action, { values: start, faults: {}, said: null, done: false });
  if (done) return <p className={styles.done} role="status">{said}</p>;
  return (
    <form action={send} className={className ?? styles.form} noValidate aria-busy={pending} key={JSON.stringify(values)}>
      {title && <h3>{title}</h3>}
      {line && <p>{line}</p>}
      {Object.entries(hidden).map(([name, value]) => <input key={name} type="hidden" name={name} value={value} />)}
      {said && <p className={styles.said} role="alert">{said}</p>}
      {fields.map(({ name, label, type, complete, most, hint }) => (
        <div key={name} className={faults[name] ? styles.faulty : styles.field}>
          <label htmlFor={`send-${name}`}>{label}</label>
          {hint && <p id={`send-${name}-hint`} className={styles.hint}>{hint}</p>}
          <input id={`send-${name}`} name={name} type={type} defaultValue={values[name] ?? ""} autoComplete={complete} maxLength={most} aria-invalid={faults[name] ? true : undefined} aria-describedby={[faults[name] ? `send-${name}-fault` : "", hint ? `send-${name}-hint` : ""].filter(Boolean).join(" ") || undefined} />
          {faults[name] && <p id={`send-${name}-fault`} className={styles.fault}>{faults[name]}</p>}
        </div>
      ))}
      <button type="submit" className={styles.submit} disabled={pending}>{pending ? busy : submit}</button>
    </form>
  );
}
