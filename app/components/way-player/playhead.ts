import { momentNear, type Reel } from "./reel";

/** How fast the front axle rolls while it runs, mm a second: a walk, twice that, and fast. */
export const SPEEDS = { walk: 1300, brisk: 2600, fast: 5200 } as const;
export type Speed = keyof typeof SPEEDS;

/** A slider goes in steps of so many mm, and its last one is the end of the leg. */
export const SLIDER_STEP = 100;

/** What the player shows. */
export interface Playhead {
  /** Which of the ways, and which of its legs. */
  readonly way: number;
  readonly leg: number;
  /** How far along the leg, mm. */
  readonly along: number;
  readonly running: boolean;
  readonly speed: Speed;
  /** Nothing was moved yet: the whole way is shown as one still. */
  readonly fresh: boolean;
  /** What is read out: at the end of a leg and where somebody asked for it. */
  readonly told: string;
}

export type Move =
  | { readonly do: "run" | "stop" | "toggle" | "step-on" | "step-back" | "begin" | "end" | "next-leg" | "leg-before" | "tell" | "hide" }
  /** So many milliseconds went by while it ran. */
  | { readonly do: "tick"; readonly ms: number }
  /** Runs on by one still: for who wants no motion. */
  | { readonly do: "next-still" }
  | { readonly do: "seek"; readonly along: number }
  | { readonly do: "leg"; readonly leg: number }
  | { readonly do: "way"; readonly way: number }
  | { readonly do: "speed"; readonly speed: Speed };

export const atStart: Playhead = { way: 0, leg: 0, along: 0, running: false, speed: "brisk", fresh: true, told: "" };

/** What is shown after a move. It never leaves the ways, their legs or a leg's ends, whatever is asked. */
export function movePlayhead(ways: readonly Reel[], at: Playhead, move: Move): Playhead {
  const { legs } = ways[at.way]!, leg = legs[at.leg]!, moved = { ...at, fresh: false };
  switch (move.do) {
    case "toggle": return movePlayhead(ways, at, { do: at.running ? "stop" : "run" });
    case "run": return { ...moved, running: true, told: "", ...(isOver(ways, at) ? { leg: 0, along: 0 } : {}) };
    case "stop": return at.running ? tell(ways, { ...at, running: false }) : at;
    case "hide": return { ...at, running: false };
    case "tick": return at.running ? runTo(ways, at, at.along + (SPEEDS[at.speed] * Math.max(0, move.ms)) / 1000) : at;
    case "next-still": return at.running ? runTo(ways, at, stationAfter(ways, at) ?? leg.length) : at;
    case "step-on": return stepOn(ways, moved);
    case "step-back": return stepBack(ways, moved);
    case "begin": return tell(ways, { ...moved, running: false, along: 0 });
    case "end": return tell(ways, { ...moved, running: false, along: leg.length });
    case "next-leg": return movePlayhead(ways, at, { do: "leg", leg: at.leg + 1 });
    case "leg-before": return movePlayhead(ways, at, { do: "leg", leg: at.leg - 1 });
    case "leg": return tell(ways, { ...moved, running: false, leg: clamp(Math.round(move.leg), 0, legs.length - 1), along: 0 });
    case "seek": return { ...moved, running: false, told: "", along: move.along > leg.length - SLIDER_STEP ? leg.length : Math.max(0, move.along) };
    case "way": return { ...at, way: clamp(Math.round(move.way), 0, ways.length - 1), leg: 0, along: 0, running: false, told: "" };
    case "speed": return { ...at, speed: move.speed };
    case "tell": return tell(ways, at);
  }
}

/** At the end of the last leg. */
export function isOver(ways: readonly Reel[], { way, leg, along }: Playhead): boolean {
  const { legs } = ways[way]!;
  return leg === legs.length - 1 && along >= legs[leg]!.length;
}

/** What is said of where it stands. */
export function saidAt(ways: readonly Reel[], { way, leg, along }: Playhead): string {
  const shown = ways[way]!.legs[leg]!;
  return shown.said[momentNear(shown, along)]!;
}

/** Running past the end of a leg goes on to the next one and says so; past the last one it stops. */
function runTo(ways: readonly Reel[], at: Playhead, along: number): Playhead {
  const { legs } = ways[at.way]!, { length, end } = legs[at.leg]!;
  if (along < length) return { ...at, along };
  const told = announce(end, at.told);
  return at.leg < legs.length - 1 ? { ...at, leg: at.leg + 1, along: 0, told } : { ...at, along: length, running: false, told };
}

function stepOn(ways: readonly Reel[], at: Playhead): Playhead {
  const next = stationAfter(ways, at), last = at.leg === ways[at.way]!.legs.length - 1;
  if (next === null && !last) return tell(ways, { ...at, running: false, leg: at.leg + 1, along: 0 });
  return tell(ways, { ...at, running: false, along: next ?? at.along });
}

function stepBack(ways: readonly Reel[], at: Playhead): Playhead {
  const { legs } = ways[at.way]!, before = stationsOf(legs[at.leg]!).findLast((along) => along < at.along - NEAR);
  if (before === undefined && at.leg > 0) return tell(ways, { ...at, running: false, leg: at.leg - 1, along: legs[at.leg - 1]!.length });
  return tell(ways, { ...at, running: false, along: before ?? 0 });
}

/** A station this near is the one that is stood on, mm. */
const NEAR = 1;

function stationAfter(ways: readonly Reel[], { way, leg, along }: Playhead): number | null {
  return stationsOf(ways[way]!.legs[leg]!).find((station) => station > along + NEAR) ?? null;
}

function stationsOf({ stations, rows }: Reel["legs"][number]): number[] {
  return stations.map((i) => rows[i]![0]!);
}

function tell(ways: readonly Reel[], at: Playhead): Playhead {
  return { ...at, told: announce(saidAt(ways, at), at.told) };
}

/** The same sentence twice is read out twice only where it differs: by a space that nobody hears. */
function announce(text: string, before: string): string {
  return text === before ? `${text}\u00a0` : text;
}

function clamp(value: number, low: number, high: number): number {
  return Math.max(low, Math.min(high, value));
}
