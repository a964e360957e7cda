"use client";

import { createContext, useContext, type ReactNode } from "react";
import styles from "./rates.module.css";

const Faults = createContext<Readonly<Record<string, string>>>({});

/** Fields whose faults stand beside them. Names are those of the draft; the form sends them under `card.`. */
export function FieldsOf({ faults, children }: { readonly faults: Readonly<Record<string, string>>; readonly children: ReactNode }) {
  return <Faults value={faults}>{children}</Faults>;
}

/** Fields that belong together, on one line where there is room. */
export function Row({ label, children }: { readonly label: string; readonly children: ReactNode }) {
  return <div role="group" aria-label={label} className={styles.row}>{children}</div>;
}

interface TextProps {
  readonly name: string;
  readonly label: string;
  readonly value: string;
  /** What a screen reader says in place of the label, where a table's head says the rest. */
  readonly spoken?: string;
  readonly hint?: string;
  readonly short?: boolean;
}

export function Text({ name, label, value, spoken, hint, short }: TextProps) {
  const fault = useContext(Faults)[name], id = `card-${name}`;
  const about = [fault && `${id}-fault`, hint && `${id}-hint`].filter(Boolean).join(" ");
  return (
    <div className={`${fault ? styles.faulty : styles.field} ${short ? styles.short : ""}`}>
      <label htmlFor={id} className={spoken ? styles.inTable : undefined}>{label}</label>
      {hint && <p id={`${id}-hint`} className={styles.hint}>{hint}</p>}
      <input id={id} name={`card.${name}`} defaultValue={value} aria-label={spoken} autoComplete="off" aria-invalid={fault ? true : undefined} aria-describedby={about || undefined} />
      {fault && <p id={`${id}-fault`} className={styles.fault}>{fault}</p>}
    </div>
  );
}

interface AmongProps {
  readonly name: string;
  readonly label: string;
  readonly among: readonly (readonly [string, string])[];
}

export function Choice({ name, label, value, among }: AmongProps & { readonly value: string }) {
  const fault = useContext(Faults)[name], id = `card-${name}`;
  return (
    <div className={fault ? styles.faulty : styles.field}>
      <label htmlFor={id}>{label}</label>
      <select id={id} name={`card.${name}`} defaultValue={value} aria-invalid={fault ? true : undefined} aria-describedby={fault ? `${id}-fault` : undefined}>
        {among.map(([key, word]) => <option key={key} value={key}>{word}</option>)}
      </select>
      {fault && <p id={`${id}-fault`} className={styles.fault}>{fault}</p>}
    </div>
  );
}

export function Tick({ name, label, values, among }: AmongProps & { readonly values: readonly string[] }) {
  const fault = useContext(Faults)[name], id = `card-${name}`;
  return (
    <fieldset className={`${fault ? styles.faulty : styles.field} ${styles.ticks}`} aria-describedby={fault ? `${id}-fault` : undefined}>
      <legend>{label}</legend>
      {among.map(([key, word]) => <label key={key}><input type="checkbox" name={`card.${name}[]`} value={key} defaultChecked={values.includes(key)} aria-invalid={fault ? true : undefined} /> {word}</label>)}
      {fault && <p id={`${id}-fault`} className={styles.fault}>{fault}</p>}
    </fieldset>
  );
}

/** A fault of a whole part rather than of one field. */
export function PartFault({ name }: { readonly name: string }) {
  const fault = useContext(Faults)[name];
  return fault ? <p className={styles.fault} role="alert">{fault}</p> : null;
}
