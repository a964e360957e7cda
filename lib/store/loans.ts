import type { Lendable } from "@/lib/stays";
import { StoreError } from "./errors";
import { notThere, requireStaff, type Actor } from "./stays-actor";
import { readStay } from "./stays-record";
import { inStayTransaction } from "./stays-transaction";

/** Something of the desk's in a guest's hands, or back. */
export interface Loan {
  readonly id: string;
  readonly item: string;
  readonly name: string;
  readonly count: number;
  readonly at: number;
  readonly returnedAt: number | null;
}

/** What was lent to a stay, last first; for staff. */
export async function listLoans(actor: Actor, parkSlug: string, stayId: string): Promise<Loan[]> {
  requireStaff(actor, parkSlug);
  return inStayTransaction(actor, parkSlug, undefined, async (at) => {
    const { stay } = await readStay(at, stayId);
    const rows = await at.tx.loan.findMany({ where: { stayId: stay.id }, orderBy: { createdAt: "desc" } });
    return rows.map(({ id, item, name, count, createdAt, returnedAt }) => ({ id, item, name, count, at: createdAt.getTime(), returnedAt: returnedAt?.getTime() ?? null }));
  });
}

/** What the desk has to lend, and how many of each are out. */
export async function listStock(actor: Actor, parkSlug: string): Promise<(Lendable & { readonly out: number })[]> {
  requireStaff(actor, parkSlug);
  return inStayTransaction(actor, parkSlug, undefined, async ({ tx, park }) => {
    const out = await tx.loan.groupBy({ by: ["item"], where: { parkId: park.id, returnedAt: null }, _sum: { count: true } });
    return park.settings.lends.map((item) => ({ ...item, out: out.find((row) => row.item === item.id)?._sum.count ?? 0 }));
  });
}

/** Lends one more of an item to a stay. Refused where none is left: others may have taken the last meanwhile. */
export async function lend(actor: Actor, parkSlug: string, stayId: string, itemId: string): Promise<void> {
  requireStaff(actor, parkSlug);
  await inStayTransaction(actor, parkSlug, undefined, async (at) => {
    const { tx, park } = at;
    const { stay } = await readStay(at, stayId);
    const item = park.settings.lends.find(({ id }) => id === itemId);
    if (!item) throw notThere("what is to be lent");
    // One at a time in a park, so that the last one is lent once.
    await tx.$queryRaw`select pg_advisory_xact_lock(hashtextextended(${`loan ${park.id} ${itemId}`}, 0))::text`;
    const { _sum } = await tx.loan.aggregate({ where: { parkId: park.id, item: itemId, returnedAt: null }, _sum: { count: true } });
    if ((_sum.count ?? 0) >= item.count) throw new StoreError("taken", `none left: ${item.name}`, "loan_none_left");
    await tx.loan.create({ data: { parkId: park.id, stayId: stay.id, item: item.id, name: item.name } });
  });
}

/** Notes that it was brought back. */
export async function takeBack(actor: Actor, parkSlug: string, loanId: string): Promise<void> {
  requireStaff(actor, parkSlug);
  await inStayTransaction(actor, parkSlug, undefined, async ({ tx, park, now }) => {
    const loan = await tx.loan.findFirst({ where: { id: loanId, parkId: park.id }, select: { id: true, returnedAt: true } });
    if (!loan) throw notThere("the loan");
    if (loan.returnedAt === null) await tx.loan.update({ where: { id: loan.id }, data: { returnedAt: new Date(now) } });
  });
}
