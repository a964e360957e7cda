import { rateCardSchema, type RateCard } from "@/lib/stays";
import { client } from "./client";
import { inStore, StoreError } from "./errors";
import type { Prisma } from "./generated/client";
import { requireStaff, type Actor } from "./stays-actor";
import { inStayTransaction } from "./stays-transaction";

/** A rate card and its number: each time rates are saved, one more. */
export interface NumberedCard {
  readonly number: number;
  readonly card: RateCard;
}

/** The rates in force, or null where the park has none yet. Anybody may know them. */
export async function getRates(parkSlug: string): Promise<NumberedCard | null> {
  return inStore(() => latestCard(client(), { slug: parkSlug }));
}

/** A card with when it was saved and by whom. */
export interface SavedCard extends NumberedCard {
  readonly at: number;
  /** The account that saved it; null for what came with the park. */
  readonly who: string | null;
}

/** The latest rate cards of a park, newest first; for managers. */
export async function listRates(actor: Actor, parkSlug: string, most = 20): Promise<SavedCard[]> {
  requireStaff(actor, parkSlug, ["manager"]);
  return inStayTransaction(actor, parkSlug, undefined, async ({ tx, park }) => {
    const rows = await tx.rateCard.findMany({ where: { parkId: park.id }, orderBy: { number: "desc" }, take: most });
    const entries = await tx.auditEntry.findMany({ where: { parkId: park.id, subjectId: { in: rows.map(({ id }) => id) } }, select: { subjectId: true, actor: true } });
    const whoSaved = new Map(entries.map(({ subjectId, actor: who }) => [subjectId, who]));
    return rows.map(({ id, number, record, createdAt }) => ({ number, card: rateCardSchema.parse(record), at: createdAt.getTime(), who: whoSaved.get(id) ?? null }));
  });
}

/**
 * Saves rates, as a card of its own beside the earlier ones. Prices that were agreed to stay as they are. `basedOn` is the
 * number of the card that was edited, 0 for the first: where another was saved since, it is `stale`.
 */
export async function saveRates(actor: Actor, parkSlug: string, card: RateCard, basedOn: number): Promise<NumberedCard> {
  requireStaff(actor, parkSlug, ["manager"]);
  return inStayTransaction(actor, parkSlug, undefined, async ({ tx, park }) => {
    // One at a time in a park, so that the number read is the number still.
    await tx.$queryRaw`select 1 from park where id = ${park.id}::uuid for no key update`;
    const latest = (await latestCard(tx, { id: park.id }))?.number ?? 0;
    if (latest !== basedOn) throw new StoreError("stale", `changed since it was read: rates ${basedOn} are now ${latest}`, null);
    await tx.rateCard.create({ data: { parkId: park.id, number: latest + 1, record: card as unknown as Prisma.InputJsonObject } });
    return { number: latest + 1, card };
  });
}

/** The card in force as the transaction sees it. */
export async function latestCard(tx: Prisma.TransactionClient, park: { id: string } | { slug: string }): Promise<NumberedCard | null> {
  const row = await tx.rateCard.findFirst({ where: { park }, orderBy: { number: "desc" }, select: { number: true, record: true } });
  return row && { number: row.number, card: rateCardSchema.parse(row.record) };
}
