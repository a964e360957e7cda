"use client";

import { useActionState, useEffect, useId, useRef, useState, type ReactNode } from "react";
import styles from "./accounts.module.css";

export interface LinkState {
  readonly link?: string;
  /** What it is for. */
  readonly about?: string;
  readonly refusal?: string;
}

export interface LinkWords {
  readonly linkTitle: string;
  readonly linkOnce: string;
  readonly linkLabel: string;
  readonly copy: string;
  readonly copied: string;
}

interface LinkFormProps {
  readonly action: (state: LinkState, form: FormData) => Promise<LinkState>;
  readonly words: LinkWords;
  readonly children: ReactNode;
}

/** A form that answers with a link, shown until the page is left. */
export function LinkForm({ action, words, children }: LinkFormProps) {
  const [state, send, sending] = useActionState(action, {});
  return (
    <form action={send} aria-busy={sending || undefined} className={styles.linkForm}>
      {children}
      {state.refusal && <p role="alert" className={styles.refusal}>{state.refusal}</p>}
      {state.link && <HandOver key={state.link} link={state.link} about={state.about ?? ""} words={words} />}
    </form>
  );
}

/** A link that was just made, selected and ready to copy. */
export function HandOver({ link, about, words }: { readonly link: string; readonly about: string; readonly words: LinkWords }) {
  const id = useId();
  const field = useRef<HTMLInputElement>(null);
  const [copied, setCopied] = useState(false);
  useEffect(() => field.current?.select(), []);
  const copy = async () => {
    field.current?.select();
    // Where the browser keeps the clipboard to itself the link is selected all the same.
    setCopied(await navigator.clipboard.writeText(link).then(() => true, () => false));
  };
  return (
    <div className={styles.handOver} role="group" aria-labelledby={`${id}-title`}>
      <h3 id={`${id}-title`}>{words.linkTitle}</h3>
      <p>{about} {words.linkOnce}</p>
      <label htmlFor={id}>{words.linkLabel}</label>
      <div className={styles.copy}>
        <input id={id} ref={field} readOnly value={link} onFocus={(event) => event.target.select()} />
        <button type="button" onClick={() => void copy()}>{words.copy}</button>
      </div>
      <p role="status">{copied && words.copied}</p>
    </div>
  );
}
