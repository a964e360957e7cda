import { cookies, headers } from "next/headers";
import { redirect } from "next/navigation";
import { cache } from "react";
import { sessionCookie } from "@/lib/store/accounts/auth";
import { findSession, type SignedIn } from "@/lib/store/accounts/sessions";
import type { Actor } from "@/lib/store/stays-actor";

/** Somebody of a park's staff, as every query that reads or changes a stay asks for them. */
export type StaffActor = Extract<Actor, { kind: "desk" | "manager" }>;

export interface StaffSession {
  /** Of one park. Its `account` is the person's e-mail, which is what the audit names. */
  readonly actor: StaffActor;
  readonly name: string;
  readonly email: string;
  /** For one's own account: see lib/store/accounts. */
  readonly signedIn: SignedIn;
}

/** Whoever is signed in, or null. Asked of the database once a request. */
export const staffSession = cache(async (): Promise<StaffSession | null> => {
  const signedIn = await findSession((await cookies()).get(sessionCookie)?.value);
  return signedIn && { actor: actorOf(signedIn), name: signedIn.name, email: signedIn.email, signedIn };
});

/**
 * Desk or manager; who is neither is sent to sign in and then back. Call it in every page and every server action: a
 * layout guards neither.
 */
export async function requireDesk(): Promise<StaffSession> {
  return (await staffSession()) ?? redirect(await signInAddress());
}

/** A manager; the desk is sent to a page that says whom this one is for. */
export async function requireManager(): Promise<StaffSession> {
  const session = await requireDesk();
  return session.actor.kind === "manager" ? session : redirect("/for-managers");
}

/** For route handlers: who sent the request, or null, which is a 401. Not cached: a long answer may ask again. */
export async function staffActorOf(request: Request): Promise<StaffActor | null> {
  const signedIn = await findSession(readCookie(request.headers.get("cookie") ?? "", sessionCookie));
  return signedIn && actorOf(signedIn);
}

function actorOf({ role, email, park }: SignedIn): StaffActor {
  return { kind: role, account: email, park };
}

async function signInAddress(): Promise<string> {
  const path = (await headers()).get("x-padwright-path") ?? "/desk";
  return `/sign-in?next=${encodeURIComponent(path)}`;
}

function readCookie(line: string, name: string): string | undefined {
  const value = line.split(/;\s*/).find((pair) => pair.startsWith(`${name}=`))?.slice(name.length + 1);
  try {
    return value && decodeURIComponent(value);
  } catch {
    return undefined;
  }
}
