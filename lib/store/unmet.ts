import { createHash } from "node:crypto";
import { rigSchema, type Rig } from "@/lib/rig";
import { wantedSchema, type Guest, type IsoDate, type Nights, type Wanted } from "@/lib/stays";
import { client } from "./client";
import { inStore, StoreError } from "./errors";
import type { Prisma } from "./generated/client";
import { nameOf, notThere, requireStaff, type Actor } from "./stays-actor";
import { dateColumn, readDateColumn } from "./stays-record";
import { inStayTransaction, type StayTransaction } from "./stays-transaction";

/** What was looked for, and that nothing was found. */
export interface UnmetAsk {
  readonly nights: Nights;
  readonly rig: Rig;
  readonly wanted: Wanted;
  readonly reasons: UnmetReasons;
}

/** Why nothing was found, counted over the sites that were looked at. */
export interface UnmetReasons {
  /** By the code of a reason, how many sites it turned the rig away from. A site that several speak against counts for each. */
  readonly turnedAway: Readonly<Record<string, number>>;
  /** How many sites fit but were taken. */
  readonly taken: number;
}

/** A request that found nothing, as it is kept. Times are milliseconds from 1970-01-01T00:00Z. */
export interface Unmet extends UnmetAsk {
  readonly id: string;
  /** The day in the park on which it was asked. */
  readonly askedOn: IsoDate;
  /** How often it was asked on that day. */
  readonly times: number;
  /** Who wants to be told; null where nobody left word. */
  readonly guest: Omit<Guest, "plate"> | null;
  readonly note: string;
  readonly answeredAt: number | null;
  readonly answeredBy: string | null;
  readonly createdAt: number;
}

/**
 * Keeps a request that found nothing, without anybody's name. The same rig, nights and wishes on the same day are the same
 * one, counted. Beyond {@link mostADay} new ones on a day none is kept: whether it was, is answered.
 */
export async function recordUnmet(actor: Actor, parkSlug: string, ask: UnmetAsk): Promise<boolean> {
  return inStayTransaction(actor, parkSlug, undefined, async (at) => {
    const fingerprint = fingerprintOf(ask);
    await takeTurn(at, fingerprint);
    const { count } = await at.tx.unmetRequest.updateMany({ where: { parkId: at.park.id, askedOn: dateColumn(at.today), fingerprint }, data: { times: { increment: 1 }, reasons: reasonsColumn(ask) } });
    if (count > 0) return true;
    if (await isFull(at)) return false;
    await at.tx.unmetRequest.create({ data: { ...columnsOf(at, ask), fingerprint } });
    return true;
  });
}

/**
 * Lets a guest who found nothing leave word, to be told when something comes free. It becomes part of the request kept without
 * a name, where there is one; another guest's of the same day, rig and nights is one of its own. Word left again replaces the first.
 */
export async function leaveWord(actor: Actor, parkSlug: string, ask: UnmetAsk, guest: Guest, note = ""): Promise<string> {
  return inStayTransaction(actor, parkSlug, undefined, async (at) => {
    const [plain, named] = [fingerprintOf(ask), fingerprintOf(ask, guest)];
    await takeTurn(at, plain);
    const contact = { guestName: guest.name, guestEmail: guest.email ?? null, guestPhone: guest.phone ?? null, note };
    const today = await at.tx.unmetRequest.findMany({ where: { parkId: at.park.id, askedOn: dateColumn(at.today), fingerprint: { in: [plain, named] } }, select: { id: true, fingerprint: true, guestName: true, guestEmail: true, guestPhone: true } });
    const isTheirs = (row: (typeof today)[number]) => row.guestName === null || (row.guestName === contact.guestName && row.guestEmail === contact.guestEmail && row.guestPhone === contact.guestPhone);
    const mine = today.find(({ fingerprint }) => fingerprint === named) ?? today.find(isTheirs);
    if (!mine && (await isFull(at))) throw new StoreError("busy", `more than ${mostADay} requests were kept today`, null);
    const saved = mine
      ? await at.tx.unmetRequest.update({ where: { id: mine.id }, data: contact })
      : await at.tx.unmetRequest.create({ data: { ...columnsOf(at, ask), ...contact, fingerprint: today.length > 0 ? named : plain } });
    return saved.id;
  });
}

export interface UnmetFilter {
  /** Only those that somebody left word with. */
  readonly withWord?: boolean;
  /** Only those that nobody has answered. */
  readonly open?: boolean;
  /** Only those asked on this day or later. */
  readonly since?: IsoDate;
  /** At most so many, 500 where left out. */
  readonly most?: number;
}

