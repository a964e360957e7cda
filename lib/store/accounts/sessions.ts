import { client } from "../client";
import { inStore } from "../errors";
import { accountKey, addressHeader, auth, inside, sessionCookie, sessionEnds } from "./auth";
import { forgetTries } from "./limits";

export const roles = ["manager", "desk"] as const;
export type Role = (typeof roles)[number];

/** Whoever is signed in, as they are now. */
export interface SignedIn {
  /** The session's id. */
  readonly session: string;
  /** The account's id. */
  readonly account: string;
  readonly name: string;
  readonly email: string;
  readonly role: Role;
  /** The slug of the park they belong to. */
  readonly park: string;
}

/** Where a request came from, as far as this server knows. */
export interface Client {
  readonly address: string | null;
  readonly agent: string | null;
}

export type SignInOutcome =
  | { readonly state: "in"; /** What the cookie holds. */ readonly cookie: string }
  /** Unknown, switched off or the wrong password: which, nobody learns. */
  | { readonly state: "refused" }
  | { readonly state: "limited"; readonly until: Date };

/** Signs in by e-mail and password. Limited by account and by address. */
export async function signIn(email: string, password: string, from: Client): Promise<SignInOutcome> {
  const headers = new Headers({ "content-type": "application/json", origin: inside });
  if (from.address) headers.set(addressHeader, from.address);
  if (from.agent) headers.set("user-agent", from.agent.slice(0, 400));
  const request = new Request(`${inside}/api/auth/sign-in/email`, { method: "POST", headers, body: JSON.stringify({ email: email.trim(), password }) });
  const answer = await (await auth()).handler(request);
  if (answer.status === 429) return { state: "limited", until: await untilOf(answer) };
  if (answer.status >= 500) throw new Error(`the sign-in failed (${answer.status})`);
  const cookie = cookieOf(answer);
  if (!answer.ok || cookie === null) return { state: "refused" };
  await forgetTries(accountKey(email));
  await inStore(() => client().$executeRaw`delete from staff_session where expires_at < clock_timestamp()`);
  return { state: "in", cookie };
}

/** Who holds the session that the cookie is for, or null: unknown, ended, signed out or switched off. Using it keeps it. */
export async function findSession(cookie: string | undefined): Promise<SignedIn | null> {
  if (!cookie) return null;
  const headers = new Headers({ cookie: `${sessionCookie}=${encodeURIComponent(cookie)}` });
  const found = await (await auth()).api.getSession({ headers, query: { disableRefresh: true } });
  if (!found) return null;
  const row = await inStore(() => client().staffSession.findUnique({ where: { id: found.session.id }, include: { account: { include: { park: { select: { slug: true } } } } } }));
  if (!row || row.account.switchedOffAt) return null;
  const ends = row.createdAt.getTime() + sessionEnds.absolute * 1000;
  if (ends <= Date.now()) return null;
  await prolong(row.id, row.expiresAt, ends);
  const { id, name, email, role, park } = row.account;
  return { session: row.id, account: id, name, email, role: role === "manager" ? "manager" : "desk", park: park.slug };
}

/** One device on which somebody is signed in. */
export interface OpenSession {
  readonly id: string;
  readonly agent: string | null;
  readonly began: Date;
  /** To within some minutes. */
  readonly used: Date;
}

/** The sessions of the one who asks, the latest used first. */
export async function listSessions({ account }: SignedIn): Promise<OpenSession[]> {
  const rows = await inStore(() => client().staffSession.findMany({
    where: { accountId: account, expiresAt: { gt: new Date() }, createdAt: { gt: new Date(Date.now() - sessionEnds.absolute * 1000) } },
    orderBy: { updatedAt: "desc" },
  }));
  return rows.map(({ id, userAgent, createdAt, updatedAt }) => ({ id, agent: userAgent || null, began: createdAt, used: updatedAt }));
}

/** Ends one of one's own sessions. Others' are not there. */
export async function endSession({ account }: SignedIn, id: string): Promise<void> {
  await inStore(() => client().staffSession.deleteMany({ where: { id, accountId: account } }));
}

/** Ends all one's own sessions but the one that asks. */
export async function endOtherSessions({ account, session }: SignedIn): Promise<void> {
  await inStore(() => client().staffSession.deleteMany({ where: { accountId: account, id: { not: session } } }));
}

/** Not on each request: the row would be written as often as it is read. */
const prolongEvery = 10 * 60;

async function prolong(id: string, expiresAt: Date, ends: number): Promise<void> {
  const now = Date.now();
  if (expiresAt.getTime() > now + (sessionEnds.idle - prolongEvery) * 1000 || expiresAt.getTime() >= ends) return;
  await inStore(() => client().staffSession.updateMany({ where: { id }, data: { expiresAt: new Date(Math.min(ends, now + sessionEnds.idle * 1000)) } }));
}

/** The account's limit says when it ends; the address's, in how many seconds. */
async function untilOf(answer: Response): Promise<Date> {
  const told = (await answer.json().catch(() => ({}))) as { until?: unknown };
  if (typeof told.until === "string") return new Date(told.until);
  return new Date(Date.now() + Number(answer.headers.get("x-retry-after") ?? 60) * 1000);
}

function cookieOf(answer: Response): string | null {
  for (const line of answer.headers.getSetCookie()) {
    const value = new RegExp(`^${sessionCookie}=([^;]+)`).exec(line)?.[1];
    if (value) return decodeURIComponent(value);
  }
  return null;
}
