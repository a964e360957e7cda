"use client";

import { useEffect, useRef } from "react";
import { nights as words } from "@/lib/wording/en/nights";
import type { Asked } from "./use-put-down";
import styles from "./nights.module.css";

/** Asks for the reason, or whether the price is agreed to. Escape puts the stay back. */
export function Asking({ asked, onAnswer, onBack }: { readonly asked: Asked | null; readonly onAnswer: (reason: string) => void; readonly onBack: () => void }) {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    if (asked) dialog.current?.showModal();
    else dialog.current?.close();
  }, [asked]);
  return (
    <dialog ref={dialog} className={styles.asking} aria-labelledby="asking-title" onCancel={(event) => { event.preventDefault(); onBack(); }}>
      {asked && (
        <form method="dialog" onSubmit={(event) => { event.preventDefault(); const reason = new FormData(event.currentTarget).get("reason"); onAnswer(typeof reason === "string" ? reason.trim() : ""); }}>
          <h2 id="asking-title">{asked.name}</h2>
          {asked.answer.sentences.map((sentence) => <p key={sentence}>{sentence}</p>)}
          {asked.answer.needsReason && <label>{words.reasonFor}<textarea name="reason" rows={3} required maxLength={500} autoFocus /></label>}
          <div className={styles.buttons}>
            <button type="submit" className={styles.main}>{words.doIt}</button>
            <button type="button" onClick={onBack}>{words.putBack}</button>
          </div>
        </form>
      )}
    </dialog>
  );
}
