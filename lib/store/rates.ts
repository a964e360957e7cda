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
