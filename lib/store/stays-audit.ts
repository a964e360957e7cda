import type { ActorKind } from "@/lib/stays";
import { requireStaff, type Actor } from "./stays-actor";
import { readStay } from "./stays-record";
import { inStayTransaction } from "./stays-transaction";

/** One change: who, when, why, and the columns that changed, from what to what. `before` is null for what was new. */
export interface AuditEntry {
  readonly at: number;
  readonly by: ActorKind;
  readonly who: string | null;
  readonly reason: string | null;
  readonly subject: string;
  readonly before: unknown;
  readonly after: unknown;
}

/** What happened to a stay, closure or rate card, oldest first; for staff. */
export async function listAudit(actor: Actor, parkSlug: string, subjectId: string): Promise<AuditEntry[]> {
  requireStaff(actor, parkSlug);
  return inStayTransaction(actor, parkSlug, undefined, async ({ tx, park }) => {
    const rows = await tx.auditEntry.findMany({ where: { parkId: park.id, subjectId }, orderBy: { at: "asc" } });
    return rows.map(({ at, actorKind, actor: who, reason, subject, before, after }) => ({ at: at.getTime(), by: actorKind as ActorKind, who, reason, subject, before, after }));
  });
}

/** When a stay was cancelled, the last time, in milliseconds; null where it never was. For staff and for the guest whose it is. */
export async function getCancelledAt(actor: Actor, parkSlug: string, stayId: string): Promise<number | null> {
  return inStayTransaction(actor, parkSlug, undefined, async (at) => {
    const { stay } = await readStay(at, stayId);
    const row = await at.tx.auditEntry.findFirst({ where: { parkId: at.park.id, subjectId: stay.id, after: { path: ["state"], equals: "cancelled" } }, orderBy: { at: "desc" }, select: { at: true } });
    return row?.at.getTime() ?? null;
  });
}
