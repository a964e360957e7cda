"use client";

import { usePathname, useSearchParams } from "next/navigation";
import { useEffect, useRef, useState } from "react";
import { connection } from "@/lib/wording/en/connection";
import styles from "./connection.module.css";
import { watchConnection, type ConnectionState, type ConnectionWatch } from "./watch-connection";

/**
 * Says when the connection is lost, when it is back, and when a page is slow to come. Keeps a page that can still be
 * read from being thrown away for the browser's own error page. Without script, that page is what shows.
 */
export function ConnectionNotice() {
  const [state, setState] = useState<ConnectionState>("fine");
  const address = `${usePathname()}?${useSearchParams().toString()}`;
  const watch = useRef<ConnectionWatch | null>(null);
  useEffect(() => {
    watch.current = watchConnection(window, setState);
    return watch.current.end;
  }, []);
  useEffect(() => watch.current?.arrived(), [address]);
  return (
    <div className={styles.place} aria-live="polite">
      {state !== "fine" && <p className={styles[state]}>{connection[state]}</p>}
    </div>
  );
}
