"use client";

import { pages } from "@/lib/wording/en/pages";
import styles from "../manage/manage.module.css";

/** Shown when a page of the staff's cannot be made. Goes to the browser, so it takes the words alone. */
export default function DeskError({ reset }: { readonly error: Error; readonly reset: () => void }) {
  const { error } = pages;
  return (
    <main className={styles.main}>
      <div className={styles.alert} role="alert">
        <h1>{error.title}</h1>
        <p>{error.line}</p>
        <button type="button" className={styles.again} onClick={reset}>{error.again}</button>
      </div>
    </main>
  );
}
