"use client";

import { useEffect, useState } from "react";
import { keptPage as words } from "@/lib/wording/en/kept-page";
import { askToKeep, keptAt } from "./keep";
import styles from "./kept-page.module.css";

type Kept = "unknown" | "keeping" | "kept" | "not" | "plain" | Date;

/** What is said before anything is known, where the page is not kept, and where it cannot be as it came over plain http. */
interface Lines {
  readonly open: string;
  readonly not: string;
  readonly plain: string;
}

/** What changes in quick succession is kept once, after this, ms. */
const SETTLED = 3_000;

/**
 * Keeps the page on the device for where there is no signal, and says plainly whether it is: on a page whose address is one
 * of the kinds that public/kept-pages.js names. `folder` is the part of the address that all pages of its kind begin with;
 * with each other `anew` it is kept anew, as it then is.
 */
export function KeptPage({ folder, lines = { ...words, plain: words.not }, anew = 0 }: { readonly folder: string; readonly lines?: Lines; readonly anew?: number }) {
  const [kept, setKept] = useState<Kept>("unknown");
  useEffect(() => {
    let here = true;
    const tell = (state: Kept) => { if (here) setKept(state); };
    const from = keptAt(document);
    if (from) tell(from);
    else {
      tell("keeping");
      void askToKeep(window, folder, (done) => tell(done ? "kept" : window.isSecureContext ? "not" : "plain"));
    }
    return () => { here = false; };
  }, [folder]);
  useEffect(() => {
    if (anew === 0) return;
    const later = setTimeout(() => void askToKeep(window, folder, (done) => setKept((before) => (done && !(before instanceof Date) ? "kept" : before))), SETTLED);
    return () => clearTimeout(later);
  }, [folder, anew]);
  const shown = kept instanceof Date;
  return (
    <>
      {/* The worker takes `hidden` off and fills in the time before the page is shown, so that it is told even where no script runs. */}
      <p className={styles.shown} data-kept-notice="" hidden={!shown} suppressHydrationWarning>
        <strong>{words.shown} <time data-kept-time="" suppressHydrationWarning>{shown ? timeTold(kept) : ""}</time>.</strong> {words.shownWhy}
      </p>
      {!shown && <p className={styles.line} role="status">{kept === "keeping" || kept === "kept" ? words[kept] : lines[kept === "unknown" ? "open" : kept]}</p>}
    </>
  );
}

/** As the worker tells it. */
function timeTold(at: Date): string {
  return at.toLocaleString("en-US", { dateStyle: "medium", timeStyle: "short" });
}
