import type { Site } from "@/lib/park/schema";
import type { Rig } from "@/lib/rig/schema";
import type { Policy } from "@/lib/fit/policy";
import type { Heading, Pose, Service } from "@/lib/fit/types";
import { depthInOutline } from "./geometry";
import { anywhere, headingsAllowed, needsAt } from "./needs";
import { leastSlack, slacks } from "./slacks";
import { at } from "./solids";

/** One sampled pose: its smallest hard slack, and the smallest slack of needs with own gear and with gear. */
export interface Sample {
  readonly pose: Pose;
  readonly hard: number;
  readonly own: number;
  readonly gear: number;
  readonly run: { readonly own: number; readonly gear: number };
  /** Services that the guest's own gear does not serve here. */
  readonly borrowed: readonly Service[];
}

/** The best sample that meets every need, the least run among those within 5 mm of it, and all that hold. */
export interface Best {
  readonly sample: Sample;
  /** min(room, comfort) there. */
  readonly room: number;
  readonly leastRun: number;
  readonly holding: readonly Sample[];
}

export interface Sweep {
  readonly samples: number;
  /** The sample with most hard slack, needs and rules aside. Null where the rig stands nowhere. */
  readonly hard: Sample | null;
  readonly fits: Best | null;
  readonly gear: Best | null;
}

export interface SweepOptions {
  /** Nice parts in force. */
  readonly nice?: readonly string[];
  /** Climb from the best samples with ever smaller steps, so that narrow places count too. */
  readonly climb?: boolean;
  /** Poses to climb from besides. */
  readonly from?: readonly Pose[];
}

/** Samples every pose on a grid, at each allowed heading, wherever the supports may stand on the pad. */
export function sweep(site: Site, rig: Rig, policy: Policy, step: number, options: SweepOptions = {}): Sweep {
  const { nice = [], climb = false, from = [] } = options;
  const settled = anywhere(site, rig, policy);
  const look = (pose: Pose) => measure(site, rig, policy, pose, nice, settled);
  const all: Sample[] = [];
  for (const heading of headingsAllowed(site, rig)) {
    for (const pose of grid(site, rig, policy, heading, step)) all.push(look(pose));
  }
  if (climb) {
    const { comfort } = policy;
    const goals: ((s: Sample) => number)[] = [(s) => s.hard, (s) => roomIf(s, s.gear, comfort), (s) => roomIf(s, s.own, comfort)];
    for (const goal of goals) {
      const starts = [...topBy(all, goal, 3), ...from.map(look)];
      for (const start of starts) all.push(...climbFrom(start, goal, look, step));
    }
  }
  return {
    samples: all.length,
    hard: topBy(all, (s) => s.hard, 1)[0] ?? null,
    fits: bestOf(all, "own", policy.comfort),
    gear: bestOf(all, "gear", policy.comfort),
  };
}

export function measure(site: Site, rig: Rig, policy: Policy, pose: Pose, nice: readonly string[], settled = anywhere(site, rig, policy)): Sample {
  const hard = leastSlack(slacks(site, rig, policy, pose, nice, false)).slack;
  const needs = needsAt(site, rig, policy, pose, nice, "sure", 0);
  const borrowed = needs.services.filter((s) => s.own < 0).map((s) => s.service);
  return { pose, hard, own: Math.min(needs.own, settled.own), gear: Math.min(needs.gear, settled.gear), run: needs.run, borrowed };
}

/** Poses at which every support may lie in the box around the pad; those clearly off the pad are skipped. */
function* grid(site: Site, rig: Rig, policy: Policy, heading: Heading, step: number): Generator<Pose> {
  const xs = site.pad.outline.map((p) => p[0]), ys = site.pad.outline.map((p) => p[1]);
  const offsets = rig.supports.map((s) => at({ x: 0, y: 0, heading }, ...s.at));
  const range = (k: 0 | 1, pad: number[]) => [
    Math.min(...pad) - Math.min(...offsets.map((o) => o[k])),
    Math.max(...pad) - Math.max(...offsets.map((o) => o[k])),
  ] as const;
  const [x0, x1] = range(0, xs), [y0, y1] = range(1, ys);
  for (const x of ticks(x0, x1, step)) {
    for (const y of ticks(y0, y1, step)) {
      const pose = { x, y, heading };
      const depth = Math.min(...rig.supports.map((s) => depthInOutline(at(pose, ...s.at), site.pad.outline)));
      if (depth - policy.footing >= -step) yield pose;
    }
  }
}

function* ticks(from: number, to: number, step: number): Generator<number> {
  if (to < from) return;
  const n = Math.max(1, Math.ceil((to - from) / step));
  for (let i = 0; i <= n; i++) yield from + ((to - from) * i) / n;
}

/** Room where all needs are met; below that, how much is lacking, and a step down. */
function roomIf(s: Sample, needs: number, comfort: number): number {
  const short = Math.min(s.hard, needs);
  return short >= 0 ? Math.min(s.hard, comfort) : Math.max(short, -1e6) - 1;
}

/** Pattern search: eight directions, the step halved when none is better. Every pose on the way is a sample too. */
function climbFrom(start: Sample, goal: (s: Sample) => number, look: (pose: Pose) => Sample, step: number): Sample[] {
  const seen = [start];
  let here = start;
  for (let reach = step / 2, budget = 300; reach > 0.4 && budget > 0; ) {
    let better: Sample | null = null;
    for (const [dx, dy] of DIRECTIONS) {
      const next = look({ ...here.pose, x: here.pose.x + dx * reach, y: here.pose.y + dy * reach });
      budget--;
      seen.push(next);
      if (goal(next) > goal(better ?? here)) better = next;
    }
    if (better) here = better;
    else reach /= 2;
  }
  return seen;
}

const DIRECTIONS = [[1, 0], [-1, 0], [0, 1], [0, -1], [1, 1], [1, -1], [-1, 1], [-1, -1]] as const;

function bestOf(all: readonly Sample[], means: "own" | "gear", comfort: number): Best | null {
  const holding = all.filter((s) => s.hard >= 0 && s[means] >= 0);
  const sample = topBy(holding, (s) => s.hard, 1)[0];
  if (!sample) return null;
  const room = Math.min(sample.hard, comfort);
  const close = holding.filter((s) => Math.min(s.hard, comfort) >= room - 5);
  return { sample, room, leastRun: Math.min(...close.map((s) => s.run[means])), holding };
}

function topBy(all: readonly Sample[], goal: (s: Sample) => number, n: number): Sample[] {
  const top: Sample[] = [];
  for (const s of all) {
    if (top.length === n && !(goal(s) > goal(top[n - 1]!))) continue;
    top.push(s);
    top.sort((a, b) => goal(b) - goal(a));
    top.length = Math.min(top.length, n);
  }
  return top;
}
