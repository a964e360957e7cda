import type { Found, SearchResult } from "@/lib/search";
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
    const { placed, undecided } = settleWith(approaches.filter((a) => a.standable && canServe(a, by)), by);
    open ||= undecided;
    if (placed && !open) return { verdict: by === "own" ? "fits" : "gear", placed };
  }
  return { verdict: open ? "unsettled" : "no", placed: null };
}

/** The verdict that `settle` gives, without the search for the best pose: several times as fast. */
export function verdictAlone(approaches: readonly Approach[], allowed: Readonly<Record<With, boolean>>): Settled["verdict"] {
  let open = false;
  for (const by of ["own", "gear"] as const) {
    if (!allowed[by]) continue;
    const trials = approaches.filter((a) => canServe(a, by)).map((approach) => ({ approach, search: approach.place(by, NONE, [], 0) }));
    open ||= !trials.some(holds) && trials.some(({ search }) => search.ended === "budget");
    if (trials.some(holds) && !open) return by === "own" ? "fits" : "gear";
  }
  return open ? "unsettled" : "no";
}

/** Whether some pose at all meets every demand, with whatever could be brought: the verdict without the pose. */
export function anyPose(approaches: readonly Approach[]): boolean {
  return approaches.some((approach) => canServe(approach, "gear") && approach.place("gear", NONE, [], 0).best !== null);
}

/** Whether every wanted service has some pair that could serve at all. */
function canServe({ needs }: Approach, by: With): boolean {
  return needs.every((need) => need.pairs.some((pair) => pair.limit[by] >= 0));
}

function holds({ search }: Trial): boolean {
  return search.best !== null || search.loose !== null;
}

/** With every nice part out first, as they often can be; then with the must parts alone, and what can be had besides. */
function settleWith(approaches: readonly Approach[], by: With): { placed: Placed | null; undecided: boolean } {
  const [first] = approaches;
  if (!first) return { placed: null, undecided: false };
  const parts = first.setting.form.boxes.filter((b) => b.need === "nice").map((b) => b.id);
  const everything = new Set(parts);
  const open = tryAll(approaches.map((approach) => ({ approach, hints: foundIn(approach.best) })), by, everything);
  if (open.some(({ search }) => search.best !== null)) return { placed: shortest(open, by, everything), undecided: false };
  const bare = parts.length === 0 ? open : tryAll(approaches.map((approach) => ({ approach, hints: foundIn(approach.best) })), by, NONE);
  const standing = bare.filter(holds);
  if (standing.length === 0) return { placed: null, undecided: bare.some(({ search }) => search.ended === "budget") };
  const strict = standing.some(({ search }) => search.best !== null);
  if (!strict && open.some(holds)) return { placed: loosest(open, by, everything), undecided: false };
  const { nice, final } = putOut(standing, by, parts, strict ? ({ search }) => search.best !== null : holds);
  return { placed: strict ? shortest(final, by, nice) : loosest(final, by, nice), undecided: false };
}

interface Attempt {
  readonly approach: Approach;
  readonly hints: readonly Found[];
}

function tryAll(attempts: readonly Attempt[], by: With, nice: ReadonlySet<string>, target?: number): Trial[] {
  return attempts.map(({ approach, hints }) => ({ approach, search: approach.place(by, nice, hints, target) }));
}

function foundIn({ best }: SearchResult): Found[] {
  return best ? [best] : [];
}

/** Not all nice parts can be out together: in listed order, each kept if some pose still has the same verdict. */
function putOut(standing: readonly Trial[], by: With, parts: readonly string[], holding: (trial: Trial) => boolean): { nice: ReadonlySet<string>; final: readonly Trial[] } {
  if (parts.length <= 1) return { nice: NONE, final: standing };
  let nice: ReadonlySet<string> = NONE;
  let alive = standing.filter(holding);
  const attempts = () => alive.map(({ approach, search }) => ({ approach, hints: foundIn(search) }));
  for (const part of parts) {
    const more = new Set([...nice, part]);
    const still = tryAll(attempts(), by, more, 0).filter(holding);
    if (still.length === 0) continue;
    nice = more;
    alive = still;
  }
  return { nice, final: nice.size === 0 ? standing : tryAll(attempts(), by, nice) };
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
  const [first, ...rest] = trials.flatMap(({ approach, search }) => (search.loose ? [{ approach, found: search.loose }] : []));
  const { approach, found } = rest.reduce((a, b) => (b.found.value > a.found.value ? b : a), first!);
  return { approach, pose: { x: found.x, y: found.y, heading: approach.heading }, by, strict: false, nice };
}
