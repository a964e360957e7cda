import { randomInt } from "node:crypto";
import { judgeOpening, mailOfMove, type FitOverride, type Minor, type StayRequest, type StaySettings, type StayState } from "@/lib/stays";
import { StayRefused } from "./errors";
import type { Prisma } from "./generated/client";
import { queueMail } from "./mail";
import { notThere, type Actor } from "./stays-actor";
import { addLink } from "./stays-links";
import { keepQuote, offerFor } from "./stays-money";
import { inClaimingTransaction, type MakeWay, type SiteRow } from "./stays-nights";
import { findKey, settleKey, takeKey } from "./stays-once";
import { dateColumn, guestColumns, insertStay, overrideColumn, readStay, type Stay } from "./stays-record";
import { inStayTransaction, type StayTransaction } from "./stays-transaction";

export interface Opening {
  readonly request: StayRequest;
  /** The total the guest agreed to, minor units. Asked of guests where the park has rates, except for a hold. */
  readonly accepts?: Minor;
  /** Sent again with the same key, the same makes no second stay. */
  readonly key?: string;
  /** What was sent under the key, where that is not the request and the total alone. Another under the same key is refused. */
  readonly sent?: unknown;
  readonly reason?: string;
  /** The address of the form that the rig was told by. */
  readonly rigQuery?: string;
  /** Staff alone: the site is taken in spite of what the fit says. */
  readonly override?: FitOverride;
}

export interface Opened {
  readonly stay: Stay;
  /** The token of the guest's private link, told this once. Null where staff opened it: see issueLink. */
  readonly link: string | null;
  /** True where the key had been used, and this is the stay it made. */
  readonly repeated: boolean;
}

/** Opens a stay in `to`: one transaction, with its nights, price, link and audit, or nothing of it. */
export async function openStay(actor: Actor, parkSlug: string, to: "held" | "requested" | "booked" | "arrived", opening: Opening): Promise<Opened> {
  return inClaimingTransaction(actor, parkSlug, opening.reason, async (at, makeWay) => {
    const earlier = opening.key === undefined ? null : await takeKey(at, opening.key, opening.sent ?? [actor.kind, to, opening.request, opening.accepts ?? null, ...(opening.override ? [opening.override] : [])]);
    if (earlier !== null) return repeat(at, earlier);
    const stay = await insertNew(at, makeWay, to, opening);
    if (opening.key !== undefined) await settleKey(at, opening.key, stay.id);
    return { stay, link: actor.kind === "guest" ? await addLink(at, stay.id) : null, repeated: false };
  });
}

/**
 * The stay that was opened before by the same, `sent` under the same key; null where there is none yet. Asked before anything is
 * judged: what stands in the way by now, the stay's own nights first of all, is no answer to somebody who asks twice.
 */
export async function findOpened(actor: Actor, parkSlug: string, key: string, sent: unknown): Promise<Opened | null> {
  return inStayTransaction(actor, parkSlug, undefined, async (at) => {
    const earlier = await findKey(at, key, sent);
    return earlier === null ? null : repeat(at, earlier);
  });
}

/** A guest who sends again gets a link again: the first one may never have arrived. */
async function repeat(at: StayTransaction, stayId: string): Promise<Opened> {
  const guest = at.actor.kind === "guest";
  const { stay } = await readStay(guest ? { ...at, actor: { kind: "clock" } } : at, stayId);
  return { stay, link: guest ? await addLink(at, stayId) : null, repeated: true };
}

async function insertNew(at: StayTransaction, makeWay: MakeWay, to: StayState, { request, accepts, override, rigQuery }: Opening): Promise<Stay> {
  const nights = { arrive: request.arrive, depart: request.depart };
  const faults = judgeOpening({ by: at.actor.kind, settings: at.park.settings, today: at.today }, to, { nights, guest: request.guest ?? null, onSite: request.site !== undefined });
  if (faults.length > 0) throw new StayRefused(faults);
  const site = request.site === undefined ? null : await findSite(at, request.site);
  if (site) await makeWay(site, nights, null);
  const offer = to === "held" ? null : await offerFor(at, { nights, siteRowId: site?.id ?? null, wanted: request.wanted, rig: request.rig }, accepts);
  const stay = await insertStay(at, {
    parkId: at.park.id,
    reference: drawReference(),
    state: to,
    arrive: dateColumn(nights.arrive),
    depart: dateColumn(nights.depart),
    siteId: site?.id ?? null,
    siteChosen: site !== null && at.actor.kind === "guest",
    wanted: request.wanted,
    rig: request.rig as unknown as Prisma.InputJsonObject,
    rigQuery: rigQuery ?? null,
    ...guestColumns(request.guest),
    note: request.note,
    ...(override && site && at.actor.kind !== "guest" ? overrideColumn(override) : {}),
    heldUntil: holdUntil(to, at.now, at.park.settings),
    arrivedAt: to === "arrived" ? new Date(at.now) : null,
  });
  await keepQuote(at, stay.id, offer);
  const told = mailOfMove(null, to, at.actor.kind === "guest");
  if (told) await queueMail(at, stay, told);
  return stay;
}

/** Until when a stay that becomes `to` lasts; null where it does not run out. */
export function holdUntil(to: StayState, now: number, { holdMinutes, answerHours }: StaySettings): Date | null {
  if (to === "held") return new Date(now + holdMinutes * 60_000);
  return to === "requested" && answerHours !== null ? new Date(now + answerHours * 3_600_000) : null;
}

/** The park's site of that id, in use. */
export async function findSite({ tx, park }: StayTransaction, siteId: string): Promise<SiteRow> {
  const site = await tx.site.findUnique({ where: { parkId_siteId: { parkId: park.id, siteId } }, select: { id: true, siteId: true, retiredAt: true } });
  if (!site || site.retiredAt !== null) throw notThere(`site ${siteId}`);
  return site;
}

/** Letters and figures that are not mistaken for one another, read out or written down. */
const referenceLetters = "ABCDEFGHJKMNPQRTVWXY346789";
const referenceLength = 6;

/** A reference as the park gives it; whether another stay has it is for the database to say. */
export function drawReference(): string {
  return Array.from({ length: referenceLength }, () => referenceLetters[randomInt(referenceLetters.length)]).join("");
}
