import type { SiteInput } from "@/lib/park";
import { client } from "./client";
import { inStore } from "./errors";
import type { Prisma } from "./generated/client";
import type { Manager } from "./site-changes";
import { notThere, requireStaff } from "./stays-actor";

/** A site's record as it has been measured so far, not saved yet. */
export interface SurveyDraft {
  readonly id: string;
  /** The version of the site that it began from. */
  readonly base: number | null;
  readonly record: SiteInput;
}

/** What somebody has measured of a site and not saved yet; null where nothing is. For managers. */
export async function getSurveyDraft(actor: Manager, siteId: string): Promise<SurveyDraft | null> {
  requireStaff(actor, actor.park, ["manager"]);
  const row = await inStore(() => client().siteDraft.findFirst({ where: { ...mine(actor), siteId }, orderBy: { at: "desc" } }));
  return row && { id: row.id, base: row.base, record: row.record as unknown as SiteInput };
}

/** The sites that somebody has measured something of and not saved yet. For managers. */
export async function listSurveyDrafts(actor: Manager): Promise<ReadonlyMap<string, string>> {
  requireStaff(actor, actor.park, ["manager"]);
  const rows = await inStore(() => client().siteDraft.findMany({ where: mine(actor), select: { id: true, siteId: true }, orderBy: { at: "asc" } }));
  return new Map(rows.map(({ id, siteId }) => [siteId, id]));
}

/**
 * Goes on with the survey of a site, or begins it from the record as it stands: `apply` makes the next record of the last one. Two
 * phones at one site take turns, on the site's row. Throws `missing` where the park has no such site in use.
 */
export async function goOnWithSurvey<T>(actor: Manager, siteId: string, apply: (record: SiteInput) => { readonly record: SiteInput; readonly told: T }): Promise<{ readonly draft: SurveyDraft; readonly told: T }> {
  requireStaff(actor, actor.park, ["manager"]);
  return inStore(() => client().$transaction(async (tx) => {
    const [site] = await tx.$queryRaw<{ park: string; version: number; record: SiteInput }[]>`
      select site.park_id::text as park, site.version, site.record from site join park on park.id = site.park_id
      where park.slug = ${actor.park} and site.site_id = ${siteId} and site.retired_at is null for no key update of site`;
    if (!site) throw notThere(`site ${siteId}`);
    // Held, so that nobody saves, redoes or drops it under what is added.
    const [open] = await tx.$queryRaw<{ id: string; record: SiteInput }[]>`
      select id::text, record from site_draft where park_id = ${site.park}::uuid and site_id = ${siteId} and cause = 'survey' and by = ${actor.account} order by at desc limit 1 for update`;
    const { record, told } = apply(open ? open.record : site.record);
    const data = { record: record as unknown as Prisma.InputJsonObject, at: new Date() };
    const kept = open
      ? await tx.siteDraft.update({ where: { id: open.id }, data, select: { id: true, base: true } })
      : await tx.siteDraft.create({ data: { ...data, parkId: site.park, siteId, base: site.version, cause: "survey", by: actor.account }, select: { id: true, base: true } });
    return { draft: { id: kept.id, base: kept.base, record }, told };
  }));
}

function mine(actor: Manager): Prisma.SiteDraftWhereInput {
  return { park: { slug: actor.park }, cause: "survey", by: actor.account };
}

