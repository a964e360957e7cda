import type { Rig } from "@/lib/rig";
import { addedNights, countNights, judgeChange, judgeGuest, judgeNewNights, occupies, totalOf, type FitOverride, type Guest, type Minor, type Nights, type StayFault } from "@/lib/stays";
import { StayRefused } from "./errors";
import type { Prisma } from "./generated/client";
import { queueMail } from "./mail";
import { requireStaff, type Actor } from "./stays-actor";
import { hasQuote, keepQuote, offerFor, type Offer } from "./stays-money";
import { inClaimingTransaction } from "./stays-nights";
import { findSite } from "./stays-open";
import { dateColumn, guestColumns, lockStay, overrideColumn, readStay, saveStay, type Stay, type StayRow } from "./stays-record";
import { inStayTransaction, type StayTransaction } from "./stays-transaction";

export interface Editing {
  /** The version the person saw; a change on an older view is then `stale`. Left out: whatever stands now. */
  readonly version?: number;
  /** Kept with the change: why another site, why in spite of a poor fit. */
  readonly reason?: string;
  /** Where a site or rig is changed to what does not fit well: taken all the same, and why. An earlier one ends with such a change. */
  readonly override?: FitOverride;
}

/**
 * Puts a stay on a site: assigns one, or moves it. A guest who chose theirs is moved only with a reason. What was agreed
 * to pay stays: whom the park moves, it does not charge.
 */
export async function moveStay(actor: Actor, parkSlug: string, stayId: string, siteId: string, editing: Editing = {}): Promise<Stay> {
  return inClaimingTransaction(actor, parkSlug, editing.reason, async (at, makeWay) => {
    const { stay } = await readStay(at, stayId);
    const site = await findSite(at, siteId);
    const leavesChosen = actor.kind !== "guest" && stay.siteChosen && stay.site !== siteId && !editing.reason;
    refuse([...judgeChange(actor.kind, stay, "site"), ...(leavesChosen ? [{ code: "reason-needed" as const }] : [])]);
    await makeWay(site, stay.nights, stay.id);
    await lockStay(at, stay, editing.version);
    const saved = await saveStay(at, stay, { siteId: site.id, siteChosen: stay.siteChosen && stay.site === siteId, ...overrideColumn(editing.override) });
    if (stay.site !== siteId) await tellChange(at, saved, "site");
    return saved;
  });
}

/**
 * Gives a stay other nights: longer, shorter or elsewhere, on the site it has. Nights beyond as many as there were have a
 * price of their own in the rates of today; the one agreed to stays as it is.
 */
export async function changeNights(actor: Actor, parkSlug: string, stayId: string, nights: Nights, editing: Editing & { readonly accepts?: Minor } = {}): Promise<Stay> {
  return inClaimingTransaction(actor, parkSlug, editing.reason, async (at, makeWay) => {
    const row = await readStay(at, stayId);
    const { stay, siteRow } = row;
    refuse([...judgeChange(actor.kind, stay, "dates"), ...judgeNewNights({ by: actor.kind, settings: at.park.settings, today: at.today }, stay, nights)]);
    if (siteRow && occupies(stay.state)) await makeWay(siteRow, nights, stay.id);
    await lockStay(at, stay, editing.version);
    const offers = await offersForMore(at, row, nights, editing.accepts);
    const saved = await saveStay(at, stay, { arrive: dateColumn(nights.arrive), depart: dateColumn(nights.depart) });
    for (const offer of offers) await keepQuote(at, stay.id, offer);
    if (stay.nights.arrive !== nights.arrive || stay.nights.depart !== nights.depart) await tellChange(at, saved, "nights");
    return saved;
  });
}

/** What the nights that `nights` adds to a stay would cost today, all together; null where none are added, or none has a price. */
export async function priceMoreNights(actor: Actor, parkSlug: string, stayId: string, nights: Nights): Promise<{ readonly total: Minor; readonly currency: string } | null> {
  requireStaff(actor, parkSlug);
  return inStayTransaction(actor, parkSlug, undefined, async (at) => {
    const offers = await offersForMore(at, await readStay(at, stayId), nights, undefined);
    return offers[0] ? { total: totalOf(offers.map(({ quote }) => quote)), currency: offers[0].quote.currency } : null;
  });
}

/** Lets a stay leave on another day. */
export async function extendStay(actor: Actor, parkSlug: string, stayId: string, depart: Nights["depart"], editing: Editing & { readonly accepts?: Minor } = {}): Promise<Stay> {
  const { nights } = await getStay(actor, parkSlug, stayId);
  return changeNights(actor, parkSlug, stayId, { arrive: nights.arrive, depart }, editing);
}

