"use client";

import { useFormStatus } from "react-dom";
import styles from "./inventory.module.css";

/** The button that reads files in; while it works it says so, and that all of it is saved at once. */
export function ReadInButton({ label, working }: { readonly label: string; readonly working: string }) {
  const { pending } = useFormStatus();
  return (
    <>
      <button type="submit" className={styles.strong} disabled={pending}>{label}</button>
      <div role="status" className={styles.working}>{pending && <><progress aria-label={working} /><p>{working}</p></>}</div>
    </>
  );
}
