import { asDate, type IsoDate, type Nights } from "@/lib/stays";
import { client } from "./client";
import { inStore } from "./errors";
import { hashToken, makeToken, notThere, requireStaff, type Actor } from "./stays-actor";
import { findSite } from "./stays-open";
import { getStayContext } from "./park-settings";
import { inStayTransaction } from "./stays-transaction";

/** A site's nights as a calendar for others to read. Its address is known to whom it was told when it was issued. */
export interface Feed {
  readonly id: string;
  readonly name: string;
  /** The park's id of the site. */
  readonly site: string;
  /** When it was issued, milliseconds. */
  readonly since: number;
}

/** The park's feeds that were not ended, by site and age; for managers. */
export async function listFeeds(actor: Actor, parkSlug: string): Promise<Feed[]> {
  requireStaff(actor, parkSlug, ["manager"]);
  const rows = await inStore(() => client().calendarFeed.findMany({
    where: { park: { slug: parkSlug }, revokedAt: null },
    orderBy: [{ site: { position: "asc" } }, { createdAt: "asc" }],
    select: { id: true, name: true, createdAt: true, site: { select: { siteId: true } } },
  }));
  return rows.map(({ id, name, createdAt, site }) => ({ id, name, site: site.siteId, since: createdAt.getTime() }));
}

/** A new feed of the site's nights; its token, told once and never stored. */
export async function issueFeed(actor: Actor, parkSlug: string, siteId: string, name: string): Promise<string> {
  requireStaff(actor, parkSlug, ["manager"]);
  return inStayTransaction(actor, parkSlug, undefined, async (at) => {
    const site = await findSite(at, siteId);
    const token = makeToken();
    await at.tx.calendarFeed.create({ data: { parkId: at.park.id, siteId: site.id, name, tokenHash: hashToken(token) } });
    return token;
  });
}

/** From here on nobody reads the feed. One that was ended already stays so. */
export async function revokeFeed(actor: Actor, parkSlug: string, feedId: string): Promise<void> {
  requireStaff(actor, parkSlug, ["manager"]);
  await inStayTransaction(actor, parkSlug, undefined, async ({ tx, park, now }) => {
    const feed = await tx.calendarFeed.findFirst({ where: { id: feedId, parkId: park.id }, select: { revokedAt: true } });
    if (!feed) throw notThere("the feed");
    if (feed.revokedAt === null) await tx.calendarFeed.update({ where: { id: feedId }, data: { revokedAt: new Date(now) } });
  });
}

/** Nights that somebody has, without a word of who. */
export interface FeedNights {
  /** The same for the same stay or closure, whenever it is asked. What came from another calendar keeps the name it had there. */
  readonly uid: string;
  readonly kind: "stay" | "closure";
  readonly nights: Nights;
  /** When the stay or closure was last changed, milliseconds. */
  readonly changed: number;
}

export interface FeedContent {
  readonly parkName: string;
  readonly siteLabel: string;
  readonly nights: readonly FeedNights[];
  /** Nothing of it was changed after this, milliseconds. It may be later than the last change, never earlier. */
  readonly changed: number;
}

/**
 * What a feed shows, or null: unknown, ended, of a site out of use and mistyped are one and the same. Nights that are over are left out, and so are holds: those
 * last for minutes, while others read for hours.
 */
export async function findFeed(token: string): Promise<FeedContent | null> {
  const feed = await inStore(() => client().calendarFeed.findFirst({
    where: { tokenHash: hashToken(token), revokedAt: null, site: { retiredAt: null } },
    select: { createdAt: true, siteId: true, site: { select: { label: true } }, park: { select: { id: true, slug: true, name: true } } },
  }));
  const context = feed && (await getStayContext(feed.park.slug));
  if (!feed || !context) return null;
  const [nights, last] = await Promise.all([readFeedNights(feed.siteId, context.today), readLastChange(feed.park.id)]);
  return { parkName: feed.park.name, siteLabel: feed.site.label, nights, changed: Math.max(feed.createdAt.getTime(), last) };
}

/** How stays and closures of ours are named in feeds, and known again where a calendar that is read in brings them back. */
export const feedUid = (kind: "stay" | "closure", id: string) => `${kind}-${id}@padwright`;

interface FeedRow {
  readonly kind: "stay" | "closure";
  readonly id: string;
  readonly outsideUid: string | null;
  readonly arrive: string;
  readonly depart: string;
  readonly changed: Date;
}

async function readFeedNights(siteRowId: string, today: IsoDate): Promise<FeedNights[]> {
  const rows = await inStore(() => client().$queryRaw<FeedRow[]>`
    select case when o.stay_id is null then 'closure' else 'stay' end as kind, coalesce(o.stay_id, o.closure_id)::text as id, c.calendar_uid as "outsideUid",
           lower(o.nights)::text as arrive, upper(o.nights)::text as depart, coalesce(t.updated_at, c.updated_at) as changed
    from occupancy o left join stay t on t.id = o.stay_id left join closure c on c.id = o.closure_id
    where o.site_id = ${siteRowId}::uuid and upper(o.nights) > ${today}::date
      and t.state is distinct from 'held' and (o.held_until is null or o.held_until > clock_timestamp())
    order by o.nights`);
  const used = new Set<string>();
  return rows.map(({ kind, id, outsideUid, arrive, depart, changed }) => {
    // Two calendars may have brought one name.
    const uid = outsideUid !== null && !used.has(outsideUid) ? outsideUid : feedUid(kind, id);
    used.add(uid);
    return { uid, kind, nights: { arrive: asDate(arrive), depart: asDate(depart) }, changed: changed.getTime() };
  });
}

/** What was cancelled, lifted or moved away is no longer there to say when: the audit is. */
async function readLastChange(parkRowId: string): Promise<number> {
  const [row] = await inStore(() => client().$queryRaw<{ at: Date | null }[]>`select max(at) as at from audit_entry where park_id = ${parkRowId}::uuid and subject in ('stay', 'closure')`);
  return row?.at?.getTime() ?? 0;
}
