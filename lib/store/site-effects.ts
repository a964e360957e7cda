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
  /** It came to the park since: there was no such site to be judged on. */
  readonly anew: boolean;
  readonly before: unknown;
  readonly after: unknown;
}

/** Of a stay that is for any site that fits: whether some site takes it. */
export type Taken = "some" | "none";

/** A stay that no longer fits because a site changed, or begins to; one that was read in and does not fit has one verdict on both sides. */
export interface StayTold {
  readonly stay: string;
  readonly was: Verdict | Taken;
  readonly now: Verdict | Taken;
  /** Codes of the reasons. */
  readonly reasons: readonly string[];
}

/** A stay that no longer fits because a site changed, or begins to, for the desk. */
export interface OpenEffect {
  readonly id: string;
  readonly stay: string;
  readonly reference: string;
  readonly guest: string | null;
  readonly nights: Nights;
  /** The site that changed: its own; of one for any site, the one that took it and does no longer, or takes it now. */
  readonly site: string;
  readonly label: string;
  readonly rig: unknown;
  /** `read-in`: it was read in from a table onto a site that it does not fit, which never changed. */
  readonly turn: "shut" | "opened" | "read-in";
  /** When the site was changed, milliseconds, by whom, and why; of one that was read in, when that was found. */
  readonly at: number;
  readonly by: string | null;
  readonly why: string | null;
  /** On its own site; null for any that fits. */
  readonly verdicts: { readonly was: Verdict; readonly now: Verdict } | null;
}

/**
 * What a site that came to the park has for the revision its stays were last judged on, until they are: far below what counting down for
 * stays that are read in comes to.
 */
export const ANEW = -1_000_000;

/** Up to `most` sites of which it is still to be told what their changes mean, those changed first first. */
export async function listSitesToWeigh(most: number): Promise<SiteToWeigh[]> {
  return inStore(() => client().$queryRaw<SiteToWeigh[]>`
    select p.slug as park, s.site_id as "siteId", s.weighed_version as "from", s.version as "to", s.weighed_version <= ${ANEW}::int as anew, was.record as before, case when s.retired_at is null then s.record end as after
    from site s join park p on p.id = s.park_id left join site_revision was on was.site_id = s.id and was.number = s.weighed_version
    where s.weighed_version < s.version order by s.updated_at limit ${most}::int`);
}

/** The records of the park's other sites as the stays were last judged on them, those that changed since included; not of these sites. */
export async function listToldRecords(park: string, without: readonly string[]): Promise<unknown[]> {
  const rows = await inStore(() => client().$queryRaw<{ record: unknown }[]>`
    select case when was.id is not null then was.record when s.retired_at is null then s.record end as record
    from site s left join site_revision was on was.site_id = s.id and was.number = s.weighed_version
    where s.park_id = (select id from park where slug = ${park}) and s.weighed_version > ${ANEW}::int and s.site_id <> all(${[...without]})`);
  return rows.flatMap(({ record }) => (record === null ? [] : [record]));
}

/**
 * Keeps what the changes of a site from one revision to another mean, for the desk to see: the stays that no longer fit, and those that begin to.
 * What was told of them before is over, and so it is for the ones of `over`. Once, however many processes worked it out; none of it where
 * it was all told meanwhile.
 */
export async function keepSiteEffects({ park: slug, siteId, from, to }: SiteToWeigh, told: readonly StayTold[], over: readonly string[]): Promise<void> {
  await inStayTransaction({ kind: "clock" }, slug, undefined, async ({ tx, park, now }) => {
    const [site] = await tx.$queryRaw<{ id: string }[]>`
      select id::text from site where park_id = ${park.id}::uuid and site_id = ${siteId} and weighed_version = ${from}::int and version >= ${to}::int for no key update`;
    if (!site) return;
    await tx.siteChangeEffect.createMany({
      data: told.map(({ stay, was, now: is, reasons }) => ({ parkId: park.id, siteId: site.id, stayId: stay, number: to, was, now: is, reasons: [...reasons] as Prisma.InputJsonArray })),
      skipDuplicates: true,
    });
    const settled = [...new Set([...told.map(({ stay }) => stay), ...over])];
    await tx.siteChangeEffect.updateMany({ where: { stayId: { in: settled }, seenAt: null, NOT: { siteId: site.id, number: to } }, data: { seenAt: new Date(now) } });
  });
}

