"use client";

import { startTransition, useActionState, useEffect, useRef } from "react";
import { ChangeTable } from "../change-table";
import type { FieldSpec, FormLayout, FormWords, ListSpec, RowSpec } from "./layout-of";
import type { StaysPreview, StaysStale, StaysState } from "./state";
import styles from "../settings.module.css";

interface StaysFormProps {
  readonly action: (before: StaysState, form: FormData) => Promise<StaysState>;
  readonly first: StaysState;
  readonly layout: FormLayout;
  readonly units: string;
}

/** The whole of the settings for stays. Shows what would change and saves that; without script the answer is the page with the same in it. */
export function StaysForm({ action, first, layout, units }: StaysFormProps) {
  const [state, act, pending] = useActionState(action, first);
  const form = useRef<HTMLFormElement>(null);
  const { round, draft, faulty, preview, stale, note } = state;
  useEffect(() => { if (round > 0) form.current?.querySelector<HTMLElement>("[data-found], [aria-invalid=true]")?.focus(); }, [round]);
  return (
    <form
      ref={form} action={act} className={styles.form} noValidate aria-busy={pending || undefined}
      onSubmit={(event) => {
        event.preventDefault();
        if (pending) return;
        const data = new FormData(event.currentTarget, (event.nativeEvent as SubmitEvent).submitter);
        startTransition(() => act(data));
      }}
    >
      {/* The button that Enter presses: it must never be one that saves. */}
      <button type="submit" name="do" value="check" className="visually-hidden" tabIndex={-1} aria-hidden="true">{layout.words.check}</button>
      <input type="hidden" name="base" value={state.base} />
      <input type="hidden" name="version" value={state.version} />
      <input type="hidden" name="units" value={units} />
      {stale && <Stale stale={stale} words={layout.words} />}
      {faulty && <p className={styles.faults} role="alert">{faulty}</p>}
      {note && <p className={styles.warning} role="status" tabIndex={-1} data-found="">{note}</p>}
      {preview && <Preview preview={preview} words={layout.words} />}
      <div key={round}>
        {layout.groups.map(({ title, rows }) => (
          <fieldset key={title} className={styles.group}>
            <legend>{title}</legend>
            {rows.map((row) => <Row key={row.key} row={row} state={state} />)}
          </fieldset>
        ))}
        <Lines list="step" spec={layout.steps} many={draft.steps} state={state} words={layout.words} add="more-steps" className={styles.steps} />
        <Lines list="thing" spec={layout.things} many={draft.things} state={state} words={layout.words} add="more-things" className={styles.things} />
      </div>
      <datalist id="zones">{layout.zones.map((zone) => <option key={zone} value={zone} />)}</datalist>
      <p className={styles.submit}><button type="submit" name="do" value="check">{layout.words.check}</button></p>
    </form>
  );
}

function Preview({ preview: { lines, follows, agreed }, words }: { readonly preview: StaysPreview; readonly words: FormWords }) {
  return (
    <section className={styles.preview} aria-labelledby="preview">
      <h2 id="preview" tabIndex={-1} data-found="">{words.preview}</h2>
      <ChangeTable lines={lines} caption={words.preview} columns={words.columns} />
      {follows.length > 0 && <><h3 className={styles.followsTitle}>{words.follows}</h3><ul className={styles.follows}>{follows.map((line) => <li key={line}>{line}</li>)}</ul></>}
      <div className={styles.save}>
        <p>{words.notSaved}</p>
        <input type="hidden" name="agreed" value={agreed} />
        <label className={styles.reason}>{words.reason}<input name="reason" maxLength={300} autoComplete="off" /></label>
        <p><button type="submit" name="do" value="save" className={styles.main}>{words.save}</button></p>
      </div>
    </section>
  );
}

