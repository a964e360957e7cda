import type { ExchangeFile, ImportPlan, Inventory, Json, RecordPlan } from "@/lib/exchange";
import { keptSettings, mayHoldStays, rigEntry, sameJson } from "@/lib/exchange";
import type { SiteInput } from "@/lib/park";
import { client } from "./client";
import { inStore, StoreError } from "./errors";
import type { Prisma } from "./generated/client";
import { changeSitesWithin, PATIENCE, requireSound, type Manager, type SiteChange, type TellProgress } from "./site-changes";
import { notThere, requireStaff } from "./stays-actor";
import { readStayBook } from "./stays-export";
import { saveStays } from "./stays-import";
import { lockSites } from "./stays-nights";
import { inStayTransaction, type StayTransaction } from "./stays-transaction";

/**
 * All that a park hands out, for managers: its file with the settings as they are now, its sites that are in use, and its rigs. `against` are
 * files that it is to be held against: the stays come along where one of them may hold stays.
 */
export async function readInventory(actor: Manager, against: readonly ExchangeFile[] = []): Promise<Inventory> {
  requireStaff(actor, actor.park, ["manager"]);
  const withStays = mayHoldStays(against);
  return inStore(() => client().$transaction(async (tx) => {
    const park = await tx.park.findUnique({ where: { slug: actor.park } });
    if (!park) throw notThere(`park ${actor.park}`);
    const order = [{ position: "asc" }, { siteId: "asc" }] as const;
    const sites = await tx.site.findMany({ where: { parkId: park.id, retiredAt: null }, orderBy: [...order], select: { record: true, version: true } });
    const rigs = await listKeptRigs(tx, park.id);
    const rates = await tx.rateCard.findFirst({ where: { parkId: park.id }, orderBy: { number: "desc" }, select: { record: true } });
    const own = withoutSettings(park.record as unknown as Json);
    return {
      park: { ...own, name: park.name, units: park.units, policy: park.policy as unknown as Json, staySettings: park.staySettings as unknown as Json, ...(rates ? { rates: rates.record as unknown as Json } : {}) },
      sites: sites.map(({ record, version }) => ({ record: record as unknown as Json, version })),
      rigs,
      ...(withStays ? { stays: await readStayBook(tx, park) } : {}),
    };
  }, { isolationLevel: "RepeatableRead", maxWait: 15_000, timeout: PATIENCE }));
}

/** How much an import did. */
export interface ImportOutcome {
  readonly sites: Readonly<Record<RecordPlan["what"], number>>;
  readonly rigs: Readonly<Record<RecordPlan["what"], number>>;
  readonly park: boolean;
  /** Where a table of stays was sent. */
  readonly stays?: Readonly<Record<"added" | "changed", number>>;
}

/** How much longer an import may take for each stay, milliseconds: several times what one takes. */
const A_STAY = 5;

/** What else happens while a plan is carried out. */
export interface ImportOptions {
  /** Done first, within the transaction: what it locks is locked for as long as the import takes. */
  readonly also?: (at: StayTransaction, outcome: ImportOutcome) => Promise<void>;
  /** Hears how many sites and stays of how many are written, from 0 to all; from 0 again where the database has the whole begun anew. What it throws undoes all. */
  readonly onProgress?: TellProgress;
}

/**
 * Does what a plan without faults says, all of it in one transaction or nothing: each site with its revision, each stay with its entry in the
 * audit. Refused as `stale` where anything it changes is no longer as the plan found it, and as changes of sites are. For managers.
 */
export async function applyImport(actor: Manager, plan: ImportPlan, why: string, { also, onProgress }: ImportOptions = {}): Promise<ImportOutcome> {
  requireStaff(actor, actor.park, ["manager"]);
  if (plan.faultCount > 0) throw new StoreError("refused", `the files hold ${plan.faultCount} fault(s)`, null);
  const changes = plan.sites.map(({ id, base, after }): SiteChange => ({ siteId: id, base, record: after as unknown as SiteInput | null }));
  requireSound(changes);
  const outcome: ImportOutcome = { sites: countOf(plan.sites), rigs: countOf(plan.rigs), park: plan.park !== null, ...(plan.today === null ? {} : { stays: { added: plan.stays.filter(({ what }) => what === "added").length, changed: plan.stays.filter(({ what }) => what === "changed").length } }) };
  const of = changes.length + plan.stays.length, tell = (before: number): TellProgress | undefined => onProgress && ((done) => onProgress(before + done, of));
  await inStayTransaction(actor, actor.park, why, async (at) => {
    await also?.(at, outcome);
    if (plan.park) await savePark(at, plan.park);
    // All sites at once, those of the stays too: who locks them in two goes may wait for somebody who waits for them.
    if (plan.stays.length > 0) await lockSites(at, [...changes.map(({ siteId }) => siteId), ...plan.stays.flatMap(({ site }) => site ?? [])]);
    if (changes.length > 0) await changeSitesWithin(at, changes, "import", tell(0));
    if (plan.rigs.length > 0) await saveRigs(at, plan.rigs);
    await saveStays(at, plan, tell(changes.length));
  }, PATIENCE + plan.stays.length * A_STAY);
  return outcome;
}

