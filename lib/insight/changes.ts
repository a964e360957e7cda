import { applyChange, remedyOwner } from "@/lib/fit/refusal/changes";
import type { Change, Verdict } from "@/lib/fit/types";
import type { Policy } from "@/lib/fit/policy";
import type { Site } from "@/lib/park";
import type { Candidate, Refused } from "./types";

/** What one change to a site would do for the rigs it turns away, each solved anew. */
export interface Gain {
  readonly change: Change;
  /** Which of the refused rigs it lets in, as indices into what was asked. */
  readonly letsIn: readonly number[];
}

/**
 * The changes worth trying on a site: those that would turn the refusal of some rig by themselves or with one other. Equal
 * ones (the same thing done to the same thing, in the same direction) are one, by the larger amount.
 */
export function candidatesFor(site: Site, refused: readonly Refused[], policy: Policy): Candidate[] {
  const largest = new Map<string, Candidate>();
  for (const { rig, remedies } of refused) {
    for (const change of remedies.flatMap(({ changes }) => changes).filter((change) => remedyOwner(change) === "park")) {
      const key = keyOf(change), before = largest.get(key);
      if (before && amountOf(before.change) >= amountOf(change)) continue;
      const after = applyChange(change, { site, rig, policy });
      largest.set(key, { change, site: after.site, policy: after.policy });
    }
  }
  return [...largest.values()];
}

/**
 * Those that let some rig in, the most first; equal ones by how little is done. `verdicts[c][r]` is that of refused rig `r` on
 * the site after candidate `c`. Of changes to one thing that differ in direction alone the best is told.
 */
export function gainsOf(candidates: readonly Candidate[], verdicts: readonly (readonly Verdict[])[]): Gain[] {
  const gains = candidates
    .map(({ change }, c): Gain => ({ change, letsIn: verdicts[c]!.flatMap((verdict, r) => (verdict === "fits" || verdict === "gear" ? [r] : [])) }))
    .filter(({ letsIn }) => letsIn.length > 0)
    .sort((a, b) => b.letsIn.length - a.letsIn.length || effortOf(a.change) - effortOf(b.change) || amountOf(a.change) - amountOf(b.change));
  const told = new Set<string>();
  return gains.filter(({ change }) => {
    const key = `${change.code} ${whatOf(change)}`;
    return !told.has(key) && told.add(key);
  });
}

/** From a word of leave to a day's work to a crew with machines. */
const EFFORT: Partial<Record<Change["code"], number>> = { waive: 0, "enter-from-either": 0, "allow-run": 0, "allow-lift": 0, trim: 1, remove: 2, move: 2, "add-receptacle": 3, "add-hookup": 4, lengthen: 4, "widen-left": 4, "widen-right": 4, level: 5 };

function effortOf({ code }: Change): number {
  return EFFORT[code] ?? 5;
}

function keyOf(change: Change): string {
  const way = change.code === "move" ? Math.round(Math.atan2(change.by[1], change.by[0]) * 100) : "";
  return `${change.code} ${whatOf(change)} ${way} ${change.code === "add-receptacle" ? change.amount : ""}`;
}

function whatOf(change: Change): string {
  return "what" in change ? change.what : "";
}

function amountOf(change: Change): number {
  return "amount" in change ? change.amount : 0;
}
