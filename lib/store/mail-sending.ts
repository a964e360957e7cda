import { costOfCancelling, dateIn, isOvertaken, retryDelays, termsOf, type CancellationCost, type MailKind, type StaySettings } from "@/lib/stays";
import { client } from "./client";
import { inStore } from "./errors";
import type { Prisma } from "./generated/client";
import { addLink } from "./stays-links";
import { accountOf, type StayAccount } from "./stays-money";
import { readStay, type Stay } from "./stays-record";
import { inStayTransaction, type StayTransaction } from "./stays-transaction";

/** All that mail is written from: the stay as it stands, and a private link of its own. */
export interface MailMatter {
  readonly id: string;
  readonly kind: MailKind;
  readonly to: string;
  readonly park: { readonly slug: string; readonly name: string };
  readonly settings: StaySettings;
  readonly stay: Stay;
  /** The site as the park calls it; null where none is assigned. */
  readonly site: string | null;
  readonly account: StayAccount;
  /** What cancelling came to, where the stay is cancelled. */
  readonly cost: CancellationCost | null;
  /** The token of a link made for this text alone. */
  readonly link: string;
}

/** Mail that this process alone is to send, for as long as {@link lease}. */
export interface Claim {
  readonly id: string;
  readonly parkSlug: string;
  /** Counts the tries, this one included. A try that is not the last any more settles nothing. */
  readonly attempt: number;
}

/** For how long claimed mail is left to who claimed it, seconds. Who was killed meanwhile may have sent it: then it comes twice. */
const lease = 5 * 60;

/** The text as it is kept, its link taken out. */
export interface KeptText {
  readonly subject: string;
  readonly body: string;
}

/**
 * Claims the mail that is due first, over all parks; null where none is. One statement, past what others are at: however
 * many processes ask, each has another. Nothing is locked while it is sent.
 */
export async function claimMail(): Promise<Claim | null> {
  const [row] = await inStore(() => client().$queryRaw<{ id: string; slug: string; attempts: number }[]>`
    update mail m set attempts = attempts + 1, next_try_at = clock_timestamp() + make_interval(secs => ${lease}::int)
    from park p
    where p.id = m.park_id and m.id = (
      select id from mail where state = 'queued' and stay_id is not null and next_try_at <= clock_timestamp() order by next_try_at limit 1 for update skip locked)
    returning m.id::text, p.slug, m.attempts`);
  return row ? { id: row.id, parkSlug: row.slug, attempt: row.attempts } : null;
}

/** What a claim is written from, with its link; null where there is nothing to tell any more, which is then noted. */
export async function prepareMail({ id, parkSlug }: Pick<Claim, "id" | "parkSlug">): Promise<MailMatter | null> {
  return inStayTransaction({ kind: "clock" }, parkSlug, undefined, async (at) => matterOf(at, id));
}

/** The same within a transaction of whoever looks at it: staff, where mail is sent by hand. */
export async function matterOf(at: StayTransaction, mailId: string): Promise<MailMatter | null> {
  const { tx, park } = at;
  const mail = await tx.mail.findFirst({ where: { id: mailId, parkId: park.id }, include: { park: { select: { name: true } } } });
  if (!mail?.stayId) return null;
  const kind = mail.kind as MailKind;
  const { stay } = await readStay(at, mail.stayId);
  const to = stay.guest?.email;
  if (!to || isOvertaken(kind, stay.state)) {
    await tx.mail.updateMany({ where: { id: mailId, state: { in: ["queued", "failed"] } }, data: { state: "overtaken" } });
    return null;
  }
  // A guest's address that was put right since goes before the one it was queued for.
  if (to !== mail.toAddress) await tx.mail.update({ where: { id: mailId }, data: { toAddress: to } });
  const account = await accountOf(tx, stay.id);
  return {
    id: mailId, kind, to, stay, account,
    park: { slug: park.slug, name: mail.park.name },
    settings: park.settings,
    site: await labelOf(at, stay),
    cost: stay.state === "cancelled" ? await costOf(at, stay, account) : null,
    link: await addLink(at, stay.id),
  };
}

/** Notes that it was handed over to the mail server. */
export async function settleSent(claim: Claim, { subject, body }: KeptText): Promise<void> {
  await inStore(() => client().$executeRaw`
    update mail set state = 'sent', sent_at = clock_timestamp(), last_error = null, subject = ${subject}, body = ${body}
    where id = ${claim.id}::uuid and state = 'queued' and attempts = ${claim.attempt}`);
}

/** Notes why it could not be sent. It is tried again later, ever less often, unless that is `final` or was the last time. */
export async function settleFailed(claim: Claim, error: string, final: boolean): Promise<void> {
  const delay = final ? undefined : retryDelays[claim.attempt - 1];
  await inStore(() => client().$executeRaw`
    update mail set state = ${delay === undefined ? "failed" : "queued"}, last_error = ${error.slice(0, mostOfError)},
                    next_try_at = clock_timestamp() + make_interval(secs => ${delay ?? 0}::int)
    where id = ${claim.id}::uuid and state = 'queued' and attempts = ${claim.attempt}`);
}

/** Letters of a mail server's own words that are kept. */
const mostOfError = 500;

async function labelOf({ tx, park }: StayTransaction, { site }: Stay): Promise<string | null> {
  if (site === null) return null;
  const row = await tx.site.findUnique({ where: { parkId_siteId: { parkId: park.id, siteId: site } }, select: { label: true } });
  return row?.label ?? site;
}

/** By the day on which it was cancelled, which may be before today. */
async function costOf({ tx, park, now }: StayTransaction, stay: Stay, { quotes, total, paid }: StayAccount): Promise<CancellationCost> {
  const entry = await tx.auditEntry.findFirst({ where: { parkId: park.id, subjectId: stay.id, after: { path: ["state"], equals: "cancelled" } satisfies Prisma.JsonNullableFilter }, orderBy: { at: "desc" }, select: { at: true } });
  return costOfCancelling(termsOf(quotes, park.settings.cancellation), { nights: stay.nights, total, paid, today: dateIn(park.settings.zone, entry?.at.getTime() ?? now) });
}
