"use client";

import { useActionState, useEffect, useRef } from "react";
import styles from "./account-form.module.css";

/** What a form answers with. */
export interface FormState {
  readonly faults?: Readonly<Record<string, string>>;
  /** What was typed, but for passwords. */
  readonly kept?: Readonly<Record<string, string>>;
  /** Why it was refused as a whole. */
  readonly refusal?: string;
  readonly done?: string;
}

export type FormAction = (state: FormState, form: FormData) => Promise<FormState>;

export interface Field {
  readonly name: string;
  readonly label: string;
  readonly type: "text" | "email" | "password";
  readonly autoComplete: string;
  readonly hint?: string;
  readonly value?: string;
}

interface FormProps {
  readonly action: FormAction;
  readonly fields: readonly Field[];
  readonly hidden?: Readonly<Record<string, string>>;
  readonly submit: string;
  /** Keeps the ids of two forms of one page apart. */
  readonly id: string;
}

/** A short form whose answer stands beside its fields. Without script it is sent and comes back the same way. */
export function AccountForm({ action, fields, hidden = {}, submit, id }: FormProps) {
  const [state, send, sending] = useActionState(action, {});
  const form = useRef<HTMLFormElement>(null);
  useEffect(() => {
    form.current?.querySelector<HTMLElement>("[aria-invalid=true], [data-refusal]")?.focus();
  }, [state]);
  return (
    <form ref={form} action={send} className={styles.form} noValidate aria-busy={sending || undefined}>
      {state.refusal && <p className={styles.refusal} role="alert" tabIndex={-1} data-refusal="">{state.refusal}</p>}
      {fields.map((field) => <Entry key={field.name} id={`${id}-${field.name}`} field={field} fault={state.faults?.[field.name]} kept={state.kept?.[field.name]} />)}
      {Object.entries(hidden).map(([name, value]) => <input key={name} type="hidden" name={name} value={value} />)}
      <button type="submit" className={styles.submit} aria-disabled={sending || undefined}>{submit}</button>
      <p role="status" className={styles.done}>{state.done}</p>
    </form>
  );
}

function Entry({ id, field: { name, label, type, autoComplete, hint, value }, fault, kept }: { readonly id: string; readonly field: Field; readonly fault: string | undefined; readonly kept: string | undefined }) {
  const about = [fault && `${id}-fault`, hint && `${id}-hint`].filter(Boolean).join(" ");
  return (
    <div className={fault ? styles.faulty : styles.field}>
      <label htmlFor={id}>{label}</label>
      {hint && <p className={styles.hint} id={`${id}-hint`}>{hint}</p>}
      <input
        id={id} name={name} type={type} autoComplete={autoComplete} defaultValue={kept ?? value} required
        autoCapitalize={type === "text" ? "words" : "none"} spellCheck={false}
        aria-invalid={fault ? true : undefined} aria-describedby={about || undefined}
      />
      {fault && <p className={styles.fault} id={`${id}-fault`}>{fault}</p>}
    </div>
  );
}
