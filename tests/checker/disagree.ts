import type { Site } from "@/lib/park/schema";
import type { Rig } from "@/lib/rig/schema";
import type { Policy } from "@/lib/fit/policy";
import type { FitResult } from "@/lib/fit/types";
import { GAP, keptNice, ROUNDING } from "./claims";
import { measure, sweep, type Best, type Sample, type Sweep, type SweepOptions } from "./sweep";

/** The engine settles runs to within its gap on the ground; a sampled run shorter by more than this is a fault. */
const RUN_GAP = 10;

/** Where a sweep over sampled poses contradicts a result. A sweep can only refute: what it misses proves nothing. */
export function disagreements(site: Site, rig: Rig, policy: Policy, result: FitResult, step: number, climb: boolean): string[] {
  if (result.verdict === "unsettled") return [];
  const options: SweepOptions = { climb, from: result.pose && climb ? [result.pose] : [] };
  const must = sweep(site, rig, policy, step, options);
  const faults = [...againstBest(result, must), ...againstVerdict(result, must)];
  if (faults.length > 0 || (result.verdict !== "fits" && result.verdict !== "gear") || !result.pose) return faults;
  const kept = keptNice(rig, result);
  const inForce = kept.length === 0 ? must : sweep(site, rig, policy, step, { ...options, nice: kept });
  const best = result.verdict === "fits" ? inForce.fits : inForce.gear;
  if (best) faults.push(...againstPose(site, rig, policy, result, best, kept));
  return [...faults, ...againstLeftIn(site, rig, policy, result, step, options)];
}

function againstBest(result: FitResult, found: Sweep): string[] {
  const { hard } = found, { room, bound } = result.best;
  if (!hard || hard.hard < 0) return [];
  const faults: string[] = [];
  if (hard.hard > bound + ROUNDING) faults.push(`best.bound is ${bound}, but ${show(hard)} has ${hard.hard}`);
  if (hard.hard > room + GAP + ROUNDING) faults.push(`best.room is ${room}, but ${show(hard)} has ${hard.hard}`);
  return faults;
}

function againstVerdict(result: FitResult, found: Sweep): string[] {
  if (found.fits && result.verdict !== "fits") return [`${result.verdict}, but it fits at ${show(found.fits.sample)}`];
  if (found.gear && result.verdict === "no") return [`no, but with gear it fits at ${show(found.gear.sample)}`];
  return [];
}

function againstPose(site: Site, rig: Rig, policy: Policy, result: FitResult, best: Best, kept: readonly string[]): string[] {
  const own = Math.min(result.room!, policy.comfort);
  if (best.room > own + GAP + ROUNDING) return [`min(room, comfort) is ${own}, but ${show(best.sample)} has ${best.room}`];
  const means = result.verdict === "fits" ? "own" : "gear";
  const run = result.needs.reduce((sum, n) => sum + (n.route ?? 0), 0);
  // A shorter run that has to borrow where this one does not is no better: what to bring counts before the run.
  const lends = result.needs.filter((n) => n.ok === "gear").map((n) => n.service);
  const alike = best.holding.filter((s) => Math.min(s.hard, policy.comfort) >= own && s.borrowed.every((b) => lends.includes(b)));
  const shorter = alike.filter((s) => s.run[means] < run - RUN_GAP);
  if (shorter.length === 0) return [];
  const least = shorter.reduce((a, b) => (a.run[means] < b.run[means] ? a : b));
  const here = measure(site, rig, policy, result.pose!, kept);
  return [`runs come to ${run} with ${own} of room (${here.run[means]}), but ${show(least)} has ${least.run[means]} with ${Math.min(least.hard, policy.comfort)}`];
}

/** Each nice part left in must not have been possible with those kept before it. */
function againstLeftIn(site: Site, rig: Rig, policy: Policy, result: FitResult, step: number, options: SweepOptions): string[] {
  const faults: string[] = [];
  const kept: string[] = [];
  for (const part of rig.parts.filter((p) => p.need === "nice")) {
    if (!result.leftIn.includes(part.id)) {
      kept.push(part.id);
      continue;
    }
    const found = sweep(site, rig, policy, step, { ...options, nice: [...kept, part.id] });
    const best = result.verdict === "fits" ? found.fits : found.gear;
    if (best) faults.push(`${part.id} is left in, but comes out at ${show(best.sample)}`);
  }
  return faults;
}

function show(s: Sample): string {
  return `${s.pose.heading} (${s.pose.x}, ${s.pose.y})`;
}
