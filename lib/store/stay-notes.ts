import { outcomes, type IsoDate, type Outcome } from "@/lib/stays";
import { nameOf, requireStaff, type Actor } from "./stays-actor";
import { readDateColumn, readStay } from "./stays-record";
import { inStayTransaction } from "./stays-transaction";

/** What the desk wrote down about a stay. */
export interface StayNote {
  readonly at: number;
  readonly by: string;
  readonly text: string;
}

/** First to last, for staff. */
export async function listNotes(actor: Actor, parkSlug: string, stayId: string): Promise<StayNote[]> {
  requireStaff(actor, parkSlug);
  return inStayTransaction(actor, parkSlug, undefined, async (at) => {
    const { stay } = await readStay(at, stayId);
    const rows = await at.tx.stayNote.findMany({ where: { stayId: stay.id }, orderBy: { createdAt: "asc" } });
    return rows.map(({ createdAt, by, text }) => ({ at: createdAt.getTime(), by, text }));
  });
}

/** Writes a note down: 1 to 2000 letters. */
export async function addNote(actor: Actor, parkSlug: string, stayId: string, text: string): Promise<void> {
  requireStaff(actor, parkSlug);
  await inStayTransaction(actor, parkSlug, undefined, async (at) => {
    const { stay } = await readStay(at, stayId);
    await at.tx.stayNote.create({ data: { parkId: at.park.id, stayId: stay.id, text, by: nameOf(actor) } });
  });
}

/** How stays on a site went, the last first: where something was other than planned. For staff. */
export async function listOutcomes(actor: Actor, parkSlug: string, siteId: string, most = 20): Promise<{ readonly stay: string; readonly left: IsoDate; readonly how: Outcome; readonly note: string; readonly rigKind: string }[]> {
  requireStaff(actor, parkSlug);
  return inStayTransaction(actor, parkSlug, undefined, async ({ tx, park }) => {
    const rows = await tx.stay.findMany({ where: { parkId: park.id, outcome: { not: null }, site: { siteId } }, orderBy: { departedAt: "desc" }, take: most, select: { id: true, depart: true, outcome: true, outcomeNote: true, rig: true } });
    return rows.map(({ id, depart, outcome, outcomeNote, rig }) => ({ stay: id, left: readDateColumn(depart), how: outcomes.find((known) => known === outcome)!, note: outcomeNote, rigKind: (rig as { kind: string }).kind }));
  });
}
