"use client";

import { useEffect, useSyncExternalStore, useState } from "react";
import type { Draft } from "@/lib/park/edit/record";
import { siteEditor as words } from "@/lib/wording/en/site-editor";
import { keep, parseKept, readKept, type Kept } from "./kept";

interface Unsaved {
  /** Work that an earlier page left, to be taken up or thrown away; null once that is decided. */
  readonly offered: Kept | null;
  readonly decide: () => void;
  /** What was changed is kept elsewhere now, and the page goes on: nobody has to be asked. */
  readonly letGo: () => void;
}

const still = () => () => undefined;

/** Keeps unsaved work in the browser's tab, offers what is there, and asks before the page is left with any. */
export function useUnsaved(name: string, siteId: string, opened: Draft, present: Draft, base: number | null, changed: boolean): Unsaved {
  const [first] = useState(() => (typeof window === "undefined" ? null : readKept(name)));
  // On the server there is no such storage; the first drawing in the browser has to be the server's.
  const text = useSyncExternalStore(still, () => first, () => null);
  const [decided, setDecided] = useState(false), [leaving, setLeaving] = useState(false);
  const found = decided ? null : parseKept(text, siteId);
  const offered = found && JSON.stringify(found.draft) !== JSON.stringify(opened) ? found : null;
  useEffect(() => {
    // What is offered still is not written over by an editor in which nothing has happened yet.
    if (changed && !leaving) keep(name, { draft: present, base });
    else if (decided || leaving) keep(name, null);
  }, [name, present, base, changed, decided, leaving]);
  useEffect(() => (changed && !leaving ? askBeforeLeaving() : undefined), [changed, leaving]);
  return { offered: changed ? null : offered, decide: () => setDecided(true), letGo: () => setLeaving(true) };
}

/** Both ways out: the browser's own, and links that are followed without a new page. */
function askBeforeLeaving(): () => void {
  const unload = (event: BeforeUnloadEvent) => event.preventDefault();
  const click = (event: MouseEvent) => {
    const link = (event.target as Element).closest<HTMLAnchorElement>("a[href]");
    if (!link || link.target === "_blank" || event.ctrlKey || event.metaKey || event.shiftKey || link.getAttribute("href")!.startsWith("#")) return;
    if (window.confirm(words.save.leave)) window.removeEventListener("beforeunload", unload);
    else {
      event.preventDefault();
      event.stopPropagation();
    }
  };
  window.addEventListener("beforeunload", unload);
  document.addEventListener("click", click, true);
  return () => {
    window.removeEventListener("beforeunload", unload);
    document.removeEventListener("click", click, true);
  };
}
