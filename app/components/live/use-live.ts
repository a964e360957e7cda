"use client";

import { useEffect, useRef, useState } from "react";

/** `reading`: changes are being read. `lost`: what is shown may be old. */
export type LiveState = "starting" | "live" | "reading" | "lost" | "signed-out";

export interface Live {
  readonly state: LiveState;
  /** When what is shown was last known to be right, milliseconds. */
  readonly fresh: number;
}

/** The server says something every 10 s. Silence beyond this counts as lost, milliseconds. */
const silence = 25_000;
/** A burst of changes is read once. Not longer, or the other desk waits for it. */
const gather = 150;
/** Between two readings. */
const pause = 700;

/**
 * Keeps a page in step with the database: `read` is called after changes, and after every gap in which some may have gone
 * by unheard; only when it has finished is the page called live again. `read` may change from one drawing to the next.
 */
export function useLive(read: () => Promise<void> | void): Live {
  const [live, setLive] = useState<Live>({ state: "starting", fresh: 0 });
  const reading = useRef(read);
  useEffect(() => { reading.current = read; });
  useEffect(() => watch(() => reading.current(), setLive), []);
  return live;
}

function watch(read: () => Promise<void> | void, tell: (live: Live) => void): () => void {
  let [heard, fresh, linked, started] = [Date.now(), Date.now(), false, false];
  let timer: ReturnType<typeof setTimeout> | undefined;
  let busy = false, again = false;
  const say = (state: LiveState) => tell({ state, fresh });
  const source = new EventSource("/api/live");

  const readAnew = async () => {
    if (busy) { again = true; return; }
    busy = true;
    again = false;
    if (linked) say("reading");
    try {
      await read();
      if (linked) { fresh = Date.now(); say("live"); }
    } catch {
      lose();
    }
    await new Promise((done) => setTimeout(done, pause));
    busy = false;
    if (again) void readAnew();
  };
  const soon = () => {
    clearTimeout(timer);
    timer = setTimeout(() => void readAnew(), gather);
  };
  const lose = () => {
    linked = false;
    say(source.readyState === EventSource.CLOSED ? "signed-out" : "lost");
  };
  const gain = () => {
    linked = true;
    // The page was read a moment ago; after a gap nobody knows.
    if (started) soon();
    else { fresh = Date.now(); say("live"); }
    started = true;
  };
  const on = (name: string, act: () => void) => source.addEventListener(name, () => { heard = Date.now(); act(); });
  on("linked", gain);
  on("lost", lose);
  on("change", soon);
  on("beat", () => { if (linked && !busy) { fresh = Date.now(); say("live"); } });
  source.onerror = lose;
  const checking = setInterval(() => { if (linked && Date.now() - heard > silence) lose(); }, 2_000);
  return () => {
    source.close();
    clearInterval(checking);
    clearTimeout(timer);
  };
}
