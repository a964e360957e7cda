import { addDays, nearestFree, type IsoDate, type Nights } from "@/lib/stays";
import { client } from "./client";
import { inStore, NightsTaken, oneANight, StoreError } from "./errors";
import type { Prisma } from "./generated/client";
import { queueRunOut } from "./mail";
import type { Actor } from "./stays-actor";
import { actAs, inStayTransaction, type StayTransaction } from "./stays-transaction";

/** A site as its rows name it: `id` the row's own, `siteId` the park's. */
export interface SiteRow {
  readonly id: string;
  readonly siteId: string;
}

/** The nights on a site that a transaction wants. `own` is the stay or closure that wants them, where it is there already. */
interface Claim {
  readonly site: SiteRow;
  readonly nights: Nights;
  readonly own: string | null;
  readonly today: IsoDate;
}

/** Makes way for a claim; see {@link inClaimingTransaction}. */
export type MakeWay = (site: SiteRow, nights: Nights, own: string | null) => Promise<void>;

/**
 * A transaction that wants nights on a site, and says so by `makeWay` before its insert or update. Where somebody has
 * one of them it is refused as {@link NightsTaken}, with what is free.
 *
 * Whoever wants the same site waits in `makeWay` for the transaction before to end: without it, two that insert at once
 * could each wait for the other. Then every hold on one of the nights that has run out is released, by the database's
 * clock. What forbids two occupants is the constraint, not this.
 */
export async function inClaimingTransaction<T>(actor: Actor, parkSlug: string, reason: string | undefined, work: (at: StayTransaction, makeWay: MakeWay) => Promise<T>): Promise<T> {
  for (let attempt = 1; ; attempt++) {
    let claim: Claim | null = null;
    try {
      return await inStayTransaction(actor, parkSlug, reason, (at) => work(at, (site, nights, own) => {
        claim = { site, nights, own, today: at.today };
        return makeWay(at, claim);
      }));
    } catch (error) {
      if (!claim || !(error instanceof StoreError) || error.constraint !== oneANight) throw error;
      if (attempt < attempts && !(await inStore(() => isTaken(client(), claim!)))) continue;
      const { site, nights } = claim as Claim;
      throw new NightsTaken(site.siteId, nights, await listFreeSites(parkSlug, nights), await findNearest(claim), { cause: error });
    }
  }
}

/** Who was in the way may be gone by the time it is told: then it is tried again. */
const attempts = 3;

async function makeWay(at: StayTransaction, claim: Claim): Promise<void> {
  // Most who come too late are told so without waiting for those who are still at it.
  if (await isTaken(at.tx, claim)) throw new StoreError("overlap", `${claim.site.siteId} is taken`, oneANight);
  await at.tx.$queryRaw`select 1 from site where id = ${claim.site.id}::uuid for no key update`;
  await releaseRunOut(at, claim);
}

/** Nights of a site that one of many at once wants. */
export interface ManyClaim {
  readonly site: SiteRow;
  readonly nights: Nights;
}

/**
 * Makes way for many claims at once, in a transaction that holds their sites' rows ({@link lockSites}): releases what ran out, and answers
 * those of which somebody else has a night, by their place in the list. `own` are the stays that the claims are for and that are there already.
 */
export async function makeWayForMany(at: StayTransaction, claims: readonly ManyClaim[], own: readonly string[]): Promise<number[]> {
  const wanted = JSON.stringify(claims.map(({ site, nights: { arrive, depart } }, i) => ({ i, site: site.id, arrive, depart })));
  const runOut = await at.tx.$queryRaw<{ id: string }[]>`
    select s.id::text from stay s where s.park_id = ${at.park.id}::uuid and s.state in ('held', 'requested') and s.held_until <= clock_timestamp() and not s.id = any(${[...own]}::uuid[])
      and exists (select 1 from occupancy o join jsonb_to_recordset(${wanted}::jsonb) as w(site uuid, arrive date, depart date) on o.site_id = w.site and o.nights && daterange(w.arrive, w.depart) where o.stay_id = s.id)
    for update of s skip locked`;
  await release(at, runOut.map(({ id }) => id));
  const taken = await at.tx.$queryRaw<{ i: number }[]>`
    select distinct w.i from jsonb_to_recordset(${wanted}::jsonb) as w(i int, site uuid, arrive date, depart date)
    join occupancy o on o.site_id = w.site and o.nights && daterange(w.arrive, w.depart) where o.stay_id is null or not o.stay_id = any(${[...own]}::uuid[]) order by w.i`;
  return taken.map(({ i }) => i);
}

/** Locks the rows of the park's sites of those ids, in the order that every change of several sites keeps; those that are not there, or out of use, are left out. */
export async function lockSites({ tx, park }: StayTransaction, siteIds: readonly string[]): Promise<Map<string, SiteRow>> {
  const rows = await tx.$queryRaw<(SiteRow & { retired: boolean })[]>`
    select id::text, site_id as "siteId", retired_at is not null as retired from site where park_id = ${park.id}::uuid and site_id = any(${[...siteIds]}) order by site.id for no key update`;
  return new Map(rows.filter(({ retired }) => !retired).map(({ id, siteId }) => [siteId, { id, siteId }]));
}

