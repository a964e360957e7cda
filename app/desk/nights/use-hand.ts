"use client";

import { useCallback, useEffect, useState } from "react";
import type { Verdict } from "@/lib/fit";
import type { Bar } from "./board-data";

/** A stay that is picked up: where it hangs now, and how its rig would stand on each site once that is known. */
export interface Hand {
  readonly bar: Bar;
  readonly row: number;
  readonly from: number;
  readonly verdicts: Readonly<Record<string, Verdict>> | null;
}

export interface HandControl {
  readonly hand: Hand | null;
  readonly pickUp: (bar: Bar) => void;
  /** To another row on its own nights, or along its own row. */
  readonly moveTo: (row: number, from: number) => void;
  /** Of this stay alone, where one is named: another may have been picked up meanwhile. */
  readonly letGo: (bar?: Bar) => void;
}

/** One stay at a time in hand. The fits are asked for as it is picked up. */
export function useHand(): HandControl {
  const [hand, setHand] = useState<Hand | null>(null);
  const id = hand?.bar.id;
  useEffect(() => {
    if (id === undefined) return;
    const gone = new AbortController();
    void fetch(`/desk/nights/fits?stay=${id}`, { signal: gone.signal })
      .then((answer) => (answer.ok ? (answer.json() as Promise<{ verdicts: Record<string, Verdict> }>) : null))
      .then((answer) => answer && setHand((now) => (now?.bar.id === id ? { ...now, verdicts: answer.verdicts } : now)))
      // Without an answer the rows say free or taken alone, and the server judges the fit when it is put down.
      .catch(() => undefined);
    return () => gone.abort();
  }, [id]);
  return {
    hand,
    pickUp: useCallback((bar) => setHand({ bar, row: bar.row, from: bar.from, verdicts: null }), []),
    moveTo: useCallback((row, from) => setHand((now) => now && { ...now, row, from: row === now.bar.row ? from : now.bar.from }), []),
    letGo: useCallback((bar) => setHand((now) => (bar === undefined || now?.bar === bar ? null : now)), []),
  };
}