function Stale({ stale: { saves, both }, words }: { readonly stale: StaysStale; readonly words: FormWords }) {
  return (
    <section className={styles.stale} role="alert" aria-labelledby="stale">
      <h2 id="stale">{words.stale.title}</h2>
      <p>{words.stale.line}</p>
      <ol className={styles.log}>
        {saves.map(({ title, reason, lines }, i) => <li key={i}><p className={styles.who}>{title}</p><ul>{lines.map(({ name, from, to }, at) => <li key={at}><strong>{name}</strong>: {from} → {to}</li>)}</ul>{reason && <p className={styles.why}>{reason}</p>}</li>)}
      </ol>
      {both && <p><strong>{both}</strong></p>}
      <p>{words.stale.keep}</p>
    </section>
  );
}

function Row({ row: { key, fields, means, usual }, state }: { readonly row: RowSpec; readonly state: StaysState }) {
  const faulty = fields.some(({ name }) => state.faults[name]);
  return (
    <div className={`${faulty ? styles.faulty : styles.field} ${fields[0]?.kind === "lines" ? styles.whole : ""}`}>
      <div className={fields.length > 1 ? styles.pair : undefined}>{fields.map((field) => <Entry key={field.name} field={field} name={field.name} state={state} about={`${key}-means`} />)}</div>
      <p id={`${key}-means`} className={styles.means}>{means} {usual && <span className={styles.source}>{usual}</span>}</p>
    </div>
  );
}

interface LinesProps {
  readonly list: "step" | "thing";
  readonly spec: ListSpec;
  readonly many: number;
  readonly state: StaysState;
  readonly words: FormWords;
  readonly add: string;
  readonly className: string | undefined;
}

function Lines({ list, spec, many, state, words, add, className }: LinesProps) {
  return (
    <fieldset className={`${styles.group} ${className ?? ""}`}>
      <legend>{spec.title}</legend>
      <p className={styles.means}>{spec.means}</p>
      <ol className={styles.rows}>
        {Array.from({ length: many }, (_, i) => (
          <li key={i}>
            {list === "thing" && <input type="hidden" name={`thing.${i}.id`} value={state.draft.texts[`thing.${i}.id`] ?? ""} />}
            <div className={styles.rowFields}>
              {spec.fields.map((field) => <Entry key={field.name} field={field} name={`${list}.${i}.${field.name}`} state={state} called={words.lineOf.replace("{label}", field.label).replace("{n}", String(i + 1))} wide={field.name === "name"} />)}
            </div>
          </li>
        ))}
      </ol>
      <p className={styles.submit}><button type="submit" name="do" value={add} className={styles.plain}>{spec.more}</button></p>
    </fieldset>
  );
}

interface EntryProps {
  readonly field: FieldSpec;
  readonly name: string;
  readonly state: StaysState;
  readonly about?: string;
  /** Its name where the label alone does not tell it from those of other lines. */
  readonly called?: string;
  readonly wide?: boolean;
}

function Entry({ field: { label, kind, unit, options }, name, state: { draft, faults }, about, called, wide }: EntryProps) {
  const fault = faults[name], value = draft.texts[name] ?? "";
  const told = { name, "aria-label": called, "aria-invalid": fault ? true : undefined, "aria-describedby": [about, fault && `${name}-fault`].filter(Boolean).join(" ") || undefined };
  return (
    <div className={wide ? styles.wide : undefined}>
      <label className={styles.label}>{label}
        {kind === "choice" ? <select {...told} defaultValue={value || undefined}>{options?.map((option) => <option key={option.value} value={option.value}>{option.text}</option>)}</select>
          : kind === "lines" ? <textarea {...told} defaultValue={value} rows={6} />
            : <span className={styles.typed}><input {...told} className={kind === "count" ? styles.short : undefined} type={kind === "time" ? "time" : "text"} inputMode={kind === "count" ? "numeric" : undefined} defaultValue={value} list={name === "zone" ? "zones" : undefined} maxLength={kind === "time" ? undefined : 200} autoComplete="off" />{unit && <span>{unit}</span>}</span>}
      </label>
      {fault && <p id={`${name}-fault`} className={styles.fault}>{fault}</p>}
    </div>
  );
}
