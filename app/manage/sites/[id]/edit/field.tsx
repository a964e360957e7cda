"use client";

import { useContext, useId, useState, createContext, type Dispatch } from "react";
import type { Units } from "@/lib/measure";
import type { Fault } from "@/lib/park/edit/faults";
import { keyOf, readAt, writeAt, type Draft, type Path } from "@/lib/park/edit/record";
import { renameThing } from "@/lib/park/edit/survey";
import { siteEditor as words } from "@/lib/wording/en/site-editor";
import type { EditorAction, EditorState } from "./editor-state";
import type { FieldSpec } from "./fields";
import { printTyped, readTyped } from "../../../editing/typed";
import styles from "../../../editing/fields.module.css";

/** What every field needs: the record, what is wrong with it, and the way to change it. */
export interface FieldsAround {
  readonly state: EditorState;
  readonly faults: readonly Fault[];
  readonly units: Units;
  readonly send: Dispatch<EditorAction>;
}

export const Around = createContext<FieldsAround | null>(null);

export function useAround(): FieldsAround {
  const around = useContext(Around);
  if (!around) throw new Error("a field stands outside of the editor");
  return around;
}

/** One field with its fault beside it. `label` hidden: the table's head says it. */
export function Field({ spec, spoken }: { readonly spec: FieldSpec; /** What a screen reader says in place of the label, which a table's head shows. */ readonly spoken?: string }) {
  switch (spec.type) {
    case "number": return <NumberField spec={spec} spoken={spoken} />;
    case "word": return <WordField spec={spec} />;
    case "choice": return <ChoiceField spec={spec} />;
    case "yes-no": return <YesNoField spec={spec} />;
    case "tick": return <TickField spec={spec} />;
    case "amperes": return <AmperesField spec={spec} />;
  }
}

type Of<T extends FieldSpec["type"]> = { readonly spec: Extract<FieldSpec, { type: T }> };

/** The id of a field on the page, by which a list of faults leads to it. */
export function domId(key: string): string {
  return `edit-${key.replaceAll(".", "-")}`;
}

/** Marks the field that shows a number of another field, measured another way. */
export const AGAIN = ".again";

/** What is wrong at a path, in words; of a ring also what is wrong with its corners. */
export function useFault(spec: { readonly path: Path; readonly again?: true }): string | null {
  const { state: { unread }, faults, units } = useAround();
  const key = keyOf(spec.path), waiting = unread[spec.again ? `${key}${AGAIN}` : key];
  if (waiting) return words.unread(waiting.fault, waiting.text, units);
  if (spec.again) return null;
  const fault = faults.find((one) => one.key === key);
  return fault ? words.fault(fault) : null;
}

function NumberField({ spec, spoken }: Of<"number"> & { readonly spoken?: string | undefined }) {
  const { state: { history, unread, turns }, units, send } = useAround();
  // The same number measured another way has texts of its own.
  const draft = history.present, key = spec.again ? `${keyOf(spec.path)}${AGAIN}` : keyOf(spec.path);
  const [typing, setTyping] = useState<{ readonly text: string; readonly turns: number; readonly units: Units } | null>(null);
  const value = readAt(draft, spec.path) as number | undefined;
  const shown = typing?.turns === turns && typing.units === units ? typing.text : (unread[key]?.text ?? printTyped(value, spec.sort, units));
  const type = (text: string) => {
    setTyping({ text, turns, units });
    const read = readTyped(text, spec.sort, units);
    const missing = read.ok && read.value === undefined && typeof spec.path.at(-1) === "number";
    if (missing) send({ do: "unread", key, unread: { text, fault: "empty" } });
    else if (!read.ok) send({ do: "unread", key, unread: { text, fault: read.fault } });
    else send({ do: "read", key, draft: read.value === value ? draft : writeAt(draft, spec.path, read.value) });
  };
  return (
    <Shell spec={spec} spoken={spoken} id={domId(key)}>
      {(id, about, fault) => (
        <input id={id} value={shown} aria-label={spoken} autoComplete="off" inputMode={spec.sort === "count" || spec.sort === "volts" ? "numeric" : "text"} aria-invalid={fault || undefined} aria-describedby={about}
          onChange={(event) => type(event.currentTarget.value)} onBlur={() => { setTyping(null); send({ do: "settle" }); }} onFocus={(event) => event.currentTarget.select()} />
      )}
    </Shell>
  );
}

function WordField({ spec }: Of<"word">) {
  const { state: { history, turns }, send } = useAround();
  const draft = history.present, key = keyOf(spec.path), list = useId();
  const value = readAt(draft, spec.path) as string | undefined;
  const [typing, setTyping] = useState<{ readonly text: string; readonly turns: number } | null>(null);
  const shown = typing?.turns === turns ? typing.text : (value ?? "");
  const write = (text: string) => {
    const plain = text.trim();
    if (plain === (value ?? "")) return;
    const next = spec.names ? renameThing(draft, spec.path.slice(0, -1), plain) : writeAt(draft, spec.path, plain === "" && spec.optional ? undefined : plain);
    send({ do: "read", key, draft: next });
  };
  return (
    <Shell spec={spec} id={domId(key)}>
      {(id, about, fault) => (
        <>
          <input id={id} value={shown} maxLength={80} list={spec.among ? list : undefined} autoComplete="off" aria-invalid={fault || undefined} aria-describedby={about}
            onChange={(event) => { setTyping({ text: event.currentTarget.value, turns }); if (!spec.names) write(event.currentTarget.value); }}
            onKeyDown={(event) => { if (event.key === "Enter") write(event.currentTarget.value); }}
            onBlur={(event) => { write(event.currentTarget.value); setTyping(null); send({ do: "settle" }); }} />
          {spec.among && <datalist id={list}>{spec.among.map((word) => <option key={word} value={word} />)}</datalist>}
        </>
      )}
    </Shell>
  );
}

