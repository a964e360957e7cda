import { Approach, GAP } from "@/lib/fit/approach";
import { headingsFor } from "@/lib/fit/answer";
import type { RigForm } from "@/lib/fit/form";
import { runAt, type Demands } from "@/lib/fit/landscapes";
import type { Need, With } from "@/lib/fit/needs";
import type { Policy } from "@/lib/fit/policy";
import type { Verdict } from "@/lib/fit/types";
import type { Site } from "@/lib/park";
import type { Found, SearchResult } from "@/lib/search";
import { ballSearch, type Looked } from "./ball-search";
import { BUDGET, allowedFor, settingOf, shared } from "./setting";

/** Squares whose half diagonal is at most this are not quartered again, mm: as in the engine. */
const FINEST = 0.2;
const NONE: ReadonlySet<string> = new Set();

/** What the obvious search answers: the engine's numbers without its reasons, limits and score. */
export interface BallAnswer {
  readonly verdict: Verdict;
  readonly best: { readonly room: number; readonly bound: number };
  /** Up to comfort, where the rig is put; null without a pose. */
  readonly room: number | null;
  /** All runs together there, mm. */
  readonly run: number | null;
  readonly nice: ReadonlySet<string>;
}

interface Trial {
  readonly approach: Approach;
  readonly search: SearchResult;
}

/**
 * One rig on one site by the obvious search, each question to the same gap of 5 mm. The engine's constraints and needs
 * at a point, and its order of questions: best room, placing with all nice parts, with none, part by part, shortest run.
 */
export function answerByBalls(site: Site, form: RigForm, policy: Policy): BallAnswer {
  const setting = settingOf(site, form, policy), allowed = allowedFor(setting);
  const approaches = headingsFor(site, form.rig).map((heading) => new Approach(setting, heading, shared, BUDGET));
  const roomiest = approaches.map((approach) => ({ approach, search: bestRoom(approach) }));
  const best = { room: Math.max(...roomiest.map(({ search }) => search.best?.value ?? -Infinity)), bound: Math.max(...roomiest.map(({ search }) => search.bound)) };
  const standable = roomiest.filter(({ search: { best: found, bound } }) => bound >= 0 || (found?.value ?? -Infinity) >= -policy.touch).map(({ approach }) => approach);
  let open = false;
  for (const by of ["own", "gear"] as const) {
    const able = allowed[by] ? standable.filter(({ needs }) => needs.every(({ pairs }) => pairs.some(({ limit }) => limit[by] >= 0))) : [];
    const bare = settle(able, by);
    if (bare) return { verdict: by === "own" ? "fits" : "gear", best, ...bare };
    open ||= bare === undefined;
  }
  return { verdict: open ? "unsettled" : "no", best, room: null, run: null, nice: NONE };
}

/** Null where no pose holds, undefined where the budget ran out before one was found. */
function settle(approaches: readonly Approach[], by: With): Pick<BallAnswer, "room" | "run" | "nice"> | null | undefined {
  if (approaches.length === 0) return null;
  const parts = approaches[0]!.setting.form.boxes.filter((b) => b.need === "nice").map((b) => b.id);
  const trials = (nice: ReadonlySet<string>, target?: number): Trial[] => approaches.map((approach) => ({ approach, search: place(approach, by, nice, target) }));
  const strict = (some: readonly Trial[]) => some.filter(({ search }) => search.best !== null);
  const everything = strict(trials(new Set(parts)));
  if (everything.length > 0) return shortest(everything, by, new Set(parts));
  const bare = trials(NONE);
  if (strict(bare).length === 0) {
    const loose = bare.flatMap(({ search }) => search.loose ?? []);
    if (loose.length > 0) return { room: Math.max(...loose.map(({ value }) => value)), run: null, nice: NONE };
    return bare.some(({ search }) => search.ended === "budget") ? undefined : null;
  }
  let nice = NONE;
  for (const part of parts.length > 1 ? parts : []) {
    const more = new Set([...nice, part]);
    if (strict(trials(more, 0)).length > 0) nice = more;
  }
  return shortest(nice === NONE ? strict(bare) : strict(trials(nice)), by, nice);
}

