import type { SiteInput } from "@/lib/park";
import { client } from "./client";
import { inStore } from "./errors";
import type { Prisma } from "./generated/client";
import type { ChangeCause, Manager, SiteChange } from "./site-changes";
import { notThere, requireStaff } from "./stays-actor";

/** A change of one site that is looked at before it is saved. */
export interface SiteDraft extends SiteChange {
  readonly id: string;
  readonly cause: ChangeCause;
  /** The account that made it. */
  readonly by: string;
  /** Milliseconds. */
  readonly at: number;
}

/** A draft that nobody saved is forgotten after these days. */
const DAYS_KEPT = 30;

/** Keeps a change to be looked at; the draft's id, which leads to its page. What the record holds is asked when it is saved. For managers. */
export async function createDraft(actor: Manager, { siteId, base, record, cause }: SiteChange & { readonly cause: ChangeCause }): Promise<string> {
  requireStaff(actor, actor.park, ["manager"]);
  return inStore(async () => {
    const park = await client().park.findUnique({ where: { slug: actor.park }, select: { id: true } });
    if (!park) throw notThere(`park ${actor.park}`);
    await client().siteDraft.deleteMany({ where: { parkId: park.id, at: { lt: new Date(Date.now() - DAYS_KEPT * 86_400_000) } } });
    const data = { parkId: park.id, siteId, base, cause, by: actor.account, ...(record ? { record: record as unknown as Prisma.InputJsonObject } : {}) };
    return (await client().siteDraft.create({ data, select: { id: true } })).id;
  });
}

/** A draft of the park, for managers; null where there is none of that id, or no more. */
export async function getDraft(actor: Manager, id: string): Promise<SiteDraft | null> {
  requireStaff(actor, actor.park, ["manager"]);
  if (!/^[0-9a-f-]{36}$/i.test(id)) return null;
  const row = await inStore(() => client().siteDraft.findFirst({ where: { id, park: { slug: actor.park } } }));
  return row && { id: row.id, siteId: row.siteId, base: row.base, record: row.record as unknown as SiteInput | null, cause: row.cause as ChangeCause, by: row.by, at: row.at.getTime() };
}

/** Once it is saved or given up. One that is gone already stays so. */
export async function dropDraft(actor: Manager, id: string): Promise<void> {
  requireStaff(actor, actor.park, ["manager"]);
  await inStore(() => client().siteDraft.deleteMany({ where: { id, park: { slug: actor.park } } }));
}
