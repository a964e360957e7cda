import { asDate, freeRuns, overlaps, type IsoDate, type Nights } from "@/lib/stays";
import { feedUid } from "./calendars";
import { oneANight, StoreError } from "./errors";
import type { Prisma } from "./generated/client";
import type { CalendarConflict, CalendarTurn } from "./outside-calendars";
import { hashToken, type Actor } from "./stays-actor";
import { releaseRunOut } from "./stays-nights";
import { dateColumn } from "./stays-record";
import { inStayTransaction, type StayTransaction } from "./stays-transaction";

/** Nights `[starts, ends)` that an event of an outside calendar takes. No two events have one key. */
export interface ClosingEvent {
  readonly key: string;
  readonly starts: IsoDate;
  readonly ends: IsoDate;
}

/**
 * Lets the closures that come from a calendar be those of its events as they were just read: new ones, moved ones, and none for what
 * is no longer there. Nights of a stay are left to it and noted as a conflict; the other nights of the event are closed. One
 * transaction; a reading that another overtook changes nothing.
 */
export async function keepReading({ id, park, name, url, began }: CalendarTurn, events: readonly ClosingEvent[]): Promise<void> {
  for (let attempt = 1; ; attempt++) {
    try {
      return await inStayTransaction(clock, park, name, async (at) => {
        const [calendar] = await at.tx.$queryRaw<{ site: string }[]>`
          select site_id::text as site from outside_calendar
          where id = ${id}::uuid and removed_at is null and (read_at is null or read_at <= ${began}) for update`;
        if (calendar) await close(at, { id, name, url, site: calendar.site }, events);
      });
    } catch (error) {
      // A guest whose hold had run out booked it after all, and has the nights by the next try.
      if (attempt < 3 && error instanceof StoreError && error.constraint === oneANight) continue;
      throw error;
    }
  }
}

const clock: Actor = { kind: "clock" };

/** What a manager is shown of conflicts. */
const mostConflicts = 100;

interface Calendar {
  readonly id: string;
  readonly name: string;
  readonly url: string;
  /** The site's own row. */
  readonly site: string;
}

async function close(at: StayTransaction, calendar: Calendar, events: readonly ClosingEvent[]): Promise<void> {
  const { tx, park, now, today } = at;
  await tx.$queryRaw`select 1 from site where id = ${calendar.site}::uuid for no key update`;
  const echoes = await readEchoes(at, calendar, events);
  const news = events.filter(({ key }) => !echoes.has(key));
  await releaseHolds(at, calendar, news);
  const { wanted, conflicts } = planClosures(news, today, await readOthers(at, calendar));
  const present = await readPresent(at, calendar);
  const kept = new Set(wanted.flatMap((closure) => present.find((row) => isKept(row, closure, today))?.id ?? []));
  const lifted = present.filter(({ id, depart }) => depart > today && !kept.has(id)).map(({ id }) => id);
  if (lifted.length > 0) await tx.closure.updateMany({ where: { id: { in: lifted } }, data: { liftedAt: new Date(now) } });
  const added = wanted.filter((closure) => !present.some((row) => isKept(row, closure, today)));
  // What is over keeps its nights and gives its name up to the same event, which is now another time.
  for (const row of present) if (row.depart <= today && added.some(({ key }) => key === row.key)) await tx.closure.update({ where: { id: row.id }, data: { calendarUid: `${row.key}#over-${row.id}` } });
  await tx.closure.createMany({ data: added.map(({ key, arrive, depart }) => ({ parkId: park.id, siteId: calendar.site, starts: dateColumn(arrive), ends: dateColumn(depart), reason: calendar.name, calendarId: calendar.id, calendarUid: key })) });
  await tx.outsideCalendar.update({ where: { id: calendar.id }, data: { readAt: new Date(now), lastError: null, conflicts: conflicts.slice(0, mostConflicts) as unknown as Prisma.InputJsonArray } });
}

/** Holds on an event's nights that have run out make way for it, as they do for a guest. */
async function releaseHolds(at: StayTransaction, { site }: Calendar, events: readonly ClosingEvent[]): Promise<void> {
  const runOut = await at.tx.$queryRaw<{ arrive: string; depart: string }[]>`
    select lower(nights)::text as arrive, upper(nights)::text as depart from occupancy where site_id = ${site}::uuid and held_until <= clock_timestamp()`;
  const inTheWay = runOut.filter(({ arrive, depart }) => events.some(({ starts, ends }) => starts < depart && arrive < ends));
  for (const { arrive, depart } of inTheWay) await releaseRunOut(at, { site: { id: site, siteId: site }, nights: { arrive: asDate(arrive), depart: asDate(depart) }, own: null, today: at.today });
}