/** Changes what is brought, who comes, or the note. Whether the rig still fits is asked before, by whoever calls this. */
export async function editStay(actor: Actor, parkSlug: string, stayId: string, change: { readonly rig?: Rig; readonly rigQuery?: string; readonly guest?: Guest; readonly note?: string }, editing: Editing = {}): Promise<Stay> {
  return inStayTransaction(actor, parkSlug, editing.reason, async (at) => {
    const { stay } = await readStay(at, stayId);
    const asked = (["rig", "guest", "note"] as const).filter((field) => change[field] !== undefined);
    refuse([...asked.flatMap((field) => judgeChange(actor.kind, stay, field)), ...(change.guest ? judgeGuest(actor.kind, stay.state, change.guest) : [])]);
    await lockStay(at, stay, editing.version);
    const saved = await saveStay(at, stay, {
      ...(change.rig ? { rig: change.rig as unknown as Prisma.InputJsonObject, rigQuery: change.rigQuery ?? null, ...overrideColumn(stay.site === null ? null : editing.override) } : {}),
      ...(change.guest ? guestColumns(change.guest) : {}),
      ...(change.note === undefined ? {} : { note: change.note }),
    });
    if (change.rig) await tellChange(at, saved, "rig");
    if (saved.guest?.email !== stay.guest?.email) await tellAnew(at, saved);
    return saved;
  });
}

/** Says that stays travel together and want neighbouring sites, those that did so already included. Staff alone. */
export async function joinStays(actor: Actor, parkSlug: string, stayIds: readonly [string, string]): Promise<void> {
  requireStaff(actor, parkSlug);
  await inStayTransaction(actor, parkSlug, undefined, async (at) => {
    const [first, second] = [(await readStay(at, stayIds[0])).stay, (await readStay(at, stayIds[1])).stay];
    const together = first.together ?? second.together ?? first.id;
    const also = [first.together, second.together].filter((id) => id !== null);
    await at.tx.stay.updateMany({ where: { parkId: at.park.id, OR: [{ id: { in: [first.id, second.id] } }, { together: { in: also } }] }, data: { together, version: { increment: 1 } } });
  });
}

/** Says that a stay travels alone after all. Staff alone. */
export async function partStay(actor: Actor, parkSlug: string, stayId: string): Promise<void> {
  requireStaff(actor, parkSlug);
  await inStayTransaction(actor, parkSlug, undefined, async (at) => {
    const { stay } = await readStay(at, stayId);
    await lockStay(at, stay, undefined);
    await saveStay(at, stay, { together: null });
  });
}

/** The stay, for staff of its park and for the guest whose it is. */
export async function getStay(actor: Actor, parkSlug: string, stayId: string): Promise<Stay> {
  return inStayTransaction(actor, parkSlug, undefined, async (at) => (await readStay(at, stayId)).stay);
}

/** A stay that is only held is not told of its changes: nothing was agreed to. */
async function tellChange(at: StayTransaction, stay: Stay, kind: "site" | "nights" | "rig"): Promise<void> {
  if (stay.state !== "held") await queueMail(at, stay, kind);
}

/** To another e-mail address goes how things stand: what went to the one before may never have arrived. */
async function tellAnew(at: StayTransaction, stay: Stay): Promise<void> {
  if (stay.state === "requested" || stay.state === "booked") await queueMail(at, stay, stay.state);
}

function refuse(faults: readonly StayFault[]): void {
  if (faults.length > 0) throw new StayRefused(faults);
}

/** Prices for nights that are added: before and after where the stay grows, else as many at its end as it is longer. `accepts` is for all together. */
export async function offersForMore(at: StayTransaction, { stay, siteRow }: StayRow, nights: Nights, accepts: Minor | undefined): Promise<Offer[]> {
  const added = addedNights(stay.nights, nights);
  if (added.length === 0 || !(await hasQuote(at.tx, stay.id))) return [];
  const offers: Offer[] = [];
  for (const part of added) {
    const priced = { nights: part, siteRowId: siteRow?.id ?? null, wanted: stay.wanted, rig: stay.rig, wholeNights: countNights(nights) };
    const offer = await offerFor(at, priced, undefined);
    if (offer) offers.push(offer);
  }
  const differs = accepts !== undefined && totalOf(offers.map(({ quote }) => quote)) !== accepts;
  if (differs) refuse(offers.map(({ quote }) => ({ code: "price", quote })));
  return offers;
}
