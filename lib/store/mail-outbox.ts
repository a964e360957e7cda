import type { MailKind } from "@/lib/stays";
import { client } from "./client";
import { inStore } from "./errors";
import { mailStates, type MailState } from "./mail";
import { matterOf, type KeptText, type MailMatter } from "./mail-sending";
import { nameOf, requireStaff, type Actor } from "./stays-actor";
import { inStayTransaction } from "./stays-transaction";

/** Mail as staff of the park see it. Times are milliseconds from 1970-01-01T00:00Z. */
export interface OutboxMail {
  readonly id: string;
  readonly kind: MailKind;
  readonly state: MailState;
  readonly to: string;
  readonly stay: { readonly id: string; readonly reference: string; readonly guest: string };
  readonly attempts: number;
  readonly error: string | null;
  readonly createdAt: number;
  readonly nextTryAt: number;
  readonly sentAt: number | null;
  /** Who sent it by hand. */
  readonly sentBy: string | null;
  /** As it was sent, without its link; null where it was not written yet. */
  readonly text: KeptText | null;
}

export interface Outbox {
  /** The longest waiting first, {@link mostShown} at most, and how many there are. */
  readonly waiting: readonly OutboxMail[];
  readonly waitingCount: number;
  readonly failed: readonly OutboxMail[];
  readonly failedCount: number;
  /** Sent, sent by hand or overtaken, the latest first. */
  readonly settled: readonly OutboxMail[];
}

export const mostShown = 200;

/** The park's mail; for staff. */
export async function readOutbox(actor: Actor, parkSlug: string): Promise<Outbox> {
  requireStaff(actor, parkSlug);
  const of = (...states: readonly MailState[]) => ({ park: { slug: parkSlug }, stayId: { not: null }, state: { in: [...states] } });
  const include = { stay: { select: { id: true, reference: true, guestName: true } } } as const;
  return inStore(async () => {
    const [waiting, waitingCount, failed, failedCount, settled] = await Promise.all([
      client().mail.findMany({ where: of("queued"), include, orderBy: [{ createdAt: "asc" }, { id: "asc" }], take: mostShown }),
      client().mail.count({ where: of("queued") }),
      client().mail.findMany({ where: of("failed"), include, orderBy: [{ createdAt: "asc" }, { id: "asc" }], take: mostShown }),
      client().mail.count({ where: of("failed") }),
      client().mail.findMany({ where: of("sent", "by-hand", "overtaken"), include, orderBy: [{ createdAt: "desc" }, { id: "asc" }], take: mostShown }),
    ]);
    return { waiting: waiting.map(toMail), waitingCount, failed: failed.map(toMail), failedCount, settled: settled.map(toMail) };
  });
}

/**
 * What mail that is to be sent by hand is written from, with a link of its own, told this once; null where it needs no
 * sending any more. What is changed of the stay from now on is mail of its own: this text may be on its way.
 */
export async function takeMail(actor: Actor, parkSlug: string, mailId: string): Promise<MailMatter | null> {
  requireStaff(actor, parkSlug);
  return inStayTransaction(actor, parkSlug, undefined, async (at) => {
    const rows = await at.tx.$queryRaw<unknown[]>`
      update mail set attempts = greatest(attempts, 1)
      where id = ${asId(mailId)}::uuid and park_id = ${at.park.id}::uuid and state in ('queued', 'failed') returning 1`;
    return rows.length === 0 ? null : matterOf(at, mailId);
  });
}

/** Keeps the text that was shown to be sent by hand, without its link. */
export async function keepText(actor: Actor, parkSlug: string, mailId: string, { subject, body }: KeptText): Promise<void> {
  requireStaff(actor, parkSlug);
  await inStayTransaction(actor, parkSlug, undefined, async ({ tx, park }) => {
    await tx.mail.updateMany({ where: { id: asId(mailId), parkId: park.id, state: { in: ["queued", "failed"] } }, data: { subject, body } });
  });
}

/** Notes that somebody sent it by hand; false where it was sent, or overtaken, meanwhile. */
export async function markSent(actor: Actor, parkSlug: string, mailId: string): Promise<boolean> {
  requireStaff(actor, parkSlug);
  return inStayTransaction(actor, parkSlug, undefined, async ({ tx, park }) => {
    const changed = await tx.$executeRaw`
      update mail set state = 'by-hand', sent_at = clock_timestamp(), sent_by = ${nameOf(actor)}, last_error = null
      where id = ${asId(mailId)}::uuid and park_id = ${park.id}::uuid and state in ('queued', 'failed')`;
    return changed === 1;
  });
}

/** Lets mail that failed, or waits for another try, be tried anew at once; false where it needs no sending any more. */
export async function tryAgain(actor: Actor, parkSlug: string, mailId: string): Promise<boolean> {
  requireStaff(actor, parkSlug);
  return inStayTransaction(actor, parkSlug, undefined, async ({ tx, park }) => {
    const changed = await tx.$executeRaw`
      update mail set state = 'queued', attempts = 0, next_try_at = clock_timestamp()
      where id = ${asId(mailId)}::uuid and park_id = ${park.id}::uuid and state in ('queued', 'failed')`;
    return changed === 1;
  });
}

/** What is no id is that of no mail. */
function asId(text: string): string {
  return /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/.test(text) ? text : "00000000-0000-0000-0000-000000000000";
}

interface Row {
  readonly id: string;
  readonly kind: string;
  readonly state: string;
  readonly toAddress: string;
  readonly attempts: number;
  readonly lastError: string | null;
  readonly createdAt: Date;
  readonly nextTryAt: Date;
  readonly sentAt: Date | null;
  readonly sentBy: string | null;
  readonly subject: string | null;
  readonly body: string | null;
  readonly stay: { readonly id: string; readonly reference: string; readonly guestName: string | null } | null;
}

function toMail(row: Row): OutboxMail {
  return {
    id: row.id,
    kind: row.kind as MailKind,
    state: mailStates.find((state) => state === row.state) ?? "queued",
    to: row.toAddress,
    stay: { id: row.stay!.id, reference: row.stay!.reference, guest: row.stay!.guestName ?? "" },
    attempts: row.attempts,
    error: row.lastError,
    createdAt: row.createdAt.getTime(),
    nextTryAt: row.nextTryAt.getTime(),
    sentAt: row.sentAt?.getTime() ?? null,
    sentBy: row.sentBy,
    text: row.subject !== null && row.body !== null ? { subject: row.subject, body: row.body } : null,
  };
}