/** Says in the park's file where its map lies on the earth, for a manager. */
export async function saveOrigin(actor: Manager, origin: { readonly latitude: number; readonly longitude: number; readonly bearing: number }): Promise<void> {
  requireStaff(actor, actor.park, ["manager"]);
  await inStayTransaction(actor, actor.park, undefined, async ({ tx, park }) => {
    // What else the origin says, such as which mark on the ground it is, stays.
    await tx.$executeRaw`
      update park set record = record || jsonb_build_object('origin', coalesce(case when jsonb_typeof(record -> 'origin') = 'object' then record -> 'origin' end, '{}'::jsonb) || ${JSON.stringify(origin)}::jsonb)
      where id = ${park.id}::uuid`;
  });
}

async function savePark({ tx, park }: StayTransaction, { before, after }: NonNullable<ImportPlan["park"]>): Promise<void> {
  await tx.$queryRaw`select 1 from park where id = ${park.id}::uuid for no key update`;
  const row = await tx.park.findUniqueOrThrow({ where: { id: park.id }, select: { record: true, name: true, units: true } });
  const now: Json = { ...withoutSettings(row.record as unknown as Json), name: row.name, units: row.units };
  if (!sameJson(now, withoutSettings(before))) throw new StoreError("stale", "the park's file was changed since it was read", null);
  const { name, units } = after as { name: string; units?: string };
  await tx.park.update({ where: { id: park.id }, data: { name, ...(units === undefined ? {} : { units }), record: after as unknown as Prisma.InputJsonObject } });
}

async function saveRigs({ tx, park }: StayTransaction, plans: readonly RecordPlan[]): Promise<void> {
  await tx.$queryRaw`select 1 from park where id = ${park.id}::uuid for no key update`;
  const held = new Map((await listKeptRigs(tx, park.id)).map((rig) => [String((rig.record as { id: unknown }).id), rigEntry(rig)]));
  const stale = plans.filter(({ id, before }) => !sameJson(held.get(id) ?? null, before));
  if (stale.length > 0) throw new StoreError("stale", `changed since it was read: ${stale.map(({ id }) => id).join(", ")}`, null);
  const ids = (what: RecordPlan["what"]) => plans.filter((plan) => plan.what === what);
  await tx.rig.deleteMany({ where: { parkId: park.id, rigId: { in: ids("removed").map(({ id }) => id) } } });
  for (const { id, after } of ids("changed")) await tx.rig.update({ where: { parkId_rigId: { parkId: park.id, rigId: id } }, data: rigData(after!) });
  const last = await tx.rig.aggregate({ where: { parkId: park.id }, _max: { position: true } }), next = (last._max.position ?? -1) + 1;
  await tx.rig.createMany({ data: ids("added").map(({ id, after }, i) => ({ parkId: park.id, rigId: id, position: next + i, ...rigData(after!) })) });
}

function rigData(entry: Json): { name: string; note: string | null; record: Prisma.InputJsonObject } {
  const { name, note, rig } = entry as { name: string; note?: string | null; rig: Prisma.InputJsonObject };
  return { name, note: note ?? null, record: rig };
}

async function listKeptRigs(tx: Prisma.TransactionClient, parkId: string): Promise<Inventory["rigs"][number][]> {
  const rows = await tx.rig.findMany({ where: { parkId }, orderBy: [{ position: "asc" }, { rigId: "asc" }], select: { name: true, note: true, record: true } });
  return rows.map(({ name, note, record }) => ({ name, note, record: record as unknown as Json }));
}

/** The park's own words of itself: what is saved on pages of its own is kept in columns and tables, and the copy that came with the file is an old one. */
function withoutSettings(record: Json): Readonly<Record<string, Json>> {
  return Object.fromEntries(Object.entries(record as Readonly<Record<string, Json>>).filter(([name]) => !(keptSettings as readonly string[]).includes(name)));
}

function countOf(plans: readonly RecordPlan[]): Record<RecordPlan["what"], number> {
  const count = { added: 0, changed: 0, removed: 0 };
  for (const { what } of plans) count[what]++;
  return count;
}
