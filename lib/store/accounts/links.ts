import { client } from "../client";
import { inStore } from "../errors";
import type { Prisma } from "../generated/client";
import { hashToken, makeToken, notThere, requireStaff, type Actor } from "../stays-actor";
import type { Role } from "./sessions";
import { inAccountTransaction } from "./transaction";

/** How long a link is good for, hours: long enough for the next shift, short enough to lie in a mailbox. */
export const linkHours = 24;

/** A link that is still good, as a manager sees it; what leads in by it is told once, when it is made. */
export interface OpenLink {
  readonly id: string;
  readonly purpose: "join" | "reset";
  /** Of a link to join. */
  readonly role: Role | null;
  /** Of a link to reset: whose password. */
  readonly forName: string | null;
  readonly expires: Date;
}

/** A link by which one person can join the park with that role. By a manager; the token is told once and never stored. */
export async function inviteToJoin(actor: Actor, parkSlug: string, role: Role): Promise<string> {
  requireStaff(actor, parkSlug, ["manager"]);
  return inAccountTransaction(actor, parkSlug, undefined, (tx, parkId) => addLink(tx, { parkId, purpose: "join", role }));
}

/** A link by which the holder of the account sets a new password. Ends older ones for it. */
export async function issueReset(actor: Actor, parkSlug: string, accountId: string): Promise<string> {
  requireStaff(actor, parkSlug, ["manager"]);
  return inAccountTransaction(actor, parkSlug, undefined, async (tx, parkId) => {
    const account = await tx.staffAccount.findFirst({ where: { id: accountId, parkId, switchedOffAt: null }, select: { id: true } });
    if (!account) throw notThere("account");
    await revoke(tx, { accountId, purpose: "reset" });
    return addLink(tx, { parkId, purpose: "reset", accountId });
  });
}

/** The park's links that are still good, those that end first first. For managers. */
export async function listLinks(actor: Actor, parkSlug: string): Promise<OpenLink[]> {
  requireStaff(actor, parkSlug, ["manager"]);
  const rows = await inStore(() => client().accountLink.findMany({ where: { ...good(), park: { slug: parkSlug } }, include: { account: { select: { name: true } } }, orderBy: { expiresAt: "asc" } }));
  return rows.map(({ id, purpose, role, account, expiresAt }) => ({ id, purpose: purpose === "reset" ? "reset" : "join", role: role as Role | null, forName: account?.name ?? null, expires: expiresAt }));
}

/** Ends a link before it is used. One that is not the park's is not there. */
export async function revokeLink(actor: Actor, parkSlug: string, id: string): Promise<void> {
  requireStaff(actor, parkSlug, ["manager"]);
  await inAccountTransaction(actor, parkSlug, undefined, (tx, parkId) => revoke(tx, { id, parkId }));
}

/** What a token leads to, for the page that it opens. Null: unknown, used, ended and mistyped are one and the same. */
export async function readLink(token: string, purpose: OpenLink["purpose"]): Promise<{ readonly park: string; readonly parkName: string; readonly role: Role | null; readonly email: string | null } | null> {
  const row = await inStore(() => client().accountLink.findFirst({ where: { ...good(), tokenHash: hashToken(token), purpose }, include: { park: { select: { slug: true, name: true } }, account: { select: { email: true } } } }));
  return row && { park: row.park.slug, parkName: row.park.name, role: row.role as Role | null, email: row.account?.email ?? null };
}

/**
 * For whoever runs the machine, who need no account: a link to join, made at the command line. With `atStart` for each
 * start while there is no manager; it ends those of starts before.
 */
export async function linkForOperator(parkSlug: string, role: Role, atStart = false): Promise<string> {
  return inAccountTransaction({ kind: "clock" }, parkSlug, atStart ? "at start" : "at the command line", async (tx, parkId) => {
    if (atStart) await revoke(tx, { parkId, atStart: true });
    return addLink(tx, { parkId, purpose: "join", role, atStart });
  });
}

/** For each park that has no manager, a link by which one can join. */
export async function linksForFirstManagers(): Promise<{ readonly park: string; readonly token: string }[]> {
  const parks = await inStore(() => client().park.findMany({ where: { staffAccounts: { none: { role: "manager", switchedOffAt: null } } }, select: { slug: true, name: true }, orderBy: { createdAt: "asc" } }));
  const links = [];
  for (const { slug, name } of parks) links.push({ park: name, token: await linkForOperator(slug, "manager", true) });
  return links;
}

/** Takes the link that `token` is for out of use, or says that it is not there. Of two at once, one has it. */
export async function useLink(tx: Prisma.TransactionClient, token: string, purpose: OpenLink["purpose"]): Promise<{ parkId: string; role: Role | null; accountId: string | null }> {
  const where = { ...good(), tokenHash: hashToken(token), purpose };
  const link = await tx.accountLink.findFirst({ where });
  const { count } = await tx.accountLink.updateMany({ where, data: { usedAt: new Date() } });
  if (!link || count !== 1) throw notThere("link");
  return { parkId: link.parkId, role: link.role as Role | null, accountId: link.accountId };
}

function good() {
  return { usedAt: null, revokedAt: null, expiresAt: { gt: new Date() } };
}

async function addLink(tx: Prisma.TransactionClient, link: { parkId: string; purpose: string; role?: Role; accountId?: string; atStart?: boolean }): Promise<string> {
  const token = makeToken();
  await tx.accountLink.create({ data: { ...link, tokenHash: hashToken(token), expiresAt: new Date(Date.now() + linkHours * 3_600_000) } });
  return token;
}

async function revoke(tx: Prisma.TransactionClient, where: Prisma.AccountLinkWhereInput): Promise<void> {
  await tx.accountLink.updateMany({ where: { ...where, usedAt: null, revokedAt: null }, data: { revokedAt: new Date() } });
}
