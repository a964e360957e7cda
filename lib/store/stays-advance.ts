import { daysBetween, isRunOut, judgeGuest, judgeMove, mailOfMove, occupies, type CancellationCost, type Guest, type IsoDate, type Minor, type Outcome, type StayState } from "@/lib/stays";
import { StayRefused } from "./errors";
import type { Prisma } from "./generated/client";
import { queueMail } from "./mail";
import type { Actor } from "./stays-actor";
import { cancellationCost, hasQuote, keepQuote, offerFor, type Offer } from "./stays-money";
import { inClaimingTransaction, type MakeWay } from "./stays-nights";
import { holdUntil } from "./stays-open";
import { guestColumns, lockStay, readStay, saveStay, type Stay, type StayRow } from "./stays-record";
import type { StayTransaction } from "./stays-transaction";

export interface Advance {
  /** The version the person saw; a change on an older view is then `stale`. Left out: whatever stands now. */
  readonly version?: number;
  readonly reason?: string;
  /** Who comes, where a hold becomes more than one. */
  readonly guest?: Guest;
  /** The total agreed to, where a price is due: see Opening. */
  readonly accepts?: Minor;
  /** How it went, where they leave. */
  readonly outcome?: { readonly how: Outcome; readonly note: string };
}

export interface Advanced {
  readonly stay: Stay;
  /** Of a cancellation: what the park keeps and what goes back. */
  readonly cost: CancellationCost | null;
}

/**
 * Moves a stay on to `to`, where the table of moves lets the actor. One that gave its nights back, cancelled or left
 * early, claims them again. A hold that has run out may still be booked while nobody else wanted the nights.
 */
export async function advanceStay(actor: Actor, parkSlug: string, stayId: string, to: StayState, advance: Advance = {}): Promise<Advanced> {
  return inClaimingTransaction(actor, parkSlug, advance.reason, async (at, makeWay) => {
    const row = await readStay(at, stayId);
    judge(at, row.stay, to, advance);
    await claimAgain(row, to, makeWay);
    await lockStay(at, row.stay, advance.version);
    const cost = to === "cancelled" ? await cancellationCost(at, row.stay) : null;
    const offer = await offerWhereDue(at, row, to, advance.accepts);
    const stay = await saveStay(at, row.stay, columnsFor(at, row.stay, to, advance));
    await keepQuote(at, stay.id, offer);
    const told = mailOfMove(row.stay.state, to, actor.kind === "guest");
    if (told) await queueMail(at, stay, told);
    return { stay, cost };
  });
}

async function claimAgain({ stay, siteRow }: StayRow, to: StayState, makeWay: MakeWay): Promise<void> {
  if (siteRow && occupies(to) && (!occupies(stay.state) || stay.freedFrom !== null)) await makeWay(siteRow, stay.nights, stay.id);
}

function judge({ actor, park, today, now }: StayTransaction, stay: Stay, to: StayState, { guest }: Advance): void {
  const facts = { guestsMay: park.settings.guestsMay, daysToArrival: daysBetween(today, stay.nights.arrive), runOut: isRunOut(stay.until, now) };
  const judged = judgeMove(stay.state, to, actor.kind, facts);
  const faults = [
    ...(judged.allowed && !stay.erased ? [] : [{ code: "move" as const, from: stay.state, to, why: judged.allowed ? ("no-such-move" as const) : judged.why }]),
    ...(to === "arrived" && stay.site === null ? [{ code: "site-needed" as const }] : []),
    ...judgeGuest(actor.kind, to, guest ?? stay.guest),
  ];
  if (faults.length > 0) throw new StayRefused(faults);
}

/** A price is agreed to once: when the stay is first asked for or booked. */
async function offerWhereDue(at: StayTransaction, { stay, siteRow }: StayRow, to: StayState, accepts: Minor | undefined): Promise<Offer | null> {
  if ((to !== "requested" && to !== "booked") || (await hasQuote(at.tx, stay.id))) return null;
  return offerFor(at, { nights: stay.nights, siteRowId: siteRow?.id ?? null, wanted: stay.wanted, rig: stay.rig }, accepts);
}

function columnsFor({ now, today, park }: StayTransaction, stay: Stay, to: StayState, { guest, outcome }: Advance): Prisma.StayUncheckedUpdateInput {
  return {
    state: to,
    heldUntil: holdUntil(to, now, park.settings),
    arrivedAt: to === "arrived" ? new Date(stay.arrivedAt ?? now) : to === "departed" ? undefined : null,
    departedAt: to === "departed" ? new Date(now) : null,
    freedFrom: to === "departed" ? freedFrom(stay, today) : null,
    ...(to === "departed" ? (outcome ? { outcome: outcome.how, outcomeNote: outcome.note } : {}) : { outcome: null, outcomeNote: "" }),
    ...(guest ? guestColumns(guest) : {}),
  };
}

/** Who leaves before the departure day gives the nights back, this one included. */
function freedFrom({ nights: { arrive, depart } }: Stay, today: IsoDate): Date | null {
  const from = today < arrive ? arrive : today;
  return from < depart ? new Date(`${from}T00:00:00Z`) : null;
}