/** The park's requests that found nothing, the newest first. For managers and the desk. */
export async function listUnmet(actor: Actor, parkSlug: string, { withWord, open, since, most = 500 }: UnmetFilter = {}): Promise<Unmet[]> {
  requireStaff(actor, parkSlug);
  const rows = await inStore(() => client().unmetRequest.findMany({
    where: {
      park: { slug: parkSlug },
      ...(withWord ? { guestName: { not: null } } : {}),
      ...(open ? { answeredAt: null } : {}),
      ...(since ? { askedOn: { gte: dateColumn(since) } } : {}),
    },
    orderBy: [{ createdAt: "desc" }, { id: "asc" }],
    take: most,
  }));
  return rows.map(toUnmet);
}

/** Why each request that was asked on `since` or later found nothing, the newest first, at most `most`: for counting. For managers and the desk. */
export async function listUnmetReasons(actor: Actor, parkSlug: string, since: IsoDate, most = 20_000): Promise<{ readonly reasons: UnmetReasons; readonly times: number }[]> {
  requireStaff(actor, parkSlug);
  const rows = await inStore(() => client().unmetRequest.findMany({ where: { park: { slug: parkSlug }, askedOn: { gte: dateColumn(since) } }, orderBy: [{ createdAt: "desc" }, { id: "asc" }], take: most, select: { reasons: true, times: true } }));
  return rows.map(({ reasons, times }) => ({ reasons: reasons as unknown as UnmetReasons, times }));
}

/** Notes that a guest who left word was answered, and by whom. One that was answered already stays as it is. */
export async function answerUnmet(actor: Actor, parkSlug: string, id: string): Promise<void> {
  requireStaff(actor, parkSlug);
  await inStayTransaction(actor, parkSlug, undefined, async ({ tx, park, now }) => {
    const row = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/.test(id) ? await tx.unmetRequest.findFirst({ where: { id, parkId: park.id }, select: { answeredAt: true } }) : null;
    if (!row) throw notThere("the request");
    if (row.answeredAt === null) await tx.unmetRequest.update({ where: { id }, data: { answeredAt: new Date(now), answeredBy: nameOf(actor) } });
  });
}

/** Anybody may ask for anything: a park's memory of a day is bounded. */
const mostADay = 2000;

async function isFull({ tx, park, today }: StayTransaction): Promise<boolean> {
  return (await tx.unmetRequest.count({ where: { parkId: park.id, askedOn: dateColumn(today) } })) >= mostADay;
}

/** The same request sent twice at once is one after the other. */
async function takeTurn({ tx, park }: StayTransaction, fingerprint: string): Promise<void> {
  await tx.$queryRaw`select 1 from pg_advisory_xact_lock(hashtextextended(${`unmet ${park.id} ${fingerprint}`}, 0))`;
}

/** Records come out of their schemas, which write the fields in one order: the same record is the same text. */
function fingerprintOf({ nights: { arrive, depart }, rig, wanted }: UnmetAsk, guest?: Guest): string {
  const said = [arrive, depart, rig, wanted.loop ?? null, [...wanted.services].sort(), ...(guest ? [guest.name, guest.email ?? null, guest.phone ?? null] : [])];
  return createHash("sha256").update(JSON.stringify(said)).digest("hex");
}

function columnsOf({ park, today }: StayTransaction, ask: UnmetAsk) {
  return {
    parkId: park.id,
    askedOn: dateColumn(today),
    arrive: dateColumn(ask.nights.arrive),
    depart: dateColumn(ask.nights.depart),
    rig: ask.rig as unknown as Prisma.InputJsonObject,
    wanted: ask.wanted as unknown as Prisma.InputJsonObject,
    reasons: reasonsColumn(ask),
  };
}

function reasonsColumn({ reasons }: UnmetAsk): Prisma.InputJsonObject {
  return { taken: reasons.taken, turnedAway: { ...reasons.turnedAway } };
}

function toUnmet(row: Prisma.UnmetRequestGetPayload<object>): Unmet {
  return {
    id: row.id,
    askedOn: readDateColumn(row.askedOn),
    nights: { arrive: readDateColumn(row.arrive), depart: readDateColumn(row.depart) },
    rig: rigSchema.parse(row.rig),
    wanted: wantedSchema.parse(row.wanted),
    reasons: row.reasons as unknown as UnmetReasons,
    times: row.times,
    guest: row.guestName === null ? null : { name: row.guestName, email: row.guestEmail ?? undefined, phone: row.guestPhone ?? undefined },
    note: row.note,
    answeredAt: row.answeredAt?.getTime() ?? null,
    answeredBy: row.answeredBy,
    createdAt: row.createdAt.getTime(),
  };
}
