"use client";

import { useEffect, useState } from "react";
import { keptPage as words } from "@/lib/wording/en/kept-page";
import { askToKeep, keptAt } from "./keep";
import styles from "./kept-page.module.css";

type Kept = "unknown" | "keeping" | "kept" | "not" | Date;

/**
 * Keeps the page on the device for where there is no signal, and says plainly whether it is: on a page whose address is one
 * of the kinds that public/kept-pages.js names. `folder` is the part of the address that all pages of its kind begin with.
 */
export function KeptPage({ folder }: { readonly folder: string }) {
  const [kept, setKept] = useState<Kept>("unknown");
  useEffect(() => {
    let here = true;
    const tell = (state: Kept) => { if (here) setKept(state); };
    const from = keptAt(document);
    if (from) tell(from);
    else {
      tell("keeping");
      void askToKeep(window, folder, (done) => tell(done ? "kept" : "not"));
    }
    return () => { here = false; };
  }, [folder]);
  const shown = kept instanceof Date;
  return (
    <>
      {/* The worker takes `hidden` off and fills in the time before the page is shown, so that it is told even where no script runs. */}
      <p className={styles.shown} data-kept-notice="" hidden={!shown} suppressHydrationWarning>
        <strong>{words.shown} <time data-kept-time="" suppressHydrationWarning>{shown ? timeTold(kept) : ""}</time>.</strong> {words.shownWhy}
      </p>
      {!shown && <p className={styles.line} role="status">{words[kept === "unknown" ? "open" : kept]}</p>}
    </>
  );
}

/** As the worker tells it. */
function timeTold(at: Date): string {
  return at.toLocaleString("en-US", { dateStyle: "medium", timeStyle: "short" });
}
