import { cache } from "react";
import { siteSchema, type Site, type SiteInput } from "@/lib/park";
import type { SiteEffectsAsked } from "@/lib/jobs/site-effects";
import { getStayContext, type StayContext } from "@/lib/store/park-settings";
import { getPark, type Park } from "@/lib/store/parks";
import { getSiteAt, listRevisions, type Manager, type Revision, type SiteAt } from "@/lib/store/site-changes";
import { getDraft, type SiteDraft } from "@/lib/store/site-drafts";
import { listSiteRecords } from "@/lib/store/sites";
import { listStaysAhead, type StayAhead } from "@/lib/store/stays-ahead";

/** A change that is looked at before it is saved, beside the site as it is. */
export interface ChangeContext {
  readonly actor: Manager;
  readonly park: Park;
  readonly stays: StayContext;
  readonly draft: SiteDraft;
  /** The site as it is; null where the park never had one of that id. */
  readonly site: SiteAt | null;
  /** Null: not there, out of use, or not to be read. */
  readonly now: Site | null;
  /** Null: to be taken out of use, or not to be read: then there are faults. */
  readonly then: Site | null;
  readonly faults: readonly { readonly path: readonly PropertyKey[]; readonly message: string }[];
  /** Somebody saved the site after the change began. */
  readonly stale: boolean;
}

/** Null where the park has no such draft of this site. */
export const changeContext = cache(async (actor: Manager, siteId: string, draftId: string): Promise<ChangeContext | null> => {
  const [park, stays, draft, site] = await Promise.all([getPark(actor.park), getStayContext(actor.park), getDraft(actor, draftId), getSiteAt(actor, siteId)]);
  if (!park || !stays || draft?.siteId !== siteId) return null;
  const read = draft.record === null ? null : siteSchema.safeParse(draft.record);
  return {
    actor, park, stays, draft, site,
    now: site && !site.retired ? readSite(site.record) : null,
    then: read?.data ?? null,
    faults: read?.error?.issues ?? [],
    stale: draft.base === null ? site !== null && !site.retired : site?.version !== draft.base,
  };
});

/** The records that both of two changes began from, as the site was then, and as it is; null where one cannot be put together with another. */
export interface BothChanges {
  readonly base: SiteInput;
  readonly mine: SiteInput;
  readonly theirs: SiteInput;
}

/** For a stale change of a record, where the site is still in use. */
export async function bothChanges({ actor, draft, site }: ChangeContext): Promise<BothChanges | null> {
  if (draft.record === null || !site || site.retired) return null;
  const base = (await revisionsSince(actor, draft)).find(({ number }) => number === draft.base)?.record;
  const bothAnew = { id: draft.siteId } as SiteInput;
  const records = { base: base ?? bothAnew, mine: draft.record, theirs: site.record };
  return [records.mine, records.theirs].every((record) => readSite(record) !== null) ? records : null;
}

/** What was saved since the change began, the latest first, and last the revision it began from. */
export const revisionsSince = cache(async (actor: Manager, { siteId, base }: SiteDraft): Promise<Revision[]> =>
  (await listRevisions(actor, siteId)).filter(({ number }) => base === null || number >= base));

/** Everything that a change of one site may turn. */
export async function effectsAsked({ actor, park, stays: { today }, draft, now, then }: ChangeContext): Promise<SiteEffectsAsked & { readonly stays: readonly StayAhead[] }> {
  const [stays, records] = await Promise.all([listStaysAhead(actor, park.slug, today), listSiteRecords(park.slug)]);
  const others = records.flatMap((record) => readSite(record) ?? []).filter(({ id }) => id !== draft.siteId);
  return { swaps: [{ siteId: draft.siteId, before: now, after: then }], stays, others };
}

export function readSite(record: unknown): Site | null {
  return siteSchema.safeParse(record).data ?? null;
}