function shortest(trials: readonly Trial[], by: With, nice: ReadonlySet<string>): Pick<BallAnswer, "room" | "run" | "nice"> {
  const room = Math.max(...trials.map(({ search }) => search.best!.value));
  const level = Math.max(0, Math.min(room, Math.max(...trials.map(({ search }) => search.bound)) - GAP));
  const roomy = trials.filter(({ search }) => search.best!.value >= level);
  const runs = roomy.map(({ approach, search }) => (approach.needs.length === 0 ? 0 : shortestRun(approach, by, nice, level, search.best!)));
  return { room, run: Math.min(...runs), nice };
}

function bestRoom(approach: Approach): SearchResult {
  const envelope = approach.envelope(NONE);
  const look = (x: number, y: number): Looked => ({ value: envelope.valueAt(x, y), spare: Infinity });
  return ballSearch(approach.domain, look, { gap: GAP, steepness: 1, cap: Infinity, resolution: FINEST, touch: 0, budget: BUDGET });
}

function place(approach: Approach, by: With, nice: ReadonlySet<string>, target?: number): SearchResult {
  const { comfort, touch } = approach.setting.policy;
  const envelope = approach.envelope(nice), demands = demandsOf(approach, by);
  const look = (x: number, y: number): Looked => {
    const value = envelope.valueAt(x, y);
    return { value: Math.min(value, comfort), spare: Math.min(value, least(demands, x, y)) };
  };
  return ballSearch(approach.domain, look, { gap: GAP, steepness: 1, cap: comfort, resolution: Math.max(touch, FINEST), touch, target, budget: BUDGET });
}

/** The total run changes, for each service, by at most as much as the pose. */
function shortestRun(approach: Approach, by: With, nice: ReadonlySet<string>, level: number, known: Found): number {
  const envelope = approach.envelope(nice), demands = demandsOf(approach, by);
  const asked: Demands = { needs: approach.needs, by, inLine: [], touch: 0 };
  const look = (x: number, y: number): Looked => ({
    value: -shortestRoutes(asked, x, y),
    spare: Math.min(envelope.valueAt(x, y) - level, least(demands, x, y)),
    reached: () => -runAt(x, y, asked, 0),
  });
  const first: Found = { ...known, value: -runAt(known.x, known.y, asked, 0) };
  const found = ballSearch(approach.domain, look, { gap: GAP, steepness: approach.needs.length, cap: 0, resolution: FINEST, touch: 0, first, budget: BUDGET });
  return -found.best!.value;
}

type Margin = (x: number, y: number) => number;

/** Each need as a margin that changes by no more than the pose does: of the pair that serves best, the lesser of reach and fall. */
function demandsOf({ needs, setting: { policy } }: Approach, by: With): Margin[] {
  if (!policy.overflow || policy.underBody.length < 3) throw new Error("this baseline knows parks with overflow parking whose lines run straight under the body");
  return needs.map((need) => (x, y) => marginOf(need, by, x, y));
}

function marginOf({ pairs }: Need, by: With, x: number, y: number): number {
  let most = -Infinity;
  for (const pair of pairs) {
    if (pair.limit[by] < 0) continue;
    const path = pair.pathAt(x, y), fall = pair.fallAt(x, y, path);
    most = Math.max(most, Math.min(pair.limit[by] - path, fall === Infinity ? fall : fall / pair.fallSteepness()));
  }
  return most;
}

function least(margins: readonly Margin[], x: number, y: number): number {
  let spare = Infinity;
  for (const margin of margins) spare = Math.min(spare, margin(x, y));
  return spare;
}

/** The shortest route of each service, within reach or not: no pose of a cell has less than this less the radius. */
function shortestRoutes({ needs, by }: Demands, x: number, y: number): number {
  let total = 0;
  for (const { pairs } of needs) {
    let shortest = Infinity;
    for (const pair of pairs) if (pair.limit[by] >= 0) shortest = Math.min(shortest, pair.routeOf(pair.pathAt(x, y)));
    total += shortest;
  }
  return total;
}
