import { randomUUID } from "node:crypto";
import type { ImportPlan, StayAdded, StayChanged } from "@/lib/exchange";
import { siteSchema } from "@/lib/park";
import { acceptQuote, addedNights, cardAtDesk, hookupsOf, judgeOpening, occupies, partyOf, quoteStay, type Hookups, type StayState } from "@/lib/stays";
import { oneANight, StayRefused, StoreError } from "./errors";
import type { Prisma } from "./generated/client";
import { latestCard } from "./rates";
import { offersForMore } from "./stays-change";
import { keepQuote } from "./stays-money";
import { lockSites, makeWayForMany, type SiteRow } from "./stays-nights";
import { drawReference, holdUntil } from "./stays-open";
import { dateColumn, guestColumns, readStay } from "./stays-record";
import { inMoveOrder } from "./stays-swap";
import type { StayTransaction } from "./stays-transaction";

/** Hears how many stays of how many are written. */
type TellProgress = (done: number, of: number) => void;

/** What refuses guests who are here and would change places with each other. */
export const changingPlaces = "stays_change_places";

/** How many stays a statement writes: some thousand kilobytes of records. */
const PART = 500;

/**
 * Writes what a plan says of stays, within the import's transaction, after its sites: new ones with their price, others as they are to be. Nobody
 * is written to, and each change has its entry in the audit. Refused as `stale` where a stay is no longer as the plan found it, the day is
 * another, or somebody took one of the nights.
 */
export async function saveStays(at: StayTransaction, { stays, today }: Pick<ImportPlan, "stays" | "today">, tell?: TellProgress): Promise<void> {
  if (stays.length === 0) return;
  if (today !== at.today) throw stale(`the stays were judged on ${today}, and it is ${at.today}`);
  const added = stays.filter((one) => one.what === "added"), changed = stays.filter((one) => one.what === "changed");
  if (changed.some(({ leavesChosen }) => leavesChosen) && !at.reason?.trim()) throw new StayRefused([{ code: "reason-needed" }]);
  const sites = await lockSites(at, [...new Set([...added, ...changed.filter(moves)].flatMap(({ site }) => site ?? []))]);
  const rowOf = (siteId: string): SiteRow => sites.get(siteId) ?? fail(stale(`site ${siteId} is not there`));
  const states = await lockStays(at, changed);
  await claim(at, added, changed.filter((one) => moves(one) && occupies(states.get(one.id)!)), rowOf);
  let done = 0;
  const told = (more: number) => tell?.(done += more, stays.length);
  await change(at, changed, states, rowOf, told);
  await add(at, added, rowOf, told);
  await weighAnew(at, [...added, ...changed.filter(({ before, site }) => site !== before.site)].flatMap(({ site }) => (site === null ? [] : [rowOf(site).id])));
}

/** Their states, locked in the order in which every change of several stays locks them: after the sites, never before. */
async function lockStays(at: StayTransaction, changed: readonly StayChanged[]): Promise<Map<string, StayState>> {
  const rows = await at.tx.$queryRaw<{ id: string; version: number; state: StayState }[]>`
    select id::text, version, state from stay where park_id = ${at.park.id}::uuid and id = any(${changed.map(({ id }) => id)}::uuid[]) order by stay.id for update`;
  const locked = new Map(rows.map((row) => [row.id, row])), other = changed.filter(({ id, base }) => locked.get(id)?.version !== base);
  if (other.length > 0) throw stale(`changed since they were read: ${other.slice(0, 10).map(({ reference }) => reference).join(", ")}`);
  return new Map(rows.map(({ id, state }) => [id, state]));
}

async function claim(at: StayTransaction, added: readonly StayAdded[], movers: readonly StayChanged[], rowOf: (siteId: string) => SiteRow): Promise<void> {
  const claims = [...added, ...movers].flatMap(({ site, nights }) => (site === null ? [] : [{ site: rowOf(site), nights }]));
  const taken = await makeWayForMany(at, claims, movers.map(({ id }) => id));
  if (taken.length > 0) throw stale(`taken meanwhile: ${taken.slice(0, 10).map((i) => `${claims[i]!.site.siteId} from ${claims[i]!.nights.arrive}`).join(", ")}`, oneANight);
}

