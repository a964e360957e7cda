import type { ExchangeFile, Missing } from "@/lib/exchange";
import { client } from "./client";
import { inStore, StoreError } from "./errors";
import type { ImportOutcome } from "./inventory";
import type { Manager } from "./site-changes";
import { notThere, requireStaff } from "./stays-actor";
import type { StayTransaction } from "./stays-transaction";

/** Files that somebody sent, to be looked at before they are read in. */
export interface Upload {
  readonly id: string;
  readonly by: string;
  /** Milliseconds. */
  readonly at: number;
  readonly missing: Missing;
  /** None once they were read in. */
  readonly files: readonly ExchangeFile[];
  /** What came of it; null: not done yet. */
  readonly outcome: ImportOutcome | null;
}

/** Files that nobody read in are forgotten after a day, what came of the others after a year. Milliseconds. */
const KEPT = { open: 86_400_000, done: 366 * 86_400_000 } as const;

/** Keeps files for a manager to look at what they would do; the id leads to that page. */
export async function createUpload(actor: Manager, files: readonly ExchangeFile[], missing: Missing): Promise<string> {
  requireStaff(actor, actor.park, ["manager"]);
  return inStore(async () => {
    const park = await client().park.findUnique({ where: { slug: actor.park }, select: { id: true } });
    if (!park) throw notThere(`park ${actor.park}`);
    const kept = files.map(({ name, bytes }) => ({ name, base64: Buffer.from(bytes).toString("base64") }));
    return (await client().inventoryUpload.create({ data: { parkId: park.id, by: actor.account, missing, files: kept }, select: { id: true } })).id;
  });
}

/** Forgets, of every park, files whose time is over: people's data may be in them. Does nothing that anybody is told of. */
export async function forgetOldUploads(): Promise<void> {
  const now = Date.now();
  await inStore(() => client().inventoryUpload.deleteMany({ where: { OR: [{ doneAt: null, at: { lt: new Date(now - KEPT.open) } }, { doneAt: { lt: new Date(now - KEPT.done) } }] } }));
}

/** An upload of the park, for managers; null where there is none of that id, or no more. */
export async function getUpload(actor: Manager, id: string): Promise<Upload | null> {
  requireStaff(actor, actor.park, ["manager"]);
  if (!/^[0-9a-f-]{36}$/i.test(id)) return null;
  const row = await inStore(() => client().inventoryUpload.findFirst({ where: { id, park: { slug: actor.park } } }));
  if (!row) return null;
  const files = (row.files as { name: string; base64: string }[]).map(({ name, base64 }) => ({ name, bytes: new Uint8Array(Buffer.from(base64, "base64")) }));
  return { id: row.id, by: row.by, at: row.at.getTime(), missing: row.missing as Missing, files, outcome: row.outcome as unknown as ImportOutcome | null };
}

/** Whether an upload is being read in just now, by this process or another: whoever reads it in holds its row until all of it is saved. For managers. */
export async function isBeingReadIn(actor: Manager, id: string): Promise<boolean> {
  requireStaff(actor, actor.park, ["manager"]);
  if (!/^[0-9a-f-]{36}$/i.test(id)) return false;
  const [row] = await inStore(() => client().$queryRaw<{ held: boolean }[]>`
    with free as materialized (select u.id from inventory_upload u join park p on p.id = u.park_id where u.id = ${id}::uuid and p.slug = ${actor.park} for share of u skip locked)
    select not exists (select 1 from free) as held
    from inventory_upload u join park p on p.id = u.park_id where u.id = ${id}::uuid and u.done_at is null and p.slug = ${actor.park}`);
  return row?.held ?? false;
}

/** The last uploads that were read in, latest first, for managers. */
export async function listImports(actor: Manager, most: number): Promise<{ id: string; at: number; by: string; outcome: ImportOutcome }[]> {
  requireStaff(actor, actor.park, ["manager"]);
  const rows = await inStore(() => client().inventoryUpload.findMany({ where: { park: { slug: actor.park }, doneAt: { not: null } }, orderBy: { doneAt: "desc" }, take: most, select: { id: true, by: true, doneAt: true, outcome: true } }));
  return rows.map(({ id, by, doneAt, outcome }) => ({ id, by, at: doneAt!.getTime(), outcome: outcome as unknown as ImportOutcome }));
}

/** Forgets files that are not to be read in after all. */
export async function dropUpload(actor: Manager, id: string): Promise<void> {
  requireStaff(actor, actor.park, ["manager"]);
  await inStore(() => client().inventoryUpload.deleteMany({ where: { id, doneAt: null, park: { slug: actor.park } } }));
}

/** Within the transaction that reads an upload in: once only, whoever else presses the button. */
export async function settleUpload({ tx, park }: StayTransaction, id: string, outcome: ImportOutcome): Promise<void> {
  const done = await tx.inventoryUpload.updateMany({ where: { id, parkId: park.id, doneAt: null }, data: { doneAt: new Date(), outcome: outcome as unknown as { [key: string]: never }, files: [] } });
  if (done.count !== 1) throw new StoreError("stale", "the files were read in already, or are gone", null);
}
