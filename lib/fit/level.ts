import type { GroundPlane } from "@/lib/park";
import type { RigForm } from "./form";
import type { Policy } from "./policy";
import type { LevelResult, Means } from "./types";

/** The lifts that level the rig on this ground. The rig stands along the pad's line, so the pose does not matter. */
export function levelOf(ground: GroundPlane, form: RigForm, policy: Policy): LevelResult {
  const { gear } = form.rig;
  const side = liftFor(ground.acrossGradient, form.spread.across, policy);
  const along = liftFor(ground.alongGradient, form.spread.along, policy);
  const each = [meansFor(side, gear.liftSide, policy.maxLiftSide), meansFor(along, gear.liftAlong, policy.maxLiftAlong)];
  return { side, along, ok: each.includes("no") ? "no" : each.includes("gear") ? "gear" : "own" };
}

/** The guest's own lift counts in full; lift that is brought counts up to the park's most. */
export function meansFor(lift: number, own: number, most: number): Means {
  return lift <= own ? "own" : lift <= most ? "gear" : "no";
}

function liftFor(gradient: number, spread: number, policy: Policy): number {
  const slope = Math.abs(gradient);
  return slope <= policy.levelWithin / 100 + SLOPE_NOISE ? 0 : slope * spread;
}

/** A slope typed as exactly the tolerance must pass after division by 100: far below what any level can read. */
const SLOPE_NOISE = 1e-12;
