import type { SearchResult } from "@/lib/search";
import { GAP, type Approach } from "./approach";
import type { With } from "./needs";
import type { Pose, Verdict } from "./types";

/** A pose found, whether it meets everything strictly, and the nice parts that are out there. */
export interface Placed {
  readonly approach: Approach;
  readonly pose: Pose;
  readonly by: With;
  readonly strict: boolean;
  readonly nice: ReadonlySet<string>;
}

export interface Settled {
  readonly verdict: Extract<Verdict, "fits" | "gear" | "no" | "unsettled">;
  readonly placed: Placed | null;
}

interface Trial {
  readonly approach: Approach;
  readonly search: SearchResult;
}

const NONE: ReadonlySet<string> = new Set();

/**
 * The verdict and the pose: with own gear if any heading allows it, else with gear that could be brought. `allowed`
 * says which of the two rules, level and services leave open.
 */
export function settle(approaches: readonly Approach[], allowed: Readonly<Record<With, boolean>>): Settled {
  let open = false;
  for (const by of ["own", "gear"] as const) {
    if (!allowed[by]) continue;
    const trials = approaches.filter((a) => canServe(a, by)).map((approach) => ({ approach, search: approach.place(by, NONE) }));
    if (trials.some(holds)) {
      if (open) break;
      return { verdict: by === "own" ? "fits" : "gear", placed: refine(trials, by) };
    }
    open ||= trials.some(({ search }) => search.ended === "budget");
  }
  return { verdict: open ? "unsettled" : "no", placed: null };
}

/** Whether every wanted service has some pair that could serve at all. */
function canServe({ needs }: Approach, by: With): boolean {
  return needs.every((need) => need.pairs.some((pair) => pair.limit[by] >= 0));
}

function holds({ search }: Trial): boolean {
  return search.best !== null || search.loose !== null;
}

/** Puts out the nice parts that can be had and settles on the pose. */
function refine(trials: readonly Trial[], by: With): Placed {
  const standing = trials.filter(holds);
  const strict = standing.some(({ search }) => search.best !== null);
  const all = standing[0]!.approach.setting.form.boxes.filter((b) => b.need === "nice").map((b) => b.id);
  const { nice, final } = all.length === 0 ? { nice: NONE, final: standing } : putOut(standing, by, all, strict);
  return strict ? shortest(final, by, nice) : loosest(final, by, nice);
}

/** Nice parts in listed order, each kept if some pose still has the same verdict. All at once first, as they often can. */
function putOut(standing: readonly Trial[], by: With, parts: readonly string[], strict: boolean): { nice: ReadonlySet<string>; final: readonly Trial[] } {
  const retry = (trials: readonly Trial[], nice: ReadonlySet<string>, target?: number) =>
    trials
      .map(({ approach }) => ({ approach, search: approach.place(by, nice, target) }))
      .filter((trial) => (strict ? trial.search.best !== null : holds(trial)));
  const everything = retry(standing, new Set(parts));
  if (everything.length > 0) return { nice: new Set(parts), final: everything };
  if (parts.length === 1) return { nice: NONE, final: standing };
  let nice: ReadonlySet<string> = NONE;
  let alive: readonly Trial[] = standing;
  for (const part of parts) {
    const more = new Set([...nice, part]);
    const still = retry(alive, more, strict ? 0 : undefined);
    if (still.length === 0) continue;
    nice = more;
    alive = still;
  }
  return { nice, final: nice.size === 0 ? standing : retry(alive, nice) };
}

/** Among poses within the gap of the most room (up to comfort), the one with the least total run. */
function shortest(trials: readonly Trial[], by: With, nice: ReadonlySet<string>): Placed {
  const strict = trials.filter(({ search }) => search.best !== null);
  const value = Math.max(...strict.map(({ search }) => search.best!.value));
  const bound = Math.max(...strict.map(({ search }) => search.bound));
  const level = Math.max(0, Math.min(value, bound - GAP));
  let best: { approach: Approach; x: number; y: number; run: number } | null = null;
  for (const { approach, search } of strict) {
    if (search.best!.value < level) continue;
    const known = search.best!;
    const run = approach.needs.length === 0 ? null : approach.shortestRun(by, nice, level, [known.x, known.y]).best;
    const found = run ? { x: run.x, y: run.y, run: -run.value } : { x: known.x, y: known.y, run: 0 };
    if (best === null || found.run < best.run) best = { approach, ...found };
  }
  const { approach, x, y } = best!;
  return { approach, pose: { x, y, heading: approach.heading }, by, strict: true, nice };
}

/** Only within the touch tolerance: the roomiest such pose. */
function loosest(trials: readonly Trial[], by: With, nice: ReadonlySet<string>): Placed {
  const [first, ...rest] = trials.map(({ approach, search }) => ({ approach, found: search.loose! }));
  const { approach, found } = rest.reduce((a, b) => (b.found.value > a.found.value ? b : a), first!);
  return { approach, pose: { x: found.x, y: found.y, heading: approach.heading }, by, strict: false, nice };
}
