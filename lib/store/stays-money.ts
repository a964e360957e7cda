import { siteSchema } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import {
  acceptQuote, cardAtDesk, costOfCancelling, hookupsOf, partyOf, quoteStay, termsOf, totalOf,
  type AcceptedQuote, type CancellationCost, type Hookups, type Minor, type Nights, type Payment, type Quote, type QuoteOutcome, type StayFault, type Wanted,
} from "@/lib/stays";
import { inStore, StayRefused } from "./errors";
import { client } from "./client";
import type { Prisma } from "./generated/client";
import { latestCard } from "./rates";
import { getSiteOnRecord } from "./sites";
import { requireStaff, type Actor } from "./stays-actor";
import { readStay, type Stay } from "./stays-record";
import { inStayTransaction, type StayTransaction } from "./stays-transaction";

/** What a stay costs and what was noted as paid. */
export interface StayAccount {
  /** What was agreed to, first to last. */
  readonly quotes: readonly AcceptedQuote[];
  readonly payments: readonly { readonly amount: Minor; readonly purpose: Payment["purpose"]; readonly means: string; readonly at: number }[];
  readonly total: Minor;
  /** Paid back counts against it. */
  readonly paid: Minor;
  /** What of the deposit is still due; 0 once it is paid. */
  readonly depositDue: Minor;
}

/** The account of a stay, for staff and for the guest whose it is. */
export async function getAccount(actor: Actor, parkSlug: string, stayId: string): Promise<StayAccount> {
  return inStayTransaction(actor, parkSlug, undefined, async (at) => accountOf(at.tx, (await readStay(at, stayId)).stay.id));
}

/** Notes money that changed hands at the desk: minor units, a refund's too above zero. No card data. */
export async function notePayment(actor: Actor, parkSlug: string, stayId: string, payment: Payment): Promise<StayAccount> {
  requireStaff(actor, parkSlug);
  return inStayTransaction(actor, parkSlug, undefined, async (at) => {
    const { stay } = await readStay(at, stayId);
    const amount = BigInt(payment.purpose === "refund" ? -payment.amount : payment.amount);
    await at.tx.stayPayment.create({ data: { parkId: at.park.id, stayId: stay.id, amount, currency: payment.currency, purpose: payment.purpose, means: payment.means } });
    return accountOf(at.tx, stay.id);
  });
}

/** What cancelling today would come to, under the terms that were agreed to. */
export async function getCancellationCost(actor: Actor, parkSlug: string, stayId: string): Promise<CancellationCost> {
  return inStayTransaction(actor, parkSlug, undefined, async (at) => cancellationCost(at, (await readStay(at, stayId)).stay));
}

export async function cancellationCost({ tx, park, today }: StayTransaction, stay: Stay): Promise<CancellationCost> {
  const { quotes, total, paid } = await accountOf(tx, stay.id);
  return costOfCancelling(termsOf(quotes, park.settings.cancellation), { nights: stay.nights, total, paid, today });
}

/** What a price is made for. */
export interface Priced {
  readonly nights: Nights;
  readonly siteRowId: string | null;
  readonly wanted: Wanted;
  readonly rig: Rig;
  /** For nights that are added: how many the whole stay then has. */
  readonly wholeNights?: number;
}

/** A price to be agreed to, and the number of the card it comes from. Null where the park has no rates. */
export interface Offer {
  readonly card: number;
  readonly quote: Quote;
}

/**
 * The price in the park's rates in force. A guest agrees to a total, and is refused where it is not the price any more;
 * staff may leave it out, and may go below the minimum of nights.
 */
export async function offerFor({ tx, actor, park }: StayTransaction, priced: Priced, accepts: Minor | undefined): Promise<Offer | null> {
  const latest = await latestCard(tx, { id: park.id });
  if (!latest) return null;
  const staff = actor.kind !== "guest";
  const card = staff ? cardAtDesk(latest.card) : latest.card;
  const outcome = quoteStay(card, {
    nights: priced.nights,
    hookups: await hookupsFor(tx, priced),
    party: partyOf(priced.rig),
    ...(priced.wholeNights === undefined ? {} : { wholeNights: priced.wholeNights }),
  });
  if (!outcome.ok) throw new StayRefused(outcome.faults);
  if (accepts === undefined ? !staff : accepts !== outcome.quote.total) throw new StayRefused([{ code: "price", quote: outcome.quote } satisfies StayFault]);
  return { card: latest.number, quote: outcome.quote };
}

/** Keeps an offer as agreed to today. Nothing changes it afterwards. */
export async function keepQuote({ tx, park, today }: StayTransaction, stayId: string, offer: Offer | null): Promise<void> {
  if (!offer) return;
  const record = acceptQuote(offer.quote, offer.card, today, park.settings.cancellation) as unknown as Prisma.InputJsonObject;
  await tx.stayQuote.create({ data: { parkId: park.id, stayId, record } });
}

export async function hasQuote(tx: Prisma.TransactionClient, stayId: string): Promise<boolean> {
  return (await tx.stayQuote.findFirst({ where: { stayId }, select: { id: true } })) !== null;
}

/** What a stay would cost on a site, or on any with what is wanted, in the rates in force; nothing is kept. Null where the park has none, or no such site. */
export async function quoteFor(parkSlug: string, { site: siteId, wanted }: { readonly site: string | null | undefined; readonly wanted: Wanted }, nights: Nights, rig: Rig): Promise<QuoteOutcome | null> {
  const latest = await inStore(() => latestCard(client(), { slug: parkSlug }));
  const site = siteId ? await getSiteOnRecord(parkSlug, siteId) : null;
  if (!latest || (siteId && !site)) return null;
  return quoteStay(latest.card, { nights, hookups: site ? hookupsOf(site) : { services: wanted.services, amps: null }, party: partyOf(rig) });
}

async function hookupsFor(tx: Prisma.TransactionClient, { siteRowId, wanted }: Priced): Promise<Hookups> {
  if (siteRowId === null) return { services: wanted.services, amps: null };
  const { record } = await tx.site.findUniqueOrThrow({ where: { id: siteRowId }, select: { record: true } });
  return hookupsOf(siteSchema.parse(record));
}

export async function accountOf(tx: Prisma.TransactionClient, stayId: string): Promise<StayAccount> {
  const rows = await tx.stayQuote.findMany({ where: { stayId }, orderBy: { createdAt: "asc" }, select: { record: true } });
  const quotes = rows.map(({ record }) => record as unknown as AcceptedQuote);
  const payments = (await tx.stayPayment.findMany({ where: { stayId }, orderBy: { createdAt: "asc" } })).map(({ amount, purpose, means, createdAt }) => ({
    amount: Number(amount), purpose: purpose as Payment["purpose"], means, at: createdAt.getTime(),
  }));
  const paid = payments.reduce((sum, { amount }) => sum + amount, 0);
  return { quotes, payments, total: totalOf(quotes), paid, depositDue: depositDue(quotes, paid) };
}

/** What is not paid of the deposits that were agreed, minor units. */
export function depositDue(quotes: readonly AcceptedQuote[], paid: Minor): Minor {
  return Math.max(0, quotes.reduce((sum, { deposit }) => sum + deposit, 0) - Math.max(0, paid));
}
