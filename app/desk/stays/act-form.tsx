"use client";

import { startTransition, useActionState, useEffect, useRef, type ReactNode } from "react";
import { KeepTyped, KeptFold, type Typed } from "./kept-fields";
import styles from "./stays.module.css";

/** What became of something done to a stay: done, or everything that stands against it. */
export interface Acted {
  readonly faults: readonly string[];
  readonly said: string | null;
  /** Shown once, to be copied. */
  readonly link?: string;
  /** What has to be agreed to first: its button sends `value` as `agreed`, whatever the fields say by then. */
  readonly confirm?: { readonly sentence: string; readonly button: string; readonly value: string };
  /** What the fields held, where it was not done. */
  readonly typed?: Typed;
}

export const nothingYet: Acted = { faults: [], said: null };

interface ActFormProps {
  readonly action: (before: Acted, form: FormData) => Promise<Acted>;
  readonly className?: string | undefined;
  readonly label?: string;
  /** Folded away under these words until somebody wants it, or it was refused. */
  readonly fold?: string;
  readonly children: ReactNode;
}

/** A form of the desk. What was typed stays where there is a fault, without script too: its fields are those of kept-fields.tsx. */
export function ActForm({ action, className, label, fold, children }: ActFormProps) {
  const [{ faults, said, link, confirm, typed }, act, pending] = useActionState(action, nothingYet);
  const form = useRef<HTMLFormElement>(null);
  useEffect(() => { if (said) form.current?.reset(); }, [said, link]);
  const acted = (
    <form
      ref={form} action={act} className={className} aria-label={label} aria-busy={pending} noValidate
      onSubmit={(event) => {
        event.preventDefault();
        if (pending) return;
        const data = new FormData(event.currentTarget, (event.nativeEvent as SubmitEvent).submitter);
        startTransition(() => act(data));
      }}
    >
      {children}
      {faults.length > 0 && <ul className={styles.faults} role="alert">{faults.map((fault) => <li key={fault}>{fault}</li>)}</ul>}
      {confirm && <p role="status" className={styles.confirm}>{confirm.sentence} <button type="submit" name="agreed" value={confirm.value} className={styles.main}>{confirm.button}</button></p>}
      <p role="status" className={styles.done}>{said ?? ""}{link && <> <code className={styles.code}>{link}</code></>}</p>
    </form>
  );
  return <KeepTyped typed={typed}>{fold === undefined ? acted : <KeptFold summary={fold} open={Boolean(said)}>{acted}</KeptFold>}</KeepTyped>;
}