function ChoiceField({ spec }: Of<"choice">) {
  const { state: { history }, send } = useAround();
  const draft = history.present, value = (readAt(draft, spec.path) as string | undefined) ?? spec.none ?? Object.keys(spec.among)[0]!;
  return (
    <Shell spec={spec} id={domId(keyOf(spec.path))}>
      {(id, about, fault) => (
        <select id={id} value={value} aria-invalid={fault || undefined} aria-describedby={about} onChange={(event) => send({ do: "change", draft: chosen(draft, spec, event.currentTarget.value) })}>
          {Object.entries(spec.among).map(([key, word]) => <option key={key} value={key}>{word}</option>)}
        </select>
      )}
    </Shell>
  );
}

/** A hookup that becomes another kind brings what that kind cannot be without, and leaves what it cannot have. */
function chosen(draft: Draft, { path }: Of<"choice">["spec"], value: string): Draft {
  const next = writeAt(draft, path, value);
  if (path[0] !== "hookups") return next;
  const of = (field: string) => [...path.slice(0, -1), field];
  if (value === "power") return readAt(next, of("receptacles")) === undefined ? writeAt(next, of("receptacles"), [30]) : next;
  return writeAt(writeAt(next, of("receptacles"), undefined), of("volts"), undefined);
}

function YesNoField({ spec }: Of<"yes-no">) {
  const { state: { history }, send } = useAround();
  const draft = history.present, value = readAt(draft, spec.path) as boolean | undefined;
  const write = (text: string) => send({ do: "change", draft: writeAt(draft, spec.path, text === "" ? undefined : text === "yes") });
  return (
    <Shell spec={spec} id={domId(keyOf(spec.path))}>
      {(id, about) => (
        <select id={id} value={value === undefined ? "" : value ? "yes" : "no"} aria-describedby={about} onChange={(event) => write(event.currentTarget.value)}>
          {Object.entries(spec.among).map(([key, word]) => <option key={key} value={key}>{word}</option>)}
        </select>
      )}
    </Shell>
  );
}

function TickField({ spec }: Of<"tick">) {
  const { state: { history }, send } = useAround();
  const draft = history.present;
  return (
    <label className={styles.tick}>
      <input type="checkbox" checked={readAt(draft, spec.path) === true} onChange={(event) => send({ do: "change", draft: writeAt(draft, spec.path, event.currentTarget.checked ? true : undefined) })} /> {spec.label}
    </label>
  );
}

const AMPERES = [50, 30, 20, 15];

function AmperesField({ spec }: Of<"amperes">) {
  const { state: { history }, send } = useAround();
  const draft = history.present, has = (readAt(draft, spec.path) as readonly number[] | undefined) ?? [], fault = useFault(spec), id = domId(keyOf(spec.path));
  const toggle = (a: number) => send({ do: "change", draft: writeAt(draft, spec.path, has.includes(a) ? has.filter((other) => other !== a) : [...has, a].sort((p, q) => p - q)) });
  return (
    <fieldset className={fault ? styles.faulty : styles.field} aria-describedby={fault ? `${id}-fault` : undefined}>
      <legend>{spec.label}</legend>
      <div className={styles.ticks}>
        {AMPERES.map((a, i) => <label key={a} className={styles.tick}><input id={i === 0 ? id : undefined} type="checkbox" checked={has.includes(a)} aria-invalid={fault ? true : undefined} onChange={() => toggle(a)} /> {words.amperes(a)}</label>)}
      </div>
      {fault && <p id={`${id}-fault`} className={styles.fault}>{fault}</p>}
    </fieldset>
  );
}

interface ShellProps {
  readonly spec: FieldSpec;
  readonly id: string;
  readonly spoken?: string | undefined;
  readonly children: (id: string, about: string | undefined, fault: boolean) => React.ReactNode;
}

function Shell({ spec, id, spoken, children }: ShellProps) {
  const fault = useFault(spec);
  const optional = "optional" in spec && spec.optional && spec.type === "number";
  return (
    <div className={fault ? styles.faulty : styles.field}>
      <label htmlFor={id} className={spoken ? styles.inTable : undefined}>{spec.label}{optional && <span className={styles.optional}> ({words.optional})</span>}</label>
      {children(id, fault ? `${id}-fault` : undefined, fault !== null)}
      {fault && <p id={`${id}-fault`} className={styles.fault}>{fault}</p>}
    </div>
  );
}
