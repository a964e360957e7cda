import { client } from "../client";
import { toStoreError } from "../errors";
import type { Prisma } from "../generated/client";
import { notThere, type Actor } from "../stays-actor";
import { actAs } from "../stays-transaction";

/** Runs `work` on the park's row id as one transaction in which `actor` acts: the audit learns from it who and why. */
export async function inAccountTransaction<T>(actor: Actor, parkSlug: string, reason: string | undefined, work: (tx: Prisma.TransactionClient, parkId: string) => Promise<T>): Promise<T> {
  try {
    return await client().$transaction(async (tx) => {
      await actAs(tx, actor, reason);
      const park = await tx.park.findUnique({ where: { slug: parkSlug }, select: { id: true } });
      if (!park) throw notThere(`park ${parkSlug}`);
      return work(tx, park.id);
    });
  } catch (error) {
    throw toStoreError(error);
  }
}
