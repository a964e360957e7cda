"use client";

import { useActionState, useEffect, useId, useRef, useState, type ReactNode } from "react";
import styles from "./mail.module.css";

/** A text to be sent by hand, in the answer to one request; or why there is none. */
export interface TextState {
  readonly text?: { readonly to: string; readonly subject: string; readonly body: string };
  readonly refusal?: string;
}

export interface TextWords {
  readonly show: string;
  readonly showAgain: string;
  readonly once: string;
  readonly linkTo: string;
  readonly subject: string;
  readonly body: string;
  readonly copy: string;
  readonly copied: string;
  readonly copyFailed: string;
  readonly open: string;
}

interface TextFormProps {
  readonly action: (state: TextState, form: FormData) => Promise<TextState>;
  readonly words: TextWords;
  /** Whose mail it is, for who hears the button's name alone. */
  readonly whom: string;
  readonly children: ReactNode;
}

/** Shows a text with a link made for it, until the page is left. Works without script as well, the clipboard apart. */
export function TextForm({ action, words, whom, children }: TextFormProps) {
  const [state, send, sending] = useActionState(action, {});
  const name = state.text ? words.showAgain : words.show;
  return (
    <form action={send} aria-busy={sending || undefined} className={styles.textForm}>
      {children}
      <button type="submit" className={state.text ? undefined : styles.main} aria-label={`${name}: ${whom}`}>{name}</button>
      {state.refusal && <p role="alert" className={styles.refusal}>{state.refusal}</p>}
      {state.text && <Shown key={state.text.body} text={state.text} words={words} />}
    </form>
  );
}

function Shown({ text: { to, subject, body }, words }: { readonly text: NonNullable<TextState["text"]>; readonly words: TextWords }) {
  const id = useId();
  const field = useRef<HTMLTextAreaElement>(null);
  const [copied, setCopied] = useState<boolean | null>(null);
  useEffect(() => field.current?.focus(), []);
  const copy = async () => {
    field.current?.select();
    // Where the browser keeps the clipboard to itself the text is selected all the same.
    setCopied(await navigator.clipboard.writeText(body).then(() => true, () => false));
  };
  return (
    <div className={styles.shown}>
      <p>{words.once}</p>
      <label htmlFor={`${id}-to`}>{words.linkTo}</label>
      <input id={`${id}-to`} readOnly value={to} />
      <label htmlFor={`${id}-subject`}>{words.subject}</label>
      <input id={`${id}-subject`} readOnly value={subject} />
      <label htmlFor={`${id}-body`}>{words.body}</label>
      <textarea id={`${id}-body`} ref={field} readOnly value={body} rows={16} />
      <div className={styles.ways}>
        <button type="button" onClick={() => void copy()}>{words.copy}</button>
        <a href={mailto(to, subject, body)}>{words.open}</a>
        <p role="status">{copied === null ? "" : copied ? words.copied : words.copyFailed}</p>
      </div>
    </div>
  );
}

/** As RFC 6068 has it: line breaks are CRLF. */
function mailto(to: string, subject: string, body: string): string {
  return `mailto:${encodeURIComponent(to)}?subject=${encodeURIComponent(subject)}&body=${encodeURIComponent(body.replaceAll("\n", "\r\n"))}`;
}
