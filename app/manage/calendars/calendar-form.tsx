"use client";

import { useActionState, useId } from "react";
import { HandOver, type LinkWords } from "../accounts/link-form";
import styles from "./calendars.module.css";

export interface CalendarFormState {
  /** Counts the answers, so that what was entered is kept in fields that start anew. */
  readonly turn: number;
  readonly values?: Readonly<Record<string, string>>;
  /** By the field's name, what is wrong with it. */
  readonly faults?: Readonly<Record<string, string>>;
  readonly summary?: string;
  /** An address to hand over, and what it is for. */
  readonly link?: { readonly url: string; readonly about: string };
}

export interface CalendarField {
  readonly name: string;
  readonly label: string;
  readonly hint?: string;
  readonly type: "text" | "url";
}

interface CalendarFormProps {
  readonly action: (state: CalendarFormState, form: FormData) => Promise<CalendarFormState>;
  readonly sites: { readonly label: string; readonly choose: string; readonly options: readonly { readonly id: string; readonly name: string }[] };
  readonly fields: readonly CalendarField[];
  readonly submit: string;
  readonly linkWords?: LinkWords;
}

/** A site, and what is told of a calendar for it. */
export function CalendarForm({ action, sites, fields, submit, linkWords }: CalendarFormProps) {
  const [state, send, sending] = useActionState(action, { turn: 0 });
  return (
    <form action={send} aria-busy={sending || undefined} className={styles.form} noValidate>
      {state.summary && <p role="alert" className={styles.refusal}>{state.summary}</p>}
      <div key={state.turn} className={styles.fields}>
        <Labelled name="site" label={sites.label} fault={state.faults?.["site"]}>
          {(ids) => (
            <select {...ids} name="site" defaultValue={state.values?.["site"] ?? ""} required>
              <option value="">{sites.choose}</option>
              {sites.options.map(({ id, name }) => <option key={id} value={id}>{name}</option>)}
            </select>
          )}
        </Labelled>
        {fields.map(({ name, label, hint, type }) => (
          <Labelled key={name} name={name} label={label} hint={hint} fault={state.faults?.[name]}>
            {(ids) => <input {...ids} name={name} type={type} inputMode={type} defaultValue={state.values?.[name] ?? ""} autoComplete="off" spellCheck={false} required />}
          </Labelled>
        ))}
      </div>
      <button type="submit" className={styles.strong}>{submit}</button>
      {state.link && linkWords && <HandOver key={state.link.url} link={state.link.url} about={state.link.about} words={linkWords} />}
    </form>
  );
}

interface LabelledProps {
  readonly name: string;
  readonly label: string;
  readonly hint?: string | undefined;
  readonly fault: string | undefined;
  readonly children: (ids: { id: string; "aria-describedby": string | undefined; "aria-invalid": true | undefined }) => React.ReactNode;
}

function Labelled({ name, label, hint, fault, children }: LabelledProps) {
  const id = `${useId()}-${name}`;
  const described = [hint && `${id}-hint`, fault && `${id}-fault`].filter(Boolean).join(" ");
  return (
    <div className={fault ? styles.faulty : styles.field}>
      <label htmlFor={id}>{label}</label>
      {hint && <p id={`${id}-hint`} className={styles.hint}>{hint}</p>}
      {fault && <p id={`${id}-fault`} className={styles.fault}>{fault}</p>}
      {children({ id, "aria-describedby": described || undefined, "aria-invalid": fault ? true : undefined })}
    </div>
  );
}
