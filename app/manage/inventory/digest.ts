import type { ImportPlan, RecordPlan, StayPlan } from "@/lib/exchange";
import { contentKey } from "@/lib/jobs/content-key";

/** The same for two plans exactly where they would do the same to the same. */
export function digestOf({ sites, rigs, park, stays }: ImportPlan): string {
  const told = ({ id, what, before, after }: RecordPlan) => ({ id, what, before, after });
  return contentKey({ sites: sites.map(told), rigs: rigs.map(told), park, stays: withRigsOnce(stays) });
}

/** Thousands of stays come in some dozens of rigs. */
function withRigsOnce(stays: readonly StayPlan[]): unknown {
  const rigs = [...new Set(stays.flatMap((one) => (one.what === "added" ? one.rig : [])))], places = new Map(rigs.map((rig, i) => [rig, i]));
  return { rigs, stays: stays.map((one) => (one.what === "added" ? { ...one, rig: places.get(one.rig) } : one)) };
}
