import fc from "fast-check";
import { expect } from "vitest";
import { fitSite, type FitResult } from "@/lib/fit";
import { scenes, type Scene } from "../scenes/random-scene";

/** Fixed, so that every run of the gate looks at the same scenes; fast-check prints it with the path of a failure. */
const SEED = 20_260_117;

/** Holds a law over random scenes; a failing scene is shrunk by leaving things out and printed with its seed. */
export function law(runs: number, holds: (scene: Scene) => void, offset = 0): void {
  const property = fc.property(scenes(), (scene) => {
    holds(scene);
  });
  fc.assert(property, { seed: SEED + offset, numRuns: runs, verbose: 0 });
}

export function answer(scene: Scene): FitResult {
  return fitSite(scene.site, scene.rig, scene.policy);
}

const rank = { fits: 0, gear: 1, ask: 2, unsettled: 2, no: 3 } as const;

/** Whether `a` is a better verdict than `b`. Open questions compare with nothing. */
export function better(a: FitResult, b: FitResult): boolean {
  return settled(a) && settled(b) && rank[a.verdict] < rank[b.verdict];
}

export function settled(r: FitResult): boolean {
  return r.verdict !== "unsettled" && r.verdict !== "ask";
}

/**
 * Between -touch and 0 either answer is right: a pose may be found there, or be missed. So a better verdict counts
 * only where its pose holds with nothing below zero.
 */
export function clearlyHolds(r: FitResult): boolean {
  if (r.room === null || r.room < 0) return false;
  return r.needs.every((n) => n.route !== null && (n.ok === "gear" || n.route <= n.own) && (!n.fall || n.fall.drop >= n.fall.needed));
}

/** The law's failure in one line, with both answers. */
export function refuse(what: string, before: FitResult, after: FitResult): never {
  const tell = (r: FitResult) => JSON.stringify({ verdict: r.verdict, room: r.room, best: r.best, pose: r.pose });
  return expect.fail(`${what}: ${tell(before)} became ${tell(after)}`);
}
