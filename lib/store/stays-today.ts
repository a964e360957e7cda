import type { AcceptedQuote, IsoDate, Minor } from "@/lib/stays";
import { client } from "./client";
import { inStore } from "./errors";
import { Prisma } from "./generated/client";
import { requireStaff, type Actor } from "./stays-actor";
import { depositDue } from "./stays-money";
import { readBoardStays, toBoardStay, type BoardStay } from "./stays-board";

/** A stay as the lists of a day show it. */
export interface TodayStay extends BoardStay {
  readonly phone: string | null;
  /** What they have borrowed and not brought back. */
  readonly lent: readonly string[];
  readonly note: string;
  /** Of the deposit that was agreed, what is not paid: minor units. */
  readonly depositDue: Minor;
  readonly currency: string | null;
}

/** Every stay that may stand in one of a day's lists, for staff: there, to come, waiting or gone that day. */
export async function listToday(actor: Actor, parkSlug: string, day: IsoDate): Promise<TodayStay[]> {
  requireStaff(actor, parkSlug);
  return inStore(async () => {
    const rows = await readBoardStays(parkSlug, Prisma.sql`(
      (t.state = 'arrived' and t.arrive <= ${day}::date)
      or (t.state = 'booked' and t.arrive <= ${day}::date)
      or (t.state = 'departed' and coalesce(t.freed_from, t.depart) = ${day}::date)
      or (t.state = 'booked' and t.site_id is null and t.depart > ${day}::date)
      or (t.state = 'requested' and t.depart > ${day}::date and (t.held_until is null or t.held_until > statement_timestamp()))
      or (t.state = 'held' and t.held_until > statement_timestamp()))`);
    const more = await readMore(rows.map(({ id }) => id));
    return rows.map((row) => ({ ...toBoardStay(row), ...(more.get(row.id) ?? { phone: null, lent: [], note: "", depositDue: 0, currency: null }) }));
  });
}

async function readMore(ids: readonly string[]): Promise<Map<string, Omit<TodayStay, keyof BoardStay>>> {
  const rows = await client().stay.findMany({
    where: { id: { in: [...ids] } },
    select: { id: true, guestPhone: true, note: true, loans: { where: { returnedAt: null }, select: { name: true, count: true } }, quotes: { select: { record: true } }, payments: { select: { amount: true } } },
  });
  return new Map(rows.map(({ id, guestPhone, note, loans, quotes, payments }) => {
    const agreed = quotes.map(({ record }) => record as unknown as AcceptedQuote);
    const paid = payments.reduce((sum, { amount }) => sum + Number(amount), 0);
    const lent = loans.map(({ name, count }) => (count === 1 ? name : `${count} × ${name}`));
    return [id, { phone: guestPhone, note, lent, depositDue: depositDue(agreed, paid), currency: agreed[0]?.currency ?? null }];
  }));
}

/** Stays of a name, plate, site, reference or phone, the nearest nights first; at most `most`. */
export async function findStays(actor: Actor, parkSlug: string, text: string, today: IsoDate, most = 50): Promise<BoardStay[]> {
  requireStaff(actor, parkSlug);
  const words = text.trim().toLowerCase().split(/\s+/).filter(Boolean).slice(0, 6);
  if (words.length === 0) return [];
  const digits = text.replace(/\D/g, "");
  const conditions = words.map((word) => {
    const like = `%${word.replace(/[%_\\]/g, (sign) => `\\${sign}`)}%`;
    return Prisma.sql`(lower(coalesce(t.guest_name, '')) like ${like} or lower(coalesce(t.plate, '')) like ${like} or lower(t.reference) like ${like} or lower(coalesce(s.label, '')) like ${like} or lower(coalesce(s.site_id, '')) = ${word} or lower(coalesce(t.guest_email, '')) like ${like})`;
  });
  const phone = digits.length >= 4 ? Prisma.sql` or regexp_replace(coalesce(t.guest_phone, ''), '[^0-9]', '', 'g') like ${`%${digits}%`}` : Prisma.empty;
  const rows = await inStore(() => readBoardStays(parkSlug, Prisma.sql`((${Prisma.join(conditions, " and ")})${phone})`));
  const away = ({ arrive, depart }: { arrive: string; depart: string }) => (arrive <= today && depart >= today ? 0 : arrive > today ? Date.parse(arrive) - Date.parse(today) : Date.parse(today) - Date.parse(depart));
  return rows.sort((a, b) => away(a) - away(b)).slice(0, most).map(toBoardStay);
}
