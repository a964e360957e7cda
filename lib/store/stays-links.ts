import { inStore } from "./errors";
import { client } from "./client";
import { hashToken, makeToken, requireStaff, type Actor } from "./stays-actor";
import { readStay } from "./stays-record";
import { inStayTransaction, type StayTransaction } from "./stays-transaction";

/** A new private link to a stay, for staff to send. The token is told once and never stored. */
export async function issueLink(actor: Actor, parkSlug: string, stayId: string): Promise<string> {
  requireStaff(actor, parkSlug);
  return inStayTransaction(actor, parkSlug, undefined, async (at) => addLink(at, (await readStay(at, stayId)).stay.id));
}

/** Ends every link to a stay; how many there were. */
export async function revokeLinks(actor: Actor, parkSlug: string, stayId: string): Promise<number> {
  requireStaff(actor, parkSlug);
  return inStayTransaction(actor, parkSlug, undefined, async (at) => {
    const { stay } = await readStay(at, stayId);
    const { count } = await at.tx.stayLink.updateMany({ where: { stayId: stay.id, revokedAt: null }, data: { revokedAt: new Date(at.now) } });
    return count;
  });
}

/** Which stay of which park a private link is for, or null: unknown, revoked or mistyped are one and the same. */
export async function findByLink(token: string): Promise<{ readonly park: string; readonly stay: string } | null> {
  const link = await inStore(() => client().stayLink.findFirst({ where: { tokenHash: hashToken(token), revokedAt: null }, select: { stayId: true, stay: { select: { park: { select: { slug: true } } } } } }));
  return link && { park: link.stay.park.slug, stay: link.stayId };
}

export async function addLink({ tx, park }: StayTransaction, stayId: string): Promise<string> {
  const token = makeToken();
  await tx.stayLink.create({ data: { parkId: park.id, stayId, tokenHash: hashToken(token) } });
  return token;
}
