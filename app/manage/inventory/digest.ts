import type { ImportPlan, RecordPlan } from "@/lib/exchange";
import { contentKey } from "@/lib/jobs/content-key";

/** The same for two plans exactly where they would do the same to the same. */
export function digestOf({ sites, rigs, park }: ImportPlan): string {
  const told = ({ id, what, before, after }: RecordPlan) => ({ id, what, before, after });
  return contentKey({ sites: sites.map(told), rigs: rigs.map(told), park });
}
