"use client";

import { live as words } from "@/lib/wording/en/live";
import type { Live } from "./use-live";
import styles from "./live.module.css";

/** Says whether what is shown is how things stand. */
export function LiveNotice({ live: { state, fresh } }: { readonly live: Live }) {
  const away = state === "lost" || state === "signed-out";
  return (
    <p className={away ? styles.lost : styles.fine} role={away ? "alert" : "status"} data-live={state}>
      {state === "lost" ? words.lost(new Date(fresh).toLocaleTimeString("en-US", { hour: "numeric", minute: "2-digit" })) : state === "signed-out" ? <>{words.signedOut} <a href="/sign-in?next=/desk">{words.signIn}</a></> : words[state]}
    </p>
  );
}