/** The stays of which the desk was told before that they do not fit that site, whether or not somebody has seen it. */
export async function listToldStays({ park, siteId }: Pick<SiteToWeigh, "park" | "siteId">): Promise<Set<string>> {
  const rows = await inStore(() => client().siteChangeEffect.findMany({ where: { site: { siteId, park: { slug: park } }, now: { notIn: ["fits", "gear", "some", "none"] } }, select: { stayId: true } }));
  return new Set(rows.map(({ stayId }) => stayId));
}

/** Of these sites all is told; where one changed again meanwhile, that is told next. */
export async function keepWeighed(park: string, sites: readonly SiteToWeigh[]): Promise<void> {
  await inStore(() => client().$executeRaw`
    update site s set weighed_version = w."to" from jsonb_to_recordset(${JSON.stringify(sites.map(({ siteId, from, to }) => ({ siteId, from, to })))}::jsonb) as w("siteId" text, "from" int, "to" int)
    where s.park_id = (select id from park where slug = ${park}) and s.site_id = w."siteId" and s.weighed_version = w."from" and s.version >= w."to"`);
}

/** The stays that no longer fit because a site changed, or begin to, and that nobody has moved, canceled or ticked off, first arrival first; of one stay if one is named. For staff. */
export async function listOpenEffects(actor: Actor, parkSlug: string, stayId?: string): Promise<OpenEffect[]> {
  requireStaff(actor, parkSlug);
  const rows = await inStore(() => client().$queryRaw<(Omit<OpenEffect, "nights" | "at" | "verdicts"> & { arrive: string; depart: string; at: Date; was: string; now: string; anywhere: boolean })[]>`
    select distinct on (t.arrive, t.reference, t.id) e.id::text, t.id::text as stay, t.reference, t.guest_name as guest, t.arrive::text, t.depart::text, s.site_id as site, s.label, t.rig,
           case when e.was = e.now then 'read-in' when e.now in ('fits', 'gear', 'some') then 'opened' else 'shut' end as turn, t.site_id is null as anywhere, coalesce(r.at, e.created_at) as at, r.actor as by, r.why, e.was, e.now
    from site_change_effect e join stay t on t.id = e.stay_id join site s on s.id = e.site_id
    left join site_revision r on r.site_id = e.site_id and r.number = e.number and e.was <> e.now
    where e.park_id = (select id from park where slug = ${parkSlug}) and e.seen_at is null
      and case when e.was in ('some', 'none') then t.site_id is null else t.site_id = e.site_id end
      and (${stayId ?? null}::uuid is null or t.id = ${stayId ?? null}::uuid)
      and (t.state in ('booked', 'arrived') or (t.state = 'requested' and (t.held_until is null or t.held_until > statement_timestamp())))
      and t.depart > (statement_timestamp() at time zone coalesce((select stay_settings ->> 'zone' from park where slug = ${parkSlug}), 'UTC'))::date
    order by t.arrive, t.reference, t.id, e.created_at desc`);
  return rows.map(({ arrive, depart, at, was, now, anywhere, ...rest }) => ({ ...rest, nights: { arrive, depart } as Nights, at: at.getTime(), verdicts: anywhere ? null : { was: was as Verdict, now: now as Verdict } }));
}

/** Somebody of the staff has seen it: it is off the desk's list, with any told before of the same stay. */
export async function settleEffect(actor: Actor, parkSlug: string, effectId: string): Promise<void> {
  requireStaff(actor, parkSlug);
  await inStayTransaction(actor, parkSlug, undefined, async ({ tx, park, now }) => {
    const effect = await tx.siteChangeEffect.findFirst({ where: { id: effectId, parkId: park.id }, select: { stayId: true } });
    if (!effect) throw notThere("what was to be seen");
    await tx.siteChangeEffect.updateMany({ where: { ...effect, seenAt: null }, data: { seenAt: new Date(now), seenBy: actor.kind === "desk" || actor.kind === "manager" ? actor.account : null } });
  });
}