/** The ids of the park's sites that nobody has on any of the nights, in the park's own order. One query, whatever the number of sites. */
export async function listFreeSites(parkSlug: string, { arrive, depart }: Nights): Promise<string[]> {
  const rows = await inStore(() => client().$queryRaw<{ site_id: string }[]>`
    select s.site_id from site s join park p on p.id = s.park_id
    where p.slug = ${parkSlug} and s.retired_at is null and not exists (
      select 1 from occupancy o
      where o.site_id = s.id and o.nights && daterange(${arrive}::date, ${depart}::date)
        and (o.held_until is null or o.held_until > clock_timestamp()))
    order by s.position, s.site_id`);
  return rows.map((row) => row.site_id);
}

/** A site of the park, and whether nobody has it on any of some nights. */
export interface SiteAvailability {
  readonly id: string;
  readonly label: string;
  readonly loop: string | null;
  readonly free: boolean;
}

/** Every site of the park, in the park's own order, with whether it is free for all of the nights. One query, whatever the number of sites. */
export async function listAvailability(parkSlug: string, { arrive, depart }: Nights): Promise<SiteAvailability[]> {
  return inStore(() => client().$queryRaw<SiteAvailability[]>`
    select s.site_id as id, s.label, s.loop, not exists (
        select 1 from occupancy o
        where o.site_id = s.id and o.nights && daterange(${arrive}::date, ${depart}::date)
          and (o.held_until is null or o.held_until > clock_timestamp())) as free
    from site s where s.park_id = (select id from park where slug = ${parkSlug}) and s.retired_at is null
    order by s.position, s.site_id`);
}

/** Releases, as the clock's doing, holds and requests of the whole park that ran out `grace` minutes ago or earlier; how many. For keeping lists tidy: nothing depends on it. */
export async function releaseAllRunOut({ tx, park }: StayTransaction, grace: number): Promise<number> {
  const released = await tx.$queryRaw<{ id: string }[]>`
    update stay set state = 'cancelled', held_until = null, version = version + 1, updated_at = clock_timestamp()
    where id in (select id from stay where park_id = ${park.id}::uuid and state in ('held', 'requested') and held_until <= clock_timestamp() - make_interval(mins => ${grace}::int) for update skip locked)
    returning id::text`;
  await queueRunOut(tx, released.map(({ id }) => id));
  return released.length;
}

/** How far around the wanted nights others are looked for. */
const nearby = 60;

async function isTaken(tx: Pick<Prisma.TransactionClient, "$queryRaw">, { site, nights: { arrive, depart }, own }: Claim): Promise<boolean> {
  const rows = await tx.$queryRaw<unknown[]>`
    select 1 from occupancy
    where site_id = ${site.id}::uuid and nights && daterange(${arrive}::date, ${depart}::date)
      and (held_until is null or held_until > clock_timestamp()) and coalesce(stay_id, closure_id) is distinct from ${own}::uuid
    limit 1`;
  return rows.length > 0;
}

/** A hold whose guest is at this moment booking it is passed over: it is theirs if they succeed. */
export async function releaseRunOut(at: StayTransaction, { site, nights: { arrive, depart }, own }: Claim): Promise<void> {
  const runOut = await at.tx.$queryRaw<{ id: string }[]>`
    select s.id::text from stay s join occupancy o on o.stay_id = s.id
    where o.site_id = ${site.id}::uuid and o.nights && daterange(${arrive}::date, ${depart}::date)
      and s.state in ('held', 'requested') and s.held_until <= clock_timestamp() and s.id is distinct from ${own}::uuid
    for update of s skip locked`;
  await release(at, runOut.map(({ id }) => id));
}

async function release({ tx, actor, reason }: StayTransaction, runOut: readonly string[]): Promise<void> {
  if (runOut.length === 0) return;
  await actAs(tx, { kind: "clock" }, "ran out");
  for (const id of runOut) await tx.$executeRaw`update stay set state = 'cancelled', held_until = null, version = version + 1, updated_at = clock_timestamp() where id = ${id}::uuid`;
  await queueRunOut(tx, runOut);
  await actAs(tx, actor, reason);
}

async function findNearest({ site, nights, own, today }: Claim): Promise<Nights | null> {
  const [from, to] = [addDays(nights.arrive, -nearby), addDays(nights.depart, nearby)];
  // Nobody is offered nights that are past.
  const span = { arrive: from < today ? today : from, depart: to };
  const taken = await inStore(() => client().$queryRaw<Nights[]>`
    select lower(nights)::text as arrive, upper(nights)::text as depart from occupancy
    where site_id = ${site.id}::uuid and nights && daterange(${span.arrive}::date, ${span.depart}::date)
      and (held_until is null or held_until > clock_timestamp()) and coalesce(stay_id, closure_id) is distinct from ${own}::uuid`);
  return nearestFree(nights, taken, span);
}
