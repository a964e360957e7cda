import type { Verdict } from "@/lib/fit";
import type { Nights } from "@/lib/stays";
import { client } from "./client";
import { inStore } from "./errors";
import type { Prisma } from "./generated/client";
import { notThere, requireStaff, type Actor } from "./stays-actor";
import { inStayTransaction } from "./stays-transaction";

/** A site whose changes the stays ahead were not judged on yet. */
export interface SiteToWeigh {
  readonly park: string;
  readonly siteId: string;
  /** The revision they were last judged on, below 1 where stays were read in onto it and nobody judged them, and the one there is now, with their records as kept; null: out of use. */
  readonly from: number;
  readonly to: number;
  readonly before: unknown;
  readonly after: unknown;
}

/** A stay that a change of its site put off it; one that was read in and does not fit has one verdict on both sides. */
export interface StayShut {
  readonly stay: string;
  readonly was: Verdict;
  readonly now: Verdict;
  /** Codes of the reasons. */
  readonly reasons: readonly string[];
}

/** A stay that no longer fits because its site changed, for the desk. */
export interface OpenEffect {
  readonly id: string;
  readonly stay: string;
  readonly reference: string;
  readonly guest: string | null;
  readonly nights: Nights;
  readonly site: string;
  readonly label: string;
  readonly rig: unknown;
  /** It was read in from a table onto a site that it does not fit, which never changed. */
  readonly readIn: boolean;
  /** When the site was changed, milliseconds, by whom, and why; of one that was read in, when that was found. */
  readonly at: number;
  readonly by: string | null;
  readonly why: string | null;
  readonly was: Verdict;
  readonly now: Verdict;
}

/** Up to `most` sites of which it is still to be told what their changes mean, those changed first first. */
export async function listSitesToWeigh(most: number): Promise<SiteToWeigh[]> {
  return inStore(() => client().$queryRaw<SiteToWeigh[]>`
    select p.slug as park, s.site_id as "siteId", s.weighed_version as "from", s.version as "to", was.record as before, case when s.retired_at is null then s.record end as after
    from site s join park p on p.id = s.park_id left join site_revision was on was.site_id = s.id and was.number = s.weighed_version
    where s.weighed_version < s.version order by s.updated_at limit ${most}::int`);
}

/**
 * Keeps what the changes of a site from one revision to another mean: the stays that no longer fit, for the desk to see, and of those told
 * before, the ones that fit again. Once, however many processes worked it out; where the site changed again meanwhile, that is told next.
 */
export async function keepSiteEffects({ park: slug, siteId, from, to }: SiteToWeigh, shut: readonly StayShut[], fitting: readonly string[]): Promise<void> {
  await inStayTransaction({ kind: "clock" }, slug, undefined, async ({ tx, park, now }) => {
    const [site] = await tx.$queryRaw<{ id: string }[]>`
      update site set weighed_version = ${to}::int where park_id = ${park.id}::uuid and site_id = ${siteId} and weighed_version = ${from}::int and version >= ${to}::int returning id::text`;
    if (!site) return;
    await tx.siteChangeEffect.createMany({
      data: shut.map(({ stay, was, now: is, reasons }) => ({ parkId: park.id, siteId: site.id, stayId: stay, number: to, was, now: is, reasons: [...reasons] as Prisma.InputJsonArray })),
      skipDuplicates: true,
    });
    await tx.siteChangeEffect.updateMany({ where: { siteId: site.id, stayId: { in: [...fitting] }, seenAt: null, number: { lt: to } }, data: { seenAt: new Date(now) } });
  });
}

/** The stays of which the desk was told on that site before, whether or not somebody has seen it. */
export async function listToldStays({ park, siteId }: Pick<SiteToWeigh, "park" | "siteId">): Promise<Set<string>> {
  const rows = await inStore(() => client().siteChangeEffect.findMany({ where: { site: { siteId, park: { slug: park } } }, select: { stayId: true } }));
  return new Set(rows.map(({ stayId }) => stayId));
}

/** Of these sites there is nothing to tell: no stay is ahead on them. */
export async function keepNoEffects(park: string, sites: readonly SiteToWeigh[]): Promise<void> {
  await inStore(() => client().$executeRaw`
    update site s set weighed_version = w."to" from jsonb_to_recordset(${JSON.stringify(sites.map(({ siteId, from, to }) => ({ siteId, from, to })))}::jsonb) as w("siteId" text, "from" int, "to" int)
    where s.park_id = (select id from park where slug = ${park}) and s.site_id = w."siteId" and s.weighed_version = w."from" and s.version >= w."to"`);
}

/** The stays that no longer fit because their site changed and that nobody has moved, canceled or ticked off, first arrival first; of one stay if one is named. For staff. */
export async function listOpenEffects(actor: Actor, parkSlug: string, stayId?: string): Promise<OpenEffect[]> {
  requireStaff(actor, parkSlug);
  const rows = await inStore(() => client().$queryRaw<(Omit<OpenEffect, "nights" | "at"> & { arrive: string; depart: string; at: Date })[]>`
    select distinct on (t.arrive, t.reference, t.id) e.id::text, t.id::text as stay, t.reference, t.guest_name as guest, t.arrive::text, t.depart::text, s.site_id as site, s.label, t.rig,
           e.was = e.now as "readIn", coalesce(r.at, e.created_at) as at, r.actor as by, r.why, e.was, e.now
    from site_change_effect e join stay t on t.id = e.stay_id join site s on s.id = e.site_id
    left join site_revision r on r.site_id = e.site_id and r.number = e.number and e.was <> e.now
    where e.park_id = (select id from park where slug = ${parkSlug}) and e.seen_at is null and t.site_id = e.site_id
      and (${stayId ?? null}::uuid is null or t.id = ${stayId ?? null}::uuid)
      and (t.state in ('booked', 'arrived') or (t.state = 'requested' and (t.held_until is null or t.held_until > statement_timestamp())))
      and t.depart > (statement_timestamp() at time zone coalesce((select stay_settings ->> 'zone' from park where slug = ${parkSlug}), 'UTC'))::date
    order by t.arrive, t.reference, t.id, e.number desc`);
  return rows.map(({ arrive, depart, at, ...rest }) => ({ ...rest, nights: { arrive, depart } as Nights, at: at.getTime() }));
}

/** Somebody of the staff has seen it: it is off the desk's list, with any told before of the same stay on the same site. */
export async function settleEffect(actor: Actor, parkSlug: string, effectId: string): Promise<void> {
  requireStaff(actor, parkSlug);
  await inStayTransaction(actor, parkSlug, undefined, async ({ tx, park, now }) => {
    const effect = await tx.siteChangeEffect.findFirst({ where: { id: effectId, parkId: park.id }, select: { stayId: true, siteId: true } });
    if (!effect) throw notThere("what was to be seen");
    await tx.siteChangeEffect.updateMany({ where: { ...effect, seenAt: null }, data: { seenAt: new Date(now), seenBy: actor.kind === "desk" || actor.kind === "manager" ? actor.account : null } });
  });
}
