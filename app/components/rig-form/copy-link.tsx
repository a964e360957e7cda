"use client";

import { useRef, useState } from "react";
import styles from "./keep-link.module.css";

interface CopyLinkProps {
  readonly address: string;
  readonly label: string;
  readonly copy: string;
  readonly copied: string;
  readonly failed: string;
}

/** An address in a field of its own, and a button that copies it; without script it can still be selected. */
export function CopyLink({ address, label, copy, copied, failed }: CopyLinkProps) {
  const field = useRef<HTMLInputElement>(null);
  const [state, setState] = useState<"copy" | "copied" | "failed">("copy");
  const copyIt = async () => {
    field.current?.select();
    try {
      await navigator.clipboard.writeText(address);
      setState("copied");
    } catch {
      setState("failed"); // not allowed, or not over a secure line: what is selected can be copied by hand
    }
  };
  return (
    <div className={styles.row}>
      <label htmlFor="rig-link">{label}</label>
      <input id="rig-link" ref={field} readOnly value={address} onFocus={(event) => event.target.select()} />
      <button type="button" className={styles.copy} onClick={() => void copyIt()}><span aria-live="polite">{{ copy, copied, failed }[state]}</span></button>
    </div>
  );
}