async function change(at: StayTransaction, changed: readonly StayChanged[], states: ReadonlyMap<string, StayState>, rowOf: (siteId: string) => SiteRow, told: (more: number) => void): Promise<void> {
  const order = inMoveOrder(changed.filter(({ id }) => occupies(states.get(id)!)).map((one) => ({ id: one.id, arrived: states.get(one.id) === "arrived", from: one.before, to: one })));
  if (!order) throw new StoreError("refused", "guests who are here would have to change places at one moment", changingPlaces);
  if (order.offFirst.length > 0) await at.tx.$executeRaw`update stay set site_id = null, site_chosen = false, version = version + 1, updated_at = clock_timestamp() where id = any(${[...order.offFirst]}::uuid[])`;
  const byId = new Map(changed.map((one) => [one.id, one])), alone = new Set(order.arrivedFirst);
  for (const part of [...order.arrivedFirst.map((id) => [byId.get(id)!]), ...inParts(changed.filter(({ id }) => !alone.has(id)))]) {
    await rewrite(at, part, rowOf);
    told(part.length);
  }
  for (const one of changed) if (addedNights(one.before.nights, one.nights).length > 0) await priceMore(at, one, rowOf);
}

/** A stay that is longer than before has nights to be priced in the rates of today. */
async function priceMore(at: StayTransaction, { id, before, nights, site }: StayChanged, rowOf: (siteId: string) => SiteRow): Promise<void> {
  const { stay } = await readStay(at, id);
  const offers = await offersForMore(at, { stay: { ...stay, nights: before.nights }, siteRow: site === null ? null : rowOf(site) }, nights, undefined);
  for (const offer of offers) await keepQuote(at, id, offer);
}

/** Another site ends what was said of a poor fit on the one before. */
async function rewrite({ tx, park }: StayTransaction, part: readonly StayChanged[], rowOf: (siteId: string) => SiteRow): Promise<void> {
  const records = part.map(({ changes, guest, ...one }) => ({
    id: one.id, ...one.nights, site: moves(one) && one.site !== null ? rowOf(one.site).id : null, moved: one.site !== one.before.site, chosen: one.keepsChosen, note: one.note, named: changes.some(({ column }) => GUEST.has(column)),
    name: guest?.name ?? null, email: guest?.email ?? null, phone: guest?.phone ?? null, plate: guest?.plate ?? null,
  }));
  await tx.$executeRaw`
    update stay t set arrive = c.arrive, depart = c.depart, site_id = coalesce(c.site, t.site_id), note = c.note, version = version + 1, updated_at = clock_timestamp(),
      site_chosen = c.chosen, fit_override = case when c.moved then null else t.fit_override end,
      guest_name = case when c.named then c.name else t.guest_name end, guest_email = case when c.named then c.email else t.guest_email end,
      guest_phone = case when c.named then c.phone else t.guest_phone end, plate = case when c.named then c.plate else t.plate end
    from jsonb_to_recordset(${JSON.stringify(records)}::jsonb) as c(id uuid, arrive date, depart date, site uuid, moved boolean, chosen boolean, named boolean, name text, email text, phone text, plate text, note text)
    where t.park_id = ${park.id}::uuid and t.id = c.id`;
}

const GUEST: ReadonlySet<string> = new Set(["guest", "email", "phone", "plate"]);

