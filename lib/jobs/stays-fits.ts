import type { ImportPlan, StayPlan } from "@/lib/exchange";
import type { FitResult, Policy } from "@/lib/fit";
import { siteSchema, type Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { getStayContext } from "@/lib/store/park-settings";
import type { Manager } from "@/lib/store/site-changes";
import { listSites } from "@/lib/store/sites";
import { listStaysAhead } from "@/lib/store/stays-ahead";
import { rankInPool, RankingStopped, type PoolOptions } from "./fit-pool";
import { threads } from "./threads";

/** A stay that would be on a site, in a rig. */
export interface StayToFit {
  readonly site: Site;
  readonly rig: Rig;
}

/**
 * How each of some stays stands on its site, its way in included, in their order; undefined where it was not come to within the time limit,
 * null where it cannot be worked out. Stays in the same rig on the same site are worked out once, and answers are kept, so that who asks again goes on from there.
 */
export async function fitStays(stays: readonly StayToFit[], policy: Policy, { timeLimit, signal }: Pick<PoolOptions, "signal"> & { readonly timeLimit: number }): Promise<(FitResult | null | undefined)[]> {
  const pairs = new Map<string, StayToFit & { result?: FitResult | null }>(), rigs = new Map<Rig, number>();
  const keys = stays.map(({ site, rig }) => {
    const number = rigs.get(rig) ?? rigs.size, key = `${number} ${site.id}`;
    rigs.set(rig, number);
    if (!pairs.has(key)) pairs.set(key, { site, rig });
    return key;
  });
  const ends = Date.now() + timeLimit, waiting = [...pairs.values()];
  const hand = async (): Promise<void> => {
    for (let pair = waiting.shift(); pair; pair = waiting.shift()) {
      const left = ends - Date.now();
      if (left <= 0 || signal?.aborted) return;
      try {
        const [result] = await rankInPool([pair.site], pair.rig, policy, { access: true, timeLimit: left, ...(signal ? { signal } : {}) });
        pair.result = result ?? null;
      } catch (error) {
        // One that cannot be worked out keeps no other waiting; where time is up, or too much waits, nothing more is asked.
        if (error instanceof RankingStopped) return;
        pair.result = null;
      }
    }
  };
  await Promise.all(Array.from({ length: 2 * threads().maxThreads }, hand));
  return keys.map((key) => pairs.get(key)!.result);
}

/** A stay that an upload brings onto a site, and the two as they would then be. */
export interface Coming extends StayToFit {
  readonly plan: StayPlan;
}

/** The new stays that name a site, and those of the park that come onto another, with their rigs; sites as the upload would have them. For managers. */
export async function listComing(actor: Manager, { stays, sites }: ImportPlan): Promise<Coming[]> {
  const [context, held] = await Promise.all([getStayContext(actor.park), listSites(actor.park)]), records = new Map(held.map((site) => [site.id, site]));
  for (const { id, after } of sites) {
    const read = siteSchema.safeParse(after);
    if (read.success) records.set(id, read.data);
  }
  const moved = stays.some((one) => one.what === "changed" && one.site !== one.before.site);
  const ahead = moved && context ? await listStaysAhead(actor, actor.park, context.today) : [], rigs = new Map(ahead.map(({ id, rig }) => [id, rig]));
  return stays.flatMap((plan) => {
    const rig = plan.what === "added" ? plan.rig : plan.site !== plan.before.site ? rigs.get(plan.id) : null, site = plan.site === null ? undefined : records.get(plan.site);
    return rig && site ? [{ plan, site, rig }] : [];
  });
}
