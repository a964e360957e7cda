import { Approach } from "@/lib/fit/approach";
import type { Setting } from "@/lib/fit/constraints";
import { headingsFor } from "@/lib/fit/answer";
import type { RigForm } from "@/lib/fit/form";
import { Workspace } from "@/lib/fit/landscapes";
import { levelOf } from "@/lib/fit/level";
import type { Policy } from "@/lib/fit/policy";
import { brokenRules } from "@/lib/fit/rules";
import { settle, type Settled } from "@/lib/fit/solve";
import { stallFor } from "@/lib/fit/vehicle";
import { terrainOf, type Site } from "@/lib/park";
import type { SearchResult } from "@/lib/search";

/** Cells per search, as in the engine. */
export const BUDGET = 200_000;

/** What both baselines take from the engine, since no pose changes it: heights, lifts, convex pieces. */
export function settingOf(site: Site, form: RigForm, policy: Policy): Setting {
  const terrain = terrainOf(site), level = levelOf(terrain.ground, form, policy);
  return { terrain, form, policy, rise: level.side + level.along, stall: stallFor(site, form.rig, policy) };
}

/** What rules and slope leave open, whatever the pose. */
export function allowedFor({ terrain, form, policy }: Setting): { own: boolean; gear: boolean } {
  const met = brokenRules(terrain.site, form.rig, policy).length === 0, { ok } = levelOf(terrain.ground, form, policy);
  return { own: met && ok === "own", gear: met && ok !== "no" };
}

/** One for all questions, as in a ranking. */
export const shared = new Workspace();

/**
 * The engine's searches for the questions that the obvious search answers too: the most room at every heading, then
 * verdict and pose. What else an answer has (reasons, conflicts, limits, score) is left out.
 */
export function answerBySearchAlone(site: Site, form: RigForm, policy: Policy): { best: SearchResult[]; settled: Settled } {
  const setting = settingOf(site, form, policy);
  const approaches = headingsFor(site, form.rig).map((heading) => new Approach(setting, heading, shared, BUDGET));
  return { best: approaches.map(({ best }) => best), settled: settle(approaches, allowedFor(setting)) };
}
