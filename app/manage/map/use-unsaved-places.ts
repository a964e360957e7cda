"use client";

import { useEffect, useState, useSyncExternalStore } from "react";
import { siteEditor } from "@/lib/wording/en/site-editor";
import type { KeptMoves } from "./map-state";

const still = () => () => undefined;

/**
 * Keeps moves that are not saved in the browser's tab, offers them after a reload, and asks before the page is left. What is offered stays offered, and is kept
 * beside the moves made since, until somebody has decided on it.
 */
export function useUnsavedPlaces(name: string, moves: KeptMoves): { readonly offered: KeptMoves | null; readonly decide: () => void } {
  const [first] = useState(() => (typeof window === "undefined" ? null : read(name)));
  const text = useSyncExternalStore(still, () => first, () => null);
  const [decided, setDecided] = useState(false);
  const changed = Object.keys(moves).length > 0, kept = JSON.stringify({ ...(decided ? null : parse(first)), ...moves });
  useEffect(() => {
    try {
      if (kept !== "{}") sessionStorage.setItem(name, kept);
      else sessionStorage.removeItem(name);
    } catch {
      return; // a tab without storage keeps nothing
    }
  }, [name, kept]);
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
  return { offered: decided ? null : parse(text), decide: () => setDecided(true) };
}

function read(name: string): string | null {
  try {
    return sessionStorage.getItem(name);
  } catch {
    return null;
  }
}

function parse(text: string | null): KeptMoves | null {
  try {
    const found = text === null ? null : (JSON.parse(text) as unknown);
    const place = (one: unknown) => typeof one === "object" && one !== null && ["east", "north", "bearing"].every((field) => Number.isFinite((one as Record<string, unknown>)[field]));
    const sound = (move: unknown) => typeof move === "object" && move !== null && "from" in move && (move.from === null || place(move.from)) && "to" in move && place(move.to);
    return typeof found === "object" && found !== null && Object.values(found).every(sound) ? (found as KeptMoves) : null;
  } catch {
    return null;
  }
}
