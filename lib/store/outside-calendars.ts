import type { IsoDate, Nights } from "@/lib/stays";
import { client } from "./client";
import { inStore } from "./errors";
import { notThere, requireStaff, type Actor } from "./stays-actor";
import { findSite } from "./stays-open";
import { dateColumn } from "./stays-record";
import { inStayTransaction } from "./stays-transaction";

/** Nights that somebody has here and an outside calendar has taken as well. */
export interface CalendarConflict {
  readonly nights: Nights;
  /** Whose nights they are. */
  readonly stays: readonly { readonly id: string; readonly reference: string }[];
}

/** Somebody else's calendar of a site, whose events are closures here. Times are milliseconds. */
export interface OutsideCalendar {
  readonly id: string;
  readonly name: string;
  /** The park's id of the site. */
  readonly site: string;
  readonly url: string;
  /** When it was last read as a whole; null where it never was. */
  readonly readAt: number | null;
  readonly nextReadAt: number;
  /** Why the last try came to nothing, as `lib/jobs/calendar-fault.ts` has it; null where it did not. */
  readonly fault: string | null;
  readonly conflicts: readonly CalendarConflict[];
  /** How many nights from today on it closes. */
  readonly closed: number;
}

/** The park's outside calendars, by site and age; for managers. */
export async function listOutsideCalendars(actor: Actor, parkSlug: string, today: IsoDate): Promise<OutsideCalendar[]> {
  requireStaff(actor, parkSlug, ["manager"]);
  const rows = await inStore(() => client().outsideCalendar.findMany({
    where: { park: { slug: parkSlug }, removedAt: null },
    orderBy: [{ site: { position: "asc" } }, { createdAt: "asc" }],
    include: { site: { select: { siteId: true } }, closures: { where: { liftedAt: null, ends: { gt: dateColumn(today) } }, select: { starts: true, ends: true } } },
  }));
  return rows.map(({ id, name, url, site, readAt, nextReadAt, lastError, conflicts, closures }) => ({
    id, name, url, site: site.siteId, readAt: readAt?.getTime() ?? null, nextReadAt: nextReadAt.getTime(), fault: lastError,
    conflicts: conflicts as unknown as CalendarConflict[],
    closed: closures.reduce((sum, { starts, ends }) => sum + (ends.getTime() - Math.max(starts.getTime(), dateColumn(today).getTime())) / 86_400_000, 0),
  }));
}

/** Has an outside calendar read from now on; its id. Whether anything can be had at `url` shows when it is read. */
export async function addOutsideCalendar(actor: Actor, parkSlug: string, siteId: string, { name, url }: { readonly name: string; readonly url: string }): Promise<string> {
  requireStaff(actor, parkSlug, ["manager"]);
  return inStayTransaction(actor, parkSlug, undefined, async (at) => {
    const site = await findSite(at, siteId);
    return (await at.tx.outsideCalendar.create({ data: { parkId: at.park.id, siteId: site.id, name, url }, select: { id: true } })).id;
  });
}

/** It is read no more, and what it closed is open again. */
export async function removeOutsideCalendar(actor: Actor, parkSlug: string, calendarId: string): Promise<void> {
  requireStaff(actor, parkSlug, ["manager"]);
  await inStayTransaction(actor, parkSlug, undefined, async ({ tx, park, now, today }) => {
    const { count } = await tx.outsideCalendar.updateMany({ where: { id: calendarId, parkId: park.id, removedAt: null }, data: { removedAt: new Date(now) } });
    if (count === 0) throw notThere("the calendar");
    await tx.closure.updateMany({ where: { calendarId, liftedAt: null, ends: { gt: dateColumn(today) } }, data: { liftedAt: new Date(now) } });
  });
}

/** An outside calendar that somebody is about to read. */
export interface CalendarTurn {
  readonly id: string;
  readonly park: string;
  readonly name: string;
  readonly url: string;
  /** When the turn was taken, by the database's clock. */
  readonly began: Date;
}

/** How long after one reading, or one try, the next is due: minutes. */
export const minutesBetween = 15;

/** Takes turns at up to `most` calendars that are due. Several processes may ask at once: each calendar is given to one. Those of sites out of use wait. */
export async function takeDueTurns(most: number): Promise<CalendarTurn[]> {
  return inStore(() => client().$queryRaw<CalendarTurn[]>`
    update outside_calendar c set next_read_at = clock_timestamp() + make_interval(mins => ${minutesBetween}::int)
    from park p
    where p.id = c.park_id and c.id in (
      select due.id from outside_calendar due join site s on s.id = due.site_id
      where due.removed_at is null and due.next_read_at <= clock_timestamp() and s.retired_at is null
      order by due.next_read_at limit ${most}::int for update of due skip locked)
    returning c.id::text, p.slug as park, c.name, c.url, clock_timestamp() as began`);
}

/** Takes a turn at one calendar now, due or not; for managers. */
export async function takeTurn(actor: Actor, parkSlug: string, calendarId: string): Promise<CalendarTurn> {
  requireStaff(actor, parkSlug, ["manager"]);
  const [turn] = await inStore(() => client().$queryRaw<CalendarTurn[]>`
    update outside_calendar c set next_read_at = clock_timestamp() + make_interval(mins => ${minutesBetween}::int)
    from park p, site s
    where p.id = c.park_id and p.slug = ${parkSlug} and s.id = c.site_id and s.retired_at is null and c.id = ${calendarId}::uuid and c.removed_at is null
    returning c.id::text, p.slug as park, c.name, c.url, clock_timestamp() as began`);
  if (!turn) throw notThere("the calendar");
  return turn;
}

/** Notes why a turn came to nothing. What the calendar closed before stays as it is. */
export async function keepFault({ id, began }: CalendarTurn, fault: string): Promise<void> {
  await inStore(() => client().outsideCalendar.updateMany({ where: { id, removedAt: null, OR: [{ readAt: null }, { readAt: { lte: began } }] }, data: { lastError: fault } }));
}
