import type { Approach } from "../approach";
import { demandAt, demandsOf, domainOf, marginsOf, type Demand } from "./demands";
import { mostSubjectTo } from "./margins";
import type { Conflict, Heading, Shown } from "../types";

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

const EFFORT = { resolution: 0.2, budget: 50_000 } as const;
/** A clash of more than a few dozen demands is none a person could follow; the loop that gathers them is bounded by it. */
const MOST = 40;
/**
 * What a pose has to have to spare for a demand to count as met, mm: nothing. A `no` rests on cells of this size,
 * so where the last millimetre decides, nothing may be proven at zero but is at a little more.
 */
const LEVELS = [0, 0.5, 1] as const;
/** More demands than this are looked at once more in the hope of fewer: a person follows two or three things. */
const EASY = 3;

/**
 * An irreducible clash among the demands at this heading, or null where none was proven. Gathered by asking for a pose that meets the
 * demands so far and adding the one it fails worst, until no pose is left; then every demand that the rest do without
 * is dropped (the deletion filter of Chinneck & Dravnieks 1991). Both halves rest on bounds, not on samples. `insist`
 * where there has to be one: something else may be what stands against the rig, and then there need not.
 */
export function clashAt(approach: Approach, demands: readonly Demand[] = demandsOf(approach), insist = true): Clash | null {
  for (const level of insist ? LEVELS : LEVELS.slice(0, 1)) {
    const gathered = gather(approach, demands, level);
    const clash = gathered && thinOut(approach, gathered, padLast(gathered), level);
    if (clash) return clash.demands.length > EASY ? fewer(approach, clash, gathered, level) : clash;
  }
  return null;
}

/** The pad is what everybody expects to hold, and a try drawn on it is understood: it is done without only where the rest does without it too. */
function padLast(demands: readonly Demand[]): Demand[] {
  return [...demands.filter((d) => d.id !== "stand"), ...demands.filter((d) => d.id === "stand")];
}

/** The same gathered demands dropped in the other order may leave fewer. */
function fewer(approach: Approach, clash: Clash, gathered: readonly Demand[], level: number): Clash {
  const other = thinOut(approach, gathered, [...gathered].reverse(), level);
  return other && other.demands.length < clash.demands.length ? other : clash;
}

function gather(approach: Approach, open: readonly Demand[], level: number): Demand[] | null {
  const chosen: Demand[] = [];
  let at = { x: approach.best.best?.x ?? 0, y: approach.best.best?.y ?? 0 };
  while (chosen.length < MOST) {
    const failing = worst(approach, open.filter((d) => !chosen.includes(d)), at.x, at.y, level);
    if (!failing) return null; // everything holds there: no clash at this heading
    chosen.push(failing);
    const tried = together(approach, chosen, level, 0);
    if (tried.state === "impossible") return chosen;
    if (tried.state === "undecided") return null;
    at = tried;
  }
  return null;
}

/** The demand that fails worst at a position, or null where all hold. */
function worst(approach: Approach, demands: readonly Demand[], x: number, y: number, level: number): Demand | null {
  let found: Demand | null = null, least = level;
  for (const demand of demands) {
    const value = demandAt(approach, demand, x, y);
    if (value < least) { least = value; found = demand; }
  }
  return found;
}

/** Drops in the order given what the others do without. */
function thinOut(approach: Approach, gathered: readonly Demand[], order: readonly Demand[], level: number): Clash | null {
  let kept = [...gathered];
  for (const demand of order) {
    const rest = kept.filter((d) => d !== demand);
    if (together(approach, rest, level).state === "impossible") kept = rest;
  }
  const without = kept.map((demand) => together(approach, kept.filter((d) => d !== demand), level));
  const proven = without.flatMap((tried) => (tried.state === "possible" ? [{ x: tried.x, y: tried.y }] : []));
  return proven.length === kept.length ? { heading: approach.heading, demands: kept, without: proven } : null;
}

/** Positions put right on an edge may come out this much short of it by rounding, mm. */
const NOISE = 1e-6;

/** Whether some pose meets all of these but for `noise`, and one that does. */
function together(approach: Approach, demands: readonly Demand[], level: number, noise = NOISE): Tried {
  const margins = marginsOf(approach, demands);
  const domain = domainOf(approach, demands);
  const middle = { x: (domain.minX + domain.maxX) / 2, y: (domain.minY + domain.maxY) / 2 };
  const [objective, ...subject] = margins;
  if (!objective) return { state: "possible", ...middle };
  const holds = ({ x, y }: { x: number; y: number }) => margins.every((m) => m.valueAt(x, y) >= level - noise);
  const far = farAway(domain).find(holds);
  if (far) return { state: "possible", ...far };
  const { best, bound, ended } = mostSubjectTo({ ...EFFORT, objective, subject, domain, level, target: level, floor: level });
  if (best !== null && holds(best)) return { state: "possible", x: best.x, y: best.y };
  // What is left open is smaller than anybody measures: cells of the finest resolution, with no pose that holds.
  return bound < level + EFFORT.resolution && ended !== "budget" ? { state: "impossible" } : { state: "undecided" };
}

/**
 * Clashes as the answer tells them, the one told first: those that are the same at every heading once, under no
 * heading. `headings` is how many there are.
 */
export function conflictsOf(clashes: readonly { readonly clash: Clash; readonly shown: Shown }[], headings: number): Conflict[] {
  const found = clashes.map(({ clash, shown }): Conflict => ({ heading: clash.heading, constraints: clash.demands.map((d) => d.id), shown }));
  const [first] = found;
  const key = (c: Conflict) => [...c.constraints].sort().join("\n");
  if (!first || found.length < 2 || found.length < headings || found.some((c) => key(c) !== key(first))) return found;
  return [{ ...first, heading: null }];
}

/** Where nothing ties the rig to the site, far away is possible, and quickly found. */
function farAway({ minX, maxX, minY, maxY }: { minX: number; maxX: number; minY: number; maxY: number }): { x: number; y: number }[] {
  const x = (minX + maxX) / 2, y = (minY + maxY) / 2;
  return [{ x: maxX, y }, { x, y: maxY }, { x, y: minY }, { x: maxX, y: maxY }, { x: maxX, y: minY }, { x: minX, y }];
}
