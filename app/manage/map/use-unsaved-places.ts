"use client";

import { useEffect, useState, useSyncExternalStore } from "react";
import { siteEditor } from "@/lib/wording/en/site-editor";
import type { Places } from "./map-state";

const still = () => () => undefined;

/** Keeps moves that are not saved in the browser's tab, offers them after a reload, and asks before the page is left. */
export function useUnsavedPlaces(name: string, present: Places, saved: Places, changed: boolean): { readonly offered: Places | null; readonly decide: () => void } {
  const [first] = useState(() => (typeof window === "undefined" ? null : read(name)));
  const text = useSyncExternalStore(still, () => first, () => null);
  const [decided, setDecided] = useState(false);
  const found = decided || changed ? null : parse(text);
  const differs = found !== null && Object.entries(found).some(([id, place]) => JSON.stringify(saved[id]) !== JSON.stringify(place));
  useEffect(() => {
    try {
      if (changed) sessionStorage.setItem(name, JSON.stringify(present));
      else if (decided) sessionStorage.removeItem(name);
    } catch {
      return; // a tab without storage keeps nothing
    }
  }, [name, present, changed, decided]);
  useEffect(() => {
    if (!changed) return undefined;
    const unload = (event: BeforeUnloadEvent) => event.preventDefault();
    const click = (event: MouseEvent) => {
      const link = (event.target as Element).closest<HTMLAnchorElement>("a[href]");
      if (!link || event.ctrlKey || event.metaKey || event.shiftKey) return;
      if (window.confirm(siteEditor.save.leave)) window.removeEventListener("beforeunload", unload);
      else { event.preventDefault(); event.stopPropagation(); }
    };
    window.addEventListener("beforeunload", unload);
    document.addEventListener("click", click, true);
    return () => { window.removeEventListener("beforeunload", unload); document.removeEventListener("click", click, true); };
  }, [changed]);
  return { offered: differs ? found : null, decide: () => setDecided(true) };
}

function read(name: string): string | null {
  try {
    return sessionStorage.getItem(name);
  } catch {
    return null;
  }
}

function parse(text: string | null): Places | null {
  try {
    const found = text === null ? null : (JSON.parse(text) as unknown);
    const sound = (place: unknown) => typeof place === "object" && place !== null && ["east", "north", "bearing"].every((field) => Number.isFinite((place as Record<string, unknown>)[field]));
    return typeof found === "object" && found !== null && Object.values(found).every(sound) ? (found as Places) : null;
  } catch {
    return null;
  }
}
