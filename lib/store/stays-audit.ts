import type { ActorKind } from "@/lib/stays";
import { requireStaff, type Actor } from "./stays-actor";
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
