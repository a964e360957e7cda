import type { Verdict } from "./types";

/** What the order of sites within a verdict is made from. */
export interface ScoreInput {
  /** The smallest hard slack at the pose, mm; for a `no`, the most room there could be (negative). */
  readonly room: number;
  /** Room beyond this is no better, mm. */
  readonly comfort: number;
  /** Each wanted service: the run and the longest allowed, mm. A run of null is a service that cannot be had. */
  readonly runs: readonly { readonly route: number | null; readonly longest: number; readonly own: boolean }[];
  /** Lifts asked for and the most the park allows to be brought, mm. */
  readonly side: number;
  readonly along: number;
  readonly maxSide: number;
  readonly maxAlong: number;
  /** Loads that run, of all there are. */
  readonly loads: number;
  readonly loadsServed: number;
  /** Nice parts that are out, of all there are. */
  readonly niceParts: number;
  readonly nicePartsOut: number;
  readonly wishes: number;
  readonly wishesMet: number;
}

const WEIGHTS = { room: 30, reach: 20, level: 15, power: 10, parts: 10, wishes: 15 } as const;

/**
 * 0 to 100. More room, a shorter run, less lift, more loads served, more parts out and more wishes met never lower it:
 * it is a sum of terms, each monotone in its own input.
 */
export function scoreOf(input: ScoreInput): number {
  const { room, comfort, runs, side, along, maxSide, maxAlong, loads, loadsServed, niceParts, nicePartsOut, wishes, wishesMet } = input;
  const roomShare = comfort > 0 ? clamp((room + comfort) / (2 * comfort)) : Number(room >= 0);
  const reachShare = mean(runs.map(({ route, longest, own }) => (route === null ? 0 : 0.7 * clamp(1 - route / longest) + 0.3 * Number(own))));
  const levelShare = (clamp(1 - side / (2 * maxSide || 1)) + clamp(1 - along / (2 * maxAlong || 1))) / 2;
  const total =
    WEIGHTS.room * roomShare + WEIGHTS.reach * reachShare + WEIGHTS.level * levelShare +
    WEIGHTS.power * share(loadsServed, loads) + WEIGHTS.parts * share(nicePartsOut, niceParts) + WEIGHTS.wishes * share(wishesMet, wishes);
  return Math.round(clamp(total / 100) * 1000) / 10;
}

const ORDER: Readonly<Record<Verdict, number>> = { fits: 0, gear: 1, ask: 3, unsettled: 4, no: 5 };
/** What fits but has no way in that was found: somebody has to look first, as with an `ask`. */
const TO_BE_LOOKED_AT = 2;

interface Ordered {
  readonly verdict: Verdict;
  readonly score: number;
  readonly site: string;
  readonly access?: { readonly state: string } | null;
}

/** Best first: by verdict, then by score, then by id so that the order never depends on where a site came from. What no way in was found to comes after all that fits. */
export function orderResults<T extends Ordered>(results: readonly T[]): T[] {
  const rank = ({ verdict, access }: Ordered) => (access?.state === "not-found" ? Math.max(TO_BE_LOOKED_AT, ORDER[verdict]) : ORDER[verdict]);
  return [...results].sort((a, b) => rank(a) - rank(b) || b.score - a.score || (a.site < b.site ? -1 : a.site > b.site ? 1 : 0));
}

function share(part: number, whole: number): number {
  return whole === 0 ? 1 : part / whole;
}

function mean(values: readonly number[]): number {
  return values.length === 0 ? 1 : values.reduce((sum, v) => sum + v, 0) / values.length;
}

function clamp(value: number): number {
  return Math.min(1, Math.max(0, value));
}
