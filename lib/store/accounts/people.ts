import { hashPassword, verifyPassword } from "better-auth/crypto";
import { client } from "../client";
import { StoreError, inStore } from "../errors";
import type { Prisma } from "../generated/client";
import { notThere, requireStaff, type Actor } from "../stays-actor";
import { accountKey } from "./auth";
import { forgetTries, perAccount, takeTry } from "./limits";
import { useLink } from "./links";
import type { Role, SignedIn } from "./sessions";
import { inAccountTransaction } from "./transaction";

/** An account of the park, as a manager sees it. */
export interface StaffPerson {
  readonly id: string;
  readonly name: string;
  readonly email: string;
  readonly role: Role;
  readonly switchedOff: boolean;
  /** When one of their sessions was last used, to within some minutes; null where none is open. */
  readonly lastSeen: Date | null;
}

/** Everybody with an account in the park, by name; those who are switched off last. For managers. */
export async function listStaff(actor: Actor, parkSlug: string): Promise<StaffPerson[]> {
  requireStaff(actor, parkSlug, ["manager"]);
  const rows = await inStore(() => client().staffAccount.findMany({ where: { park: { slug: parkSlug } }, include: { sessions: { select: { updatedAt: true } } }, orderBy: [{ name: "asc" }, { email: "asc" }] }));
  const people = rows.map(({ id, name, email, role, switchedOffAt, sessions }) => ({
    id, name, email, role: role as Role, switchedOff: switchedOffAt !== null,
    lastSeen: sessions.reduce<Date | null>((latest, { updatedAt }) => (latest && latest > updatedAt ? latest : updatedAt), null),
  }));
  return people.sort((a, b) => Number(a.switchedOff) - Number(b.switchedOff));
}

/** Switches an account off, which ends its sessions at once, or on again. Refused (`park_keeps_a_manager`) for the last manager. */
export async function switchAccount(actor: Actor, parkSlug: string, id: string, on: boolean): Promise<void> {
  await change(actor, parkSlug, id, { switchedOffAt: on ? null : new Date() });
}

/** Gives an account the other role, from its next request on. Refused (`park_keeps_a_manager`) for the last manager. */
export async function changeRole(actor: Actor, parkSlug: string, id: string, role: Role): Promise<void> {
  await change(actor, parkSlug, id, { role });
}

/** The constraint that keeps a park from losing its last manager. */
export const keepsAManager = "park_keeps_a_manager";

/** Makes the account that a link to join is for and uses the link up. `taken` where the e-mail has one already: the link then stays good. */
export async function joinByLink(token: string, parkSlug: string, person: { readonly name: string; readonly email: string; readonly password: string }): Promise<void> {
  const passwordHash = await hashPassword(person.password);
  const email = person.email.trim().toLowerCase();
  // Whoever holds the link is nobody yet: the audit names the account they make.
  await inAccountTransaction({ kind: "clock" }, parkSlug, `joined by link: ${email}`, async (tx) => {
    const { parkId, role } = await useLink(tx, token, "join");
    const { id } = await tx.staffAccount.create({ data: { parkId, name: person.name.trim(), email, role: role ?? "desk" } });
    await tx.staffCredential.create({ data: { parkId, accountId: id, subject: id, passwordHash } });
  });
  await forgetTries(accountKey(email));
}

/** Sets the password of the account that a link to reset is for, uses the link up and ends all its sessions. The account's e-mail. */
export async function resetByLink(token: string, parkSlug: string, password: string): Promise<string> {
  const passwordHash = await hashPassword(password);
  const email = await inAccountTransaction({ kind: "clock" }, parkSlug, "password reset by link", async (tx) => {
    const { accountId } = await useLink(tx, token, "reset");
    await setPassword(tx, accountId!, passwordHash, null);
    return (await tx.staffAccount.findUniqueOrThrow({ where: { id: accountId! } })).email;
  });
  await forgetTries(accountKey(email));
  return email;
}

export async function renameSelf({ account, email, role, park }: SignedIn, name: string): Promise<void> {
  await inAccountTransaction({ kind: role, account: email, park }, park, undefined, (tx) => tx.staffAccount.update({ where: { id: account }, data: { name: name.trim() } }));
}

export type PasswordChange = { readonly state: "changed" } | { readonly state: "wrong" } | { readonly state: "limited"; readonly until: Date };

/** One's own password, by the present one, which is limited as the sign-in is. Ends one's other sessions. */
export async function changePassword({ account, session }: SignedIn, present: string, next: string): Promise<PasswordChange> {
  const key = `password ${account}`;
  const { allowed, until } = await takeTry(key, perAccount);
  if (!allowed) return { state: "limited", until };
  const credential = await inStore(() => client().staffCredential.findUnique({ where: { accountId: account } }));
  if (!credential || !(await verifyPassword({ hash: credential.passwordHash, password: present }))) return { state: "wrong" };
  const passwordHash = await hashPassword(next);
  await inStore(() => client().$transaction((tx) => setPassword(tx, account, passwordHash, session)));
  await forgetTries(key);
  return { state: "changed" };
}

async function change(actor: Actor, parkSlug: string, id: string, data: Prisma.StaffAccountUpdateInput): Promise<void> {
  requireStaff(actor, parkSlug, ["manager"]);
  await inAccountTransaction(actor, parkSlug, undefined, async (tx, parkId) => {
    const { count } = await tx.staffAccount.updateMany({ where: { id, parkId }, data });
    if (count === 0) throw notThere("account");
  });
}

/** Whoever knew the old one is out, but for the session `but`. */
async function setPassword(tx: Prisma.TransactionClient, accountId: string, passwordHash: string, but: string | null): Promise<void> {
  const { count } = await tx.staffCredential.updateMany({ where: { accountId }, data: { passwordHash } });
  if (count !== 1) throw new StoreError("missing", "not there: password", null);
  await tx.staffSession.deleteMany({ where: { accountId, ...(but ? { id: { not: but } } : {}) } });
  // A link that was handed out for the old one is of no use to anybody honest.
  await tx.accountLink.updateMany({ where: { accountId, usedAt: null, revokedAt: null }, data: { revokedAt: new Date() } });
}
