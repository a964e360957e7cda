import { isOvertaken, isToldBy, mailKinds, settlesFor, type MailKind } from "@/lib/stays";
import type { Prisma } from "./generated/client";
import type { Stay } from "./stays-record";
import type { StayTransaction } from "./stays-transaction";

/**
 * Mail to guests, written in the transaction of the change it tells of: no change without its mail, no mail without its
 * change. The text is made when it is sent. How it is sent is in mail-sending.ts, what staff see of it in mail-outbox.ts.
 */

/** As it waits (`queued`), was sent, could not be, was sent by a person, or is not to be sent as something else has happened. */
export const mailStates = ["queued", "sent", "failed", "by-hand", "overtaken"] as const;
export type MailState = (typeof mailStates)[number];

/**
 * Queues mail of `kind` to the guest of `stay`, where they have an e-mail address. What waits and was never tried is one
 * with it where the one tells what the other does, and goes where it tells what is not so any more.
 */
export async function queueMail({ tx, park }: StayTransaction, stay: Stay, kind: MailKind): Promise<void> {
  if (!stay.guest?.email) return;
  // Passed over where it is being sent at this moment: that text is made already, so the change needs mail of its own.
  const waiting = await tx.$queryRaw<{ id: string; kind: MailKind }[]>`
    select id::text, kind from mail
    where stay_id = ${stay.id}::uuid and state = 'queued' and attempts = 0 and kind = any(${[...mailKinds]}) for update skip locked`;
  const [needless, left] = [waiting.filter((mail) => isOvertaken(mail.kind, stay.state)), waiting.filter((mail) => !isOvertaken(mail.kind, stay.state))];
  const told = left.find((mail) => isToldBy(kind, mail.kind));
  if (told) await tx.mail.update({ where: { id: told.id }, data: { toAddress: stay.guest.email } });
  else needless.push(...left.filter((mail) => isToldBy(mail.kind, kind)));
  if (needless.length > 0) await tx.mail.deleteMany({ where: { id: { in: needless.map(({ id }) => id) } } });
  if (told || (await isFull(tx, stay.id))) return;
  await tx.$executeRaw`
    insert into mail (park_id, stay_id, kind, to_address, next_try_at)
    values (${park.id}::uuid, ${stay.id}::uuid, ${kind}, ${stay.guest.email}, clock_timestamp() + make_interval(secs => ${settlesFor(kind)}::int))`;
}

/** Queues mail to the guests of stays that ran out, those with an e-mail address; and what waited of those stays is overtaken. */
export async function queueRunOut(tx: Prisma.TransactionClient, stayIds: readonly string[]): Promise<void> {
  if (stayIds.length === 0) return;
  await tx.$executeRaw`delete from mail where stay_id = any(${stayIds}::uuid[]) and state = 'queued' and attempts = 0`;
  await tx.$executeRaw`
    insert into mail (park_id, stay_id, kind, to_address)
    select park_id, id, 'ran-out', guest_email from stay where id = any(${stayIds}::uuid[]) and guest_email is not null`;
}

/** Whoever has a stay's link may change it again and again, and whose address it names may be somebody else's: a day's mail is bounded. */
const mostADay = 20;

async function isFull(tx: Prisma.TransactionClient, stayId: string): Promise<boolean> {
  const [row] = await tx.$queryRaw<{ full: boolean }[]>`
    select count(*) >= ${mostADay} as full from mail where stay_id = ${stayId}::uuid and created_at > clock_timestamp() - interval '1 day'`;
  return row?.full === true;
}
