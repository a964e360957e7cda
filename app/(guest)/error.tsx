"use client";

import { pages } from "@/lib/wording/en/pages";
import styles from "./sites/sites.module.css";

/** This file goes to the browser: it takes the words alone, not the whole catalogue with the schemas behind it. Shown when a page of the guest's cannot be made. The address still holds what was typed, and trying again asks the server again. */
export default function GuestError({ retry }: { readonly error: Error; readonly retry: () => void }) {
  const { error } = pages;
  return (
    <main className={styles.main}>
      <div className={styles.alert} role="alert">
        <h1 className={styles.trouble}>{error.title}</h1>
        <p>{error.line}</p>
        <p><button type="button" className={styles.action} onClick={retry}>{error.again}</button></p>
      </div>
    </main>
  );
}