async function add(at: StayTransaction, added: readonly StayAdded[], rowOf: (siteId: string) => SiteRow, told: (more: number) => void): Promise<void> {
  const { tx, park, today, now } = at, quote = await quoter(at, added, rowOf), references = await drawReferences(at, added.length);
  let next = 0;
  for (const part of inParts(added)) {
    const made = part.map((one) => ({ one, id: randomUUID(), reference: references[next++]! }));
    for (const { one } of made) requireOpening(at, one);
    await tx.stay.createMany({
      data: made.map(({ one: { state, nights, site, guest, note, rig }, id, reference }) => ({
        id, parkId: park.id, reference, state, arrive: dateColumn(nights.arrive), depart: dateColumn(nights.depart), siteId: site === null ? null : rowOf(site).id, siteChosen: false, wanted: { services: [] },
        rig: rig as unknown as Prisma.InputJsonObject, ...guestColumns(guest), note, heldUntil: holdUntil(state, now, park.settings),
      })),
    });
    const quotes = made.flatMap(({ one, id }) => { const offer = quote(one); return offer ? [{ parkId: park.id, stayId: id, record: acceptQuote(offer.quote, offer.card, today, park.settings.cancellation) as unknown as Prisma.InputJsonObject }] : []; });
    await tx.stayQuote.createMany({ data: quotes });
    told(part.length);
  }
}

function requireOpening({ actor, park, today }: StayTransaction, { state, nights, guest, site }: StayAdded): void {
  const faults = judgeOpening({ by: actor.kind, settings: park.settings, today }, state, { nights, guest, onSite: site !== null });
  if (faults.length > 0) throw new StayRefused(faults);
}

/** The price of a new stay in the rates in force, as for one that the desk opens; null where the park has none. */
async function quoter({ tx, park }: StayTransaction, added: readonly StayAdded[], rowOf: (siteId: string) => SiteRow) {
  const latest = added.length === 0 ? null : await latestCard(tx, { id: park.id }), card = latest && cardAtDesk(latest.card);
  const ids = latest ? [...new Set(added.flatMap(({ site }) => (site === null ? [] : [rowOf(site).id])))] : [];
  const records = await tx.site.findMany({ where: { id: { in: ids } }, select: { siteId: true, record: true } });
  const hookups = new Map(records.map(({ siteId, record }) => [siteId, hookupsOf(siteSchema.parse(record))])), none: Hookups = { services: [], amps: null };
  return ({ nights, site, rig }: StayAdded) => {
    if (!card) return null;
    const outcome = quoteStay(card, { nights, hookups: site === null ? none : hookups.get(site)!, party: partyOf(rig) });
    if (!outcome.ok) throw new StayRefused(outcome.faults);
    return { card: latest.number, quote: outcome.quote };
  };
}

/** References that no stay of the park has. Should one be given to another stay at this moment, the whole is begun anew. */
async function drawReferences({ tx, park }: StayTransaction, many: number): Promise<string[]> {
  const drawn = new Set<string>();
  while (drawn.size < many) {
    const more = new Set<string>();
    while (drawn.size + more.size < many) more.add(drawReference());
    const known = await tx.stay.findMany({ where: { parkId: park.id, reference: { in: [...more] } }, select: { reference: true } });
    for (const { reference } of known) more.delete(reference);
    for (const reference of more) drawn.add(reference);
  }
  return [...drawn];
}

/**
 * The stays of these sites are judged as they stand soon after, by itself, and those that do not fit told to the desk: see lib/jobs/site-effects.ts.
 * Below 1 and each time another number, so that a judging which began before this import does not count for it.
 */
async function weighAnew({ tx }: StayTransaction, siteRowIds: readonly string[]): Promise<void> {
  await tx.$executeRaw`update site set weighed_version = least(weighed_version, 1) - 1 where id = any(${[...new Set(siteRowIds)]}::uuid[])`;
}

function moves({ before, nights, site }: Pick<StayChanged, "before" | "nights" | "site">): boolean {
  return site !== before.site || nights.arrive !== before.nights.arrive || nights.depart !== before.nights.depart;
}

function stale(message: string, constraint: string | null = null): StoreError {
  return new StoreError("stale", message, constraint);
}

function fail(error: Error): never {
  throw error;
}

function inParts<T>(all: readonly T[]): T[][] {
  return Array.from({ length: Math.ceil(all.length / PART) }, (_, i) => all.slice(i * PART, (i + 1) * PART));
}
