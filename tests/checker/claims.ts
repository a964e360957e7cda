import type { Rig } from "@/lib/rig/schema";
import type { FitResult } from "@/lib/fit/types";

/** Two ways of computing the same millimetres differ by rounding only. */
export const ROUNDING = 1e-6;
/** The most that lies between what some pose has and what no pose exceeds, mm. */
export const GAP = 5;

export function near(a: number, b: number, scale = 1): boolean {
  return Math.abs(a - b) <= ROUNDING * Math.max(1, Math.abs(a), Math.abs(b), scale);
}

/** Ids of the nice parts that are out at the pose. */
export function keptNice(rig: Rig, result: FitResult): string[] {
  return rig.parts.filter((p) => p.need === "nice" && !result.leftIn.includes(p.id)).map((p) => p.id);
}
