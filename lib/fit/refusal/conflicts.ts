import type { Approach } from "../approach";
import { demandAt, demandsOf, domainOf, marginsOf, type Demand } from "./demands";
import { mostSubjectTo } from "./margins";
import type { Conflict, Heading } from "../types";

/** Demands that cannot hold together at one heading, while any one of them dropped leaves the rest possible. */
export interface Clash {
  readonly heading: Heading;
  readonly demands: readonly Demand[];
  /** For each demand a position that meets all the others, mm. */
  readonly without: readonly { readonly x: number; readonly y: number }[];
}

type Tried =
  | { readonly state: "possible"; readonly x: number; readonly y: number }
  | { readonly state: "impossible" }
  | { readonly state: "undecided" };

const EFFORT = { resolution: 0.2, budget: 50_000, target: 0, floor: 0 } as const;
/** A clash of more than a few dozen demands is none a person could follow; the loop that gathers them is bounded by it. */
const MOST = 40;

/**
 * An irreducible clash among the demands at this heading, or null where none was proven. Gathered by asking for a pose that meets the
 * demands so far and adding the one it fails worst, until no pose is left; then every demand that the rest do without
 * is dropped (the deletion filter of Chinneck & Dravnieks 1991). Both halves rest on bounds, not on samples.
 */
export function clashAt(approach: Approach, demands: readonly Demand[] = demandsOf(approach)): Clash | null {
  const gathered = gather(approach, demands);
  return gathered && thinOut(approach, gathered);
}

function gather(approach: Approach, open: readonly Demand[]): Demand[] | null {
  const chosen: Demand[] = [];
  let at = { x: approach.best.best?.x ?? 0, y: approach.best.best?.y ?? 0 };
  while (chosen.length < MOST) {
    const failing = worst(approach, open.filter((d) => !chosen.includes(d)), at.x, at.y);
    if (!failing) return null; // everything holds there: no clash at this heading
    chosen.push(failing);
    const tried = together(approach, chosen, 0);
    if (tried.state === "impossible") return chosen;
    if (tried.state === "undecided") return null;
    at = tried;
  }
  return null;
}

/** The demand that fails worst at a position, or null where all hold. */
function worst(approach: Approach, demands: readonly Demand[], x: number, y: number): Demand | null {
  let found: Demand | null = null, least = 0;
  for (const demand of demands) {
    const value = demandAt(approach, demand, x, y);
    if (value < least) { least = value; found = demand; }
  }
  return found;
}

/** Last come, first tried: what was gathered late is the hardest to do without. */
function thinOut(approach: Approach, gathered: readonly Demand[]): Clash | null {
  let kept = [...gathered];
  for (const demand of gathered) {
    const rest = kept.filter((d) => d !== demand);
    if (together(approach, rest).state === "impossible") kept = rest;
  }
  const without = kept.map((demand) => together(approach, kept.filter((d) => d !== demand)));
  const proven = without.flatMap((tried) => (tried.state === "possible" ? [{ x: tried.x, y: tried.y }] : []));
  return proven.length === kept.length ? { heading: approach.heading, demands: kept, without: proven } : null;
}

/** Positions put right on an edge may come out this much short of it by rounding, mm. */
const NOISE = 1e-6;

/** Whether some pose meets all of these but for `noise`, and one that does. */
function together(approach: Approach, demands: readonly Demand[], noise = NOISE): Tried {
  const margins = marginsOf(approach, demands);
  const domain = domainOf(approach, demands);
  const middle = { x: (domain.minX + domain.maxX) / 2, y: (domain.minY + domain.maxY) / 2 };
  const [objective, ...subject] = margins;
  if (!objective) return { state: "possible", ...middle };
  const far = farAway(domain).find(({ x, y }) => margins.every((m) => m.valueAt(x, y) >= 0));
  if (far) return { state: "possible", ...far };
  const { best, bound, ended } = mostSubjectTo({ ...EFFORT, objective, subject, domain });
  if (best !== null && margins.every((m) => m.valueAt(best.x, best.y) >= -noise)) return { state: "possible", x: best.x, y: best.y };
  // What is left open is smaller than anybody measures: cells of the finest resolution, with no pose that holds.
  return bound < EFFORT.resolution && ended !== "budget" ? { state: "impossible" } : { state: "undecided" };
}

/** Clashes as the answer tells them: those that are the same at every heading once, under no heading. */
export function conflictsOf(clashes: readonly (Clash | null)[]): Conflict[] {
  const found = clashes.flatMap((clash) => (clash ? [{ heading: clash.heading, constraints: clash.demands.map((d) => d.id) }] : []));
  const [first] = found;
  const key = (c: { constraints: readonly string[] }) => [...c.constraints].sort().join("\n");
  if (!first || found.length < 2 || found.length < clashes.length || found.some((c) => key(c) !== key(first))) return found;
  return [{ heading: null, constraints: first.constraints }];
}

/** Where nothing ties the rig to the site, far away is possible, and quickly found. */
function farAway({ minX, maxX, minY, maxY }: { minX: number; maxX: number; minY: number; maxY: number }): { x: number; y: number }[] {
  const x = (minX + maxX) / 2, y = (minY + maxY) / 2;
  return [{ x: maxX, y }, { x, y: maxY }, { x, y: minY }, { x: maxX, y: maxY }, { x: maxX, y: minY }, { x: minX, y }];
}
