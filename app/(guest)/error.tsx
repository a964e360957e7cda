"use client";

import { pages } from "@/lib/wording/en/pages";
import styles from "./first.module.css";

/** This file goes to the browser: it takes the words alone, not the whole catalogue with the schemas behind it. Shown when a page of the guest's cannot be made. The address still holds what was typed. */
export default function GuestError({ reset }: { readonly error: Error; readonly reset: () => void }) {
  const { error } = pages;
  return (
    <main className={styles.main}>
      <div className={styles.alert} role="alert">
        <h1>{error.title}</h1>
        <p>{error.line}</p>
        <button type="button" className={styles.choose} onClick={reset}>{error.again}</button>
      </div>
    </main>
  );
}
