import { client } from "./client";
import { inStore, StoreError } from "./errors";
import { Prisma } from "./generated/client";
import { changeSitesWithin, PATIENCE, requireSound, type ChangeCause, type Manager, type SiteChange } from "./site-changes";
import { notThere, requireStaff } from "./stays-actor";
import { inStayTransaction } from "./stays-transaction";

/** A change of one site that is looked at before it is saved. */
export interface SiteDraft extends SiteChange {
  readonly id: string;
  readonly cause: ChangeCause;
  /** The account that made it. */
  readonly by: string;
  /** Milliseconds. */
  readonly at: number;
  /** Of what it holds: another as soon as a survey goes on in it. */
  readonly digest: string;
}

/** The draft holds something else than when it was read: a survey has gone on in it. Nothing was done. */
export class DraftMovedOn extends StoreError {
  constructor(id: string) {
    super("stale", `the draft ${id} was gone on with since it was read`, null);
  }
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
  const [row] = await inStore(() => client().$queryRaw<(Omit<SiteDraft, "at"> & { readonly at: Date })[]>`
    select id::text, site_id as "siteId", base, record, cause, by, at, ${digest} as digest from site_draft where id = ${id}::uuid and park_id = ${parkOf(actor)}`);
  return row ? { ...row, at: row.at.getTime() } : null;
}

/**
 * Saves what the draft holds and forgets it, both or neither, so that nothing measured meanwhile is forgotten with it; the version the site then
 * is at. Throws what `changeSites` does, and {@link DraftMovedOn} where the draft is not as it was read any more.
 */
export async function saveDraft(actor: Manager, draft: SiteDraft, why: string): Promise<number> {
  requireStaff(actor, actor.park, ["manager"]);
  requireSound([draft]);
  return inStayTransaction(actor, actor.park, why.trim() === "" ? undefined : why.trim(), async (at) => {
    // It holds the site's row, where a survey takes its turn as well.
    const versions = await changeSitesWithin(at, [draft], draft.cause);
    if ((await at.tx.$executeRaw`delete from site_draft where ${asRead(actor, draft)}`) === 0) throw new DraftMovedOn(draft.id);
    return versions.get(draft.siteId)!;
  }, PATIENCE);
}

/** The draft with another record from another version on, as after it was put together with what others saved. Throws {@link DraftMovedOn}. */
export async function redoDraft(actor: Manager, draft: SiteDraft, { base, record }: Pick<SiteChange, "base" | "record">): Promise<void> {
  requireStaff(actor, actor.park, ["manager"]);
  const kept = record && JSON.stringify(record);
  if ((await inStore(() => client().$executeRaw`update site_draft set base = ${base}, record = ${kept}::jsonb, at = clock_timestamp() where ${asRead(actor, draft)}`)) === 0) throw new DraftMovedOn(draft.id);
}

/** Gives a draft up. One that is gone already stays so. Throws {@link DraftMovedOn}. */
export async function dropDraft(actor: Manager, draft: SiteDraft): Promise<void> {
  requireStaff(actor, actor.park, ["manager"]);
  const dropped = await inStore(() => client().$executeRaw`delete from site_draft where ${asRead(actor, draft)}`);
  if (dropped === 0 && (await getDraft(actor, draft.id))) throw new DraftMovedOn(draft.id);
}

/** What a draft's row holds has one text, whatever way it was written; its time is too coarse to tell two changes apart. */
const digest = Prisma.sql`encode(sha256(convert_to(coalesce(base::text, '') || ' ' || coalesce(record::text, ''), 'UTF8')), 'hex')`;

function asRead(actor: Manager, { id, digest: read }: SiteDraft): Prisma.Sql {
  return Prisma.sql`id = ${id}::uuid and park_id = ${parkOf(actor)} and ${digest} = ${read}`;
}

function parkOf(actor: Manager): Prisma.Sql {
  return Prisma.sql`(select id from park where slug = ${actor.park})`;
}