interface Wanted extends Nights {
  readonly key: string;
}

interface Present extends Wanted {
  readonly id: string;
}

interface Other extends Nights {
  /** Null for a closure. */
  readonly stay: { readonly id: string; readonly reference: string } | null;
}

/** The closures that the events come to beside what others have, from today on. Of two events on one night the first has it. */
function planClosures(events: readonly ClosingEvent[], today: IsoDate, others: readonly Other[]): { wanted: Wanted[]; conflicts: CalendarConflict[] } {
  const wanted: Wanted[] = [], conflicts: CalendarConflict[] = [];
  for (const { key, starts, ends } of events) {
    const nights = { arrive: starts < today ? today : starts, depart: ends };
    if (nights.depart <= nights.arrive) continue;
    const stays = others.flatMap((other) => (other.stay && overlaps(other, nights) ? [other.stay] : []));
    if (stays.length > 0) conflicts.push({ nights: { arrive: starts, depart: ends }, stays });
    const near = [...others, ...wanted].filter((other) => overlaps(other, nights));
    freeRuns(nights, near).forEach((run, i) => wanted.push({ key: i === 0 ? key : `${key}#part-${i + 1}`, ...run }));
  }
  return { wanted, conflicts };
}

/** Whether a closure is there as it is wanted. When one under way began no longer matters. */
function isKept(row: Present, { key, arrive, depart }: Wanted, today: IsoDate): boolean {
  return row.key === key && row.depart === depart && (row.arrive === arrive || (arrive === today && row.arrive < today));
}

async function readPresent({ tx }: StayTransaction, { id }: Calendar): Promise<Present[]> {
  const rows = await tx.$queryRaw<{ id: string; key: string; arrive: string; depart: string }[]>`
    select id::text, calendar_uid as key, starts::text as arrive, ends::text as depart from closure where calendar_id = ${id}::uuid and lifted_at is null`;
  return rows.map(({ arrive, depart, ...row }) => ({ ...row, arrive: asDate(arrive), depart: asDate(depart) }));
}

/** Who else has nights of the site from today on. */
async function readOthers({ tx, today }: StayTransaction, { id, site }: Calendar): Promise<Other[]> {
  const rows = await tx.$queryRaw<{ arrive: string; depart: string; stay: string | null; reference: string | null }[]>`
    select lower(o.nights)::text as arrive, upper(o.nights)::text as depart, t.id::text as stay, t.reference
    from occupancy o left join stay t on t.id = o.stay_id left join closure c on c.id = o.closure_id
    where o.site_id = ${site}::uuid and upper(o.nights) > ${today}::date and c.calendar_id is distinct from ${id}::uuid`;
  return rows.map(({ arrive, depart, stay, reference }) => ({ arrive: asDate(arrive), depart: asDate(depart), stay: stay === null ? null : { id: stay, reference: reference ?? "" } }));
}

/**
 * The keys of events that only bring back what this site told others by its own feed. Taken for news, what is cancelled here would be
 * closed by its echo for ever. Where the calendar is a feed of this park, that goes for what other calendars brought to the site as well.
 */
async function readEchoes({ tx, park }: StayTransaction, { id, url, site }: Calendar, events: readonly ClosingEvent[]): Promise<Set<string>> {
  const keys = events.map(({ key }) => key);
  const ids = keys.flatMap((key) => ownUid.exec(key)?.[1] ?? []);
  const own = ids.length === 0 ? [] : await tx.$queryRaw<{ kind: "stay" | "closure"; id: string }[]>`
    select 'stay' as kind, id::text from stay where id::text = any(${ids}) and site_id = ${site}::uuid
    union all select 'closure', id::text from closure where id::text = any(${ids}) and site_id = ${site}::uuid`;
  const token = /\/calendar\/([\w-]{20,100})\.ics$/.exec(new URL(url).pathname)?.[1];
  const isFeed = token !== undefined && (await tx.calendarFeed.count({ where: { parkId: park.id, tokenHash: hashToken(token) } })) > 0;
  const passedOn = isFeed ? await tx.closure.findMany({ where: { siteId: site, calendarUid: { in: keys }, calendarId: { not: id } }, select: { calendarUid: true } }) : [];
  return new Set([...own.map((row) => feedUid(row.kind, row.id)), ...passedOn.flatMap(({ calendarUid }) => calendarUid ?? [])]);
}

const ownUid = /^(?:stay|closure)-([0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12})@padwright$/;
