import type { Prisma } from "./generated/client";
import type { Actor } from "./stays-actor";
import { requireManager, requireThere, type Chosen } from "./guests-data";
import { inStayTransaction, type StayTransaction } from "./stays-transaction";

/**
 * Everything that is kept of a guest, as it can be handed to them. Times are UTC, money in the currency's smallest unit, lengths
 * in millimetres. It holds the same set as erasing takes from; links and keys are told of by when they were made, not by what they are.
 */
export interface GuestExport {
  readonly park: { readonly slug: string; readonly name: string };
  readonly madeAt: string;
  readonly stays: readonly Plain[];
  readonly unmetRequests: readonly Plain[];
  /** Mail to one of their addresses that belongs to no stay. */
  readonly otherMail: readonly Plain[];
}

/** A row as JSON holds it. */
export interface Plain {
  readonly [field: string]: unknown;
}

/** What is kept with the chosen records, and the note in the audit that it was handed out. For managers. */
export async function exportGuest(actor: Actor, parkSlug: string, chosen: Chosen): Promise<GuestExport> {
  requireManager(actor, parkSlug);
  return inStayTransaction(actor, parkSlug, undefined, async (at) => {
    const there = await requireThere(at, chosen);
    const { name } = await at.tx.park.findUniqueOrThrow({ where: { id: at.park.id }, select: { name: true } });
    const stays = await readStays(at, there.stays);
    const unmetRows = await at.tx.unmetRequest.findMany({ where: { id: { in: [...there.unmet] } }, orderBy: { createdAt: "asc" } });
    const unmetRequests: Plain[] = [];
    for (const row of unmetRows) unmetRequests.push({ ...plainOf(row, ["fingerprint"]), audit: await readAudit(at, [row.id]) });
    await noteExport(at, there);
    return {
      park: { slug: parkSlug, name },
      madeAt: new Date(at.now).toISOString(),
      stays: stays.map(({ plain }) => plain),
      unmetRequests,
      otherMail: await readOtherMail(at, [...stays.flatMap(({ emails }) => emails), ...unmetRows.flatMap(({ guestEmail }) => guestEmail ?? [])]),
    };
  });
}

async function readStays(at: StayTransaction, ids: readonly string[]): Promise<{ plain: Plain; emails: string[] }[]> {
  const oldest = { orderBy: { createdAt: "asc" } } as const;
  const rows = await at.tx.stay.findMany({
    where: { id: { in: [...ids] } },
    orderBy: { arrive: "asc" },
    include: { site: { select: { siteId: true, label: true } }, quotes: oldest, payments: oldest, notes: oldest, loans: oldest, mails: oldest, links: oldest, idempotencyKeys: oldest },
  });
  const read: { plain: Plain; emails: string[] }[] = [];
  for (const { site, quotes, payments, notes, loans, mails, links, idempotencyKeys, ...stay } of rows) {
    const audit = await readAudit(at, [stay.id, ...[quotes, payments, notes, loans, links].flat().map(({ id }) => id)]);
    read.push({
      emails: emailsIn(stay.guestEmail, audit),
      plain: {
        ...plainOf(stay, ["siteId"]),
        site: site && { id: site.siteId, label: site.label },
        quotes: quotes.map((row) => plainOf(row, ["stayId"])),
        payments: payments.map((row) => plainOf(row, ["stayId"])),
        notes: notes.map((row) => plainOf(row, ["stayId"])),
        loans: loans.map((row) => plainOf(row, ["stayId"])),
        mail: mails.map((row) => plainOf(row, ["stayId"])),
        links: links.map((row) => plainOf(row, ["stayId", "tokenHash"])),
        requestKeys: idempotencyKeys.map((row) => plainOf(row, ["stayId", "requestHash"])),
        audit,
      },
    });
  }
  return read;
}

async function readAudit({ tx, park }: StayTransaction, subjects: readonly string[]): Promise<Plain[]> {
  const rows = await tx.auditEntry.findMany({ where: { parkId: park.id, subjectId: { in: [...subjects] } }, orderBy: [{ at: "asc" }, { id: "asc" }] });
  return rows.map((row) => ({ ...plainOf(row, []), before: withoutHash(row.before), after: withoutHash(row.after) }));
}

async function readOtherMail({ tx, park }: StayTransaction, emails: readonly string[]): Promise<Plain[]> {
  const known = new Set(emails.map((email) => email.toLowerCase()));
  const rows = await tx.mail.findMany({ where: { parkId: park.id, stayId: null, OR: [...known].map((email) => ({ toAddress: { equals: email, mode: "insensitive" as const } })) }, orderBy: { createdAt: "asc" } });
  // Whatever the case is asked as a pattern, in which an underline stands for any letter.
  return rows.filter(({ toAddress }) => known.has(toAddress.toLowerCase())).map((row) => plainOf(row, ["stayId"]));
}

/** Addresses that a stay has or had. */
function emailsIn(present: string | null, audit: readonly Plain[]): string[] {
  const told = audit.flatMap(({ before, after }) => [before, after]).map((row) => (row as Plain | null)?.["guest_email"]);
  return [present, ...told].filter((email) => typeof email === "string");
}

async function noteExport({ tx, park, actor }: StayTransaction, { stays, unmet }: Chosen): Promise<void> {
  const subjects = [...stays.map((id) => ["stay", id] as const), ...unmet.map((id) => ["unmet_request", id] as const)];
  for (const [subject, subjectId] of subjects) {
    await tx.auditEntry.create({
      data: { parkId: park.id, actorKind: actor.kind, actor: actor.kind === "manager" ? actor.account : null, reason: "exported", subject, subjectId, before: {}, after: {} },
    });
  }
}

/** Of a link even the hash stays here: it is the park's, to know the link again by. */
function withoutHash(row: Prisma.JsonValue): unknown {
  if (row === null || typeof row !== "object" || Array.isArray(row)) return row;
  const { token_hash: _, ...rest } = row;
  return rest;
}

/** A row as JSON holds it, without the park and what is `left` out. A date without a time is one. */
function plainOf(row: object, left: readonly string[]): Plain {
  const fields = Object.entries(row).filter(([field]) => field !== "parkId" && !left.includes(field));
  return Object.fromEntries(fields.map(([field, value]: [string, unknown]) => [field, typeof value === "bigint" ? Number(value) : value instanceof Date ? (dateFields.has(field) ? value.toISOString().slice(0, 10) : value.toISOString()) : value]));
}

const dateFields: ReadonlySet<string> = new Set(["arrive", "depart", "freedFrom", "askedOn"]);
