import { dateIn, staySettingsSchema, type IsoDate, type StaySettings } from "@/lib/stays";
import { client } from "./client";
import { StoreError, toStoreError } from "./errors";
import type { Prisma } from "./generated/client";
import { nameOf, notThere, requireReach, type Actor } from "./stays-actor";

/** What every change of a stay has at hand. */
export interface StayTransaction {
  readonly tx: Prisma.TransactionClient;
  readonly actor: Actor;
  /** As the person gave it, for the audit. */
  readonly reason: string | undefined;
  readonly park: { readonly id: string; readonly slug: string; readonly settings: StaySettings };
  /** The database's clock when the transaction began, milliseconds. */
  readonly now: number;
  /** The date it then is in the park. */
  readonly today: IsoDate;
}

/** The row was changed between being read and being locked: the transaction begins anew. */
export class Meanwhile extends Error {
  override readonly name = "Meanwhile";
}

const attempts = 4;
/** Many clients may ask at once; those that find every connection in use wait this long for one, and a transaction may take this long (ms). */
const patience = 15_000;

/**
 * Runs `work` as one transaction in which `actor` acts on the park: the audit learns from it who and why. Begun anew
 * where two transactions met in a way that trying again settles. `timeout` is how long it may take, milliseconds.
 */
export async function inStayTransaction<T>(actor: Actor, parkSlug: string, reason: string | undefined, work: (at: StayTransaction) => Promise<T>, timeout = patience): Promise<T> {
  requireReach(actor, parkSlug);
  for (let attempt = 1; ; attempt++) {
    try {
      return await client().$transaction(async (tx) => work(await begin(tx, actor, parkSlug, reason)), { maxWait: patience, timeout });
    } catch (error) {
      if (attempt < attempts && mayTryAgain(error)) continue;
      if (error instanceof Meanwhile) throw new StoreError("busy", "the database is busy: others keep changing the same stay", null, { cause: error });
      throw toStoreError(error);
    }
  }
}

/** Lets the rest of the transaction be somebody else's doing, for the audit. */
export async function actAs(tx: Prisma.TransactionClient, actor: Actor, reason: string | undefined): Promise<void> {
  await tx.$queryRaw`select set_config('padwright.actor_kind', ${actor.kind}, true), set_config('padwright.actor', ${nameOf(actor)}, true), set_config('padwright.reason', ${reason ?? ""}, true)`;
}

async function begin(tx: Prisma.TransactionClient, actor: Actor, parkSlug: string, reason: string | undefined): Promise<StayTransaction> {
  const [row] = await tx.$queryRaw<{ id: string; stay_settings: unknown; now: Date }[]>`
    select id::text, stay_settings, clock_timestamp() as now,
           set_config('padwright.actor_kind', ${actor.kind}, true), set_config('padwright.actor', ${nameOf(actor)}, true), set_config('padwright.reason', ${reason ?? ""}, true)
    from park where slug = ${parkSlug}`;
  if (!row) throw notThere(`park ${parkSlug}`);
  const settings = staySettingsSchema.parse(row.stay_settings);
  const now = row.now.getTime();
  return { tx, actor, reason, park: { id: row.id, slug: parkSlug, settings }, now, today: dateIn(settings.zone, now) };
}

/** Two changes met, or a reference was drawn that another stay has: the same again may well work. */
function mayTryAgain(error: unknown): boolean {
  if (error instanceof Meanwhile) return true;
  const { kind, constraint } = toStoreError(error);
  return kind === "busy" || (kind === "taken" && constraint !== null && /reference/.test(constraint));
}
