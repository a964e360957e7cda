"use client";

import { useCallback, useEffect, useReducer, useSyncExternalStore, type Dispatch } from "react";
import { atStart, movePlayhead, type Move, type Playhead } from "./playhead";
import type { Reel } from "./reel";

/** Between two stills, for who wants no motion, milliseconds. */
const STILL = { walk: 3000, brisk: 2000, fast: 1200 } as const;
/** A frame that took longer (the page was busy) counts as this long, so that the rig does not jump, milliseconds. */
const LONGEST_FRAME = 100;

/** The player's state, kept going while it runs: by frames, or by stills where motion is not wanted. A page that is hidden, or printed, stops it. */
export function usePlayhead(ways: readonly Reel[], first: number): [Playhead, Dispatch<Move>] {
  const [playhead, move] = useReducer(useCallback((at: Playhead, what: Move) => movePlayhead(ways, at, what), [ways]), { ...atStart, way: first });
  const still = usePrefersStill(), { running, speed } = playhead;
  useEffect(() => {
    if (!running) return;
    if (still) {
      const timer = setInterval(() => move({ do: "next-still" }), STILL[speed]);
      return () => clearInterval(timer);
    }
    return runFrames((ms) => move({ do: "tick", ms }));
  }, [running, still, speed]);
  useEffect(() => {
    const hide = () => { if (document.hidden) move({ do: "hide" }); }, stop = () => move({ do: "hide" });
    document.addEventListener("visibilitychange", hide);
    window.addEventListener("beforeprint", stop);
    return () => {
      document.removeEventListener("visibilitychange", hide);
      window.removeEventListener("beforeprint", stop);
    };
  }, []);
  return [playhead, move];
}

function runFrames(tick: (ms: number) => void): () => void {
  let before: number | null = null, wanted = requestAnimationFrame(frame);
  function frame(now: number) {
    if (before !== null) tick(Math.min(LONGEST_FRAME, now - before));
    before = now;
    wanted = requestAnimationFrame(frame);
  }
  return () => cancelAnimationFrame(wanted);
}

const QUERY = "(prefers-reduced-motion: reduce)";

function usePrefersStill(): boolean {
  return useSyncExternalStore(watchStill, () => window.matchMedia(QUERY).matches, () => false);
}

function watchStill(changed: () => void): () => void {
  const query = window.matchMedia(QUERY);
  query.addEventListener("change", changed);
  return () => query.removeEventListener("change", changed);
}
