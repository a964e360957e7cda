"use client";

import { useState, type SubmitEvent } from "react";
import { useFormStatus } from "react-dom";
import { inventory } from "@/lib/wording/en/inventory";
import { followReadIn, type ReadInProgress } from "./follow-read-in";
import styles from "./inventory.module.css";

const { preview: words } = inventory;

interface ReadInFormProps {
  /** For who has no script: does it, and answers when it is done. */
  readonly action: (form: FormData) => Promise<void>;
  /** Does the same and tells how far it is. */
  readonly href: string;
  /** The page itself. */
  readonly here: string;
  /** What its files would do, as this page showed it. */
  readonly seen: string;
  /** Whether stays are among what is written. */
  readonly stays: boolean;
  /** Whether it does what nobody does without saying why. */
  readonly whyNeeded: boolean;
}

/** Idle, looked through once more, being written, or out of hearing. */
type State = null | "looking" | ReadInProgress | "broken";

/** The form that reads files in. While that goes on it shows how far it is; then the address that was answered is opened. */
export function ReadInForm({ action, href, here, seen, stays, whyNeeded }: ReadInFormProps) {
  const [state, setState] = useState<State>(null);
  const readIn = (event: SubmitEvent<HTMLFormElement>) => {
    event.preventDefault();
    setState("looking");
    followReadIn(href, new FormData(event.currentTarget), setState).then(
      (to) => { if (to === null) setState("broken"); else window.location.assign(to); },
      () => setState("broken"),
    );
  };
  return (
    <form action={action} onSubmit={readIn} className={styles.readIn}>
      <input type="hidden" name="seen" value={seen} />
      <div className={styles.field}><label htmlFor="why">{words.why}</label><p id="why-help" className={styles.soft}>{whyNeeded ? inventory.stayWords.whyNeeded : words.whyHelp}</p><input id="why" name="why" required={whyNeeded} maxLength={300} autoComplete="off" aria-describedby="why-help" readOnly={state !== null} /></div>
      <GoButton working={state !== null && state !== "broken"} />
      {state === "broken" ? <div role="alert" className={styles.warning}><p>{words.lost}</p><p><a href={here}>{words.look}</a></p></div> : <Progress state={state} stays={stays} />}
    </form>
  );
}

function GoButton({ working }: { readonly working: boolean }) {
  const { pending } = useFormStatus();
  return <button type="submit" className={styles.strong} disabled={working || pending}>{words.go}</button>;
}

function Progress({ state, stays }: { readonly state: null | "looking" | ReadInProgress; readonly stays: boolean }) {
  const counted = state !== null && state !== "looking" && state.of > 0 ? state : null;
  const line = counted ? words.progress(counted.done, counted.of, stays) : words.working;
  return (
    <div className={styles.working}>
      {state !== null && <><progress aria-label={words.bar} {...(counted ? { value: counted.done, max: counted.of } : {})} /><p>{line}</p><p className={styles.soft}>{words.leave}</p></>}
      <p role="status" className="visually-hidden">{state === null ? "" : counted ? words.progress(tenth(counted), counted.of, stays) : `${words.working} ${words.leave}`}</p>
    </div>
  );
}

/** Read out a tenth at a time: every line would leave no room for anything else. */
function tenth({ done, of }: ReadInProgress): number {
  return done >= of ? of : Math.floor(Math.floor((done / of) * 10) * (of / 10));
}
