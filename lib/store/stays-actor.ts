import { createHash, randomBytes } from "node:crypto";
import type { ActorKind } from "@/lib/stays";
import { StoreError } from "./errors";

/** Who asks. Made where somebody signed in or opened a link, and handed to every query that reads or changes a stay. */
export type Actor =
  /** With a private link they reach the stay it is for, without one none: they can only open a new one. */
  | { readonly kind: "guest"; readonly link: string | null }
  /** Of one park, by its slug. Other parks do not exist for them. */
  | { readonly kind: "desk" | "manager"; readonly account: string; readonly park: string }
  /** What happens by itself when time runs out. */
  | { readonly kind: "clock" };

/** Lets nobody but staff of the park pass. For others there is nothing there. */
export function requireStaff(actor: Actor, park: string, kinds: readonly ActorKind[] = ["desk", "manager"]): void {
  if ((actor.kind === "desk" || actor.kind === "manager") && actor.park === park && kinds.includes(actor.kind)) return;
  throw notThere("what was asked for");
}

/** Lets staff of another park pass to nothing; whom a stay belongs to is asked beside its query. */
export function requireReach(actor: Actor, park: string): void {
  if (actor.kind === "desk" || actor.kind === "manager") requireStaff(actor, park);
}

/** Which stays `actor` reaches, as a condition of the query. A guest: the one that an unrevoked link of theirs is for. */
export function reachOf(actor: Actor): { links?: { some: { tokenHash: string; revokedAt: null } } } {
  return actor.kind === "guest" ? { links: { some: { tokenHash: hashToken(actor.link ?? ""), revokedAt: null } } } : {};
}

/** As the audit names them. A guest is told by the beginning of their link's hash, which leads nowhere. */
export function nameOf(actor: Actor): string {
  if (actor.kind === "guest") return actor.link === null ? "" : `link ${hashToken(actor.link).slice(0, 12)}`;
  return actor.kind === "clock" ? "" : actor.account;
}

export function notThere(what: string): StoreError {
  return new StoreError("missing", `not there: ${what}`, null);
}

/** 256 bits from the system's generator: nobody guesses one. */
export function makeToken(): string {
  return randomBytes(32).toString("base64url");
}

/** What is stored in a token's place. Plain SHA-256 is enough for a secret that is random to begin with. */
export function hashToken(token: string): string {
  return createHash("sha256").update(token).digest("hex");
}
