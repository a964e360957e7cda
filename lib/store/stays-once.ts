import { createHash } from "node:crypto";
import { StayRefused } from "./errors";
import type { StayTransaction } from "./stays-transaction";

/**
 * Takes `key` for this request, within its transaction: null where it is the first of that key, else the id of the stay
 * that the first one made. One that is still under way is waited for. A key that came with another request is refused;
 * a request that was refused leaves no key behind and may be sent again.
 */
export async function takeKey(at: StayTransaction, key: string, request: unknown): Promise<string | null> {
  const taken = await at.tx.$executeRaw`
    insert into idempotency_key (park_id, key, request_hash) values (${at.park.id}::uuid, ${key}, ${hashOf(request)}) on conflict (park_id, key) do nothing`;
  return taken === 1 ? null : findKey(at, key, request);
}

/** The id of the stay that a request with this key made; null where there was none. A key that came with another request is refused. */
export async function findKey({ tx, park }: StayTransaction, key: string, request: unknown): Promise<string | null> {
  const first = await tx.idempotencyKey.findUnique({ where: { parkId_key: { parkId: park.id, key } } });
  if (first && (first.requestHash !== hashOf(request) || first.stayId === null)) throw new StayRefused([{ code: "key-reused" }]);
  return first && first.stayId;
}

/** Writes down which stay the key's request made. */
export async function settleKey({ tx, park }: StayTransaction, key: string, stayId: string): Promise<void> {
  await tx.idempotencyKey.update({ where: { parkId_key: { parkId: park.id, key } }, data: { stayId } });
}

function hashOf(request: unknown): string {
  return createHash("sha256").update(JSON.stringify(request)).digest("hex");
}
