import { linkForOperator } from "@/lib/store/accounts/links";
import { joinByLink } from "@/lib/store/accounts/people";
import { findSession, signIn, type Role, type SignedIn } from "@/lib/store/accounts/sessions";
import type { Actor } from "@/lib/store/stays-actor";
import { byHand, park } from "./stays-park";

export const from = { address: "192.0.2.1", agent: "Mozilla/5.0 (test)" };
export const password = "quills in the meadow";

/** Joins by a link of the machine's operator and signs in: the session's cookie and who they are. */
export async function join(email: string, role: Role = "manager", slug = park): Promise<{ cookie: string; signedIn: SignedIn; actor: Actor }> {
  await joinByLink(await linkForOperator(slug, role), slug, { name: email.split("@")[0]!, email, password });
  return enter(email);
}

export async function enter(email: string, word = password): Promise<{ cookie: string; signedIn: SignedIn; actor: Actor }> {
  const outcome = await signIn(email, word, from);
  if (outcome.state !== "in") throw new Error(`not signed in: ${outcome.state}`);
  const signedIn = (await findSession(outcome.cookie))!;
  return { cookie: outcome.cookie, signedIn, actor: { kind: signedIn.role, account: signedIn.email, park: signedIn.park } };
}

/** Lets every link have run out a second ago. */
export async function runOutLinks(): Promise<void> {
  await byHand((sql) => sql`update account_link set expires_at = clock_timestamp() - interval '1 second'`);
}
