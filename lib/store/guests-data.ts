import type { IsoDate, Nights, StayState } from "@/lib/stays";
import { client } from "./client";
import { inStore } from "./errors";
import { Prisma } from "./generated/client";
import { notThere, requireStaff, type Actor } from "./stays-actor";
import { inStayTransaction, type StayTransaction } from "./stays-transaction";

/** One place in which the park keeps somebody's name: a stay, or word left with a request that found nothing. */
export interface GuestRecord {
  readonly kind: "stay" | "unmet";
  readonly id: string;
  /** Of a stay: what a person says on the phone. */
  readonly reference: string | null;
  readonly state: StayState | null;
  readonly nights: Nights;
  readonly site: string | null;
  readonly name: string;
  readonly email: string | null;
  readonly phone: string | null;
  readonly plate: string | null;
  /** Names of things of the park's that they have not brought back. */
  readonly lent: readonly string[];
}

/** What two records may share that says they are of one person. */
export type Shared = "email" | "phone" | "plate" | "name";

/** What the park keeps of somebody, from one record of theirs. */
export interface GuestFile {
  readonly seed: GuestRecord;
  /** Theirs without doubt, the seed included, the last nights first: of the same e-mail, or of the same name with a phone or plate. */
  readonly theirs: readonly GuestRecord[];
  /** Perhaps theirs: a name, phone or plate is the same and nothing else. A person looks. */
  readonly perhaps: readonly (GuestRecord & { readonly shares: readonly Shared[] })[];
}

/** The records of one guest that something is to be done with. */
export interface Chosen {
  readonly stays: readonly string[];
  readonly unmet: readonly string[];
}

/** Whether a stay is over, and its guest can be erased. */
export function isOver({ kind, state }: Pick<GuestRecord, "kind" | "state">): boolean {
  return kind === "unmet" || state === "departed" || state === "cancelled" || state === "no-show";
}

/** What says of two records that they are of one person; a phone by its digits, everything else whatever its case. */
export function sharedBy(a: GuestRecord, b: GuestRecord): Shared[] {
  const same = (of: (record: GuestRecord) => string) => of(a) !== "" && of(a) === of(b);
  return [
    ...(same(emailKey) ? ["email" as const] : []),
    ...(same(phoneKey) ? ["phone" as const] : []),
    ...(same(plateKey) ? ["plate" as const] : []),
    ...(same(nameKey) ? ["name" as const] : []),
  ];
}

/** Several people may answer one phone or drive one rig: a name has to agree as well. */
export function areOneGuest(shared: readonly Shared[]): boolean {
  return shared.includes("email") || (shared.includes("name") && (shared.includes("phone") || shared.includes("plate")));
}

/**
 * Guests of a name, e-mail, phone, plate or reference, all words together, each with what is theirs of what was found; the last
 * nights first, at most `most` records. For managers.
 */
export async function findGuests(actor: Actor, parkSlug: string, text: string, most = 200): Promise<GuestRecord[][]> {
  requireManager(actor, parkSlug);
  const words = text.trim().toLowerCase().split(/\s+/).filter(Boolean).slice(0, 6);
  if (words.length === 0) return [];
  const digits = text.replace(/\D/g, "");
  const rows = await inStore(() => readRecords(parkSlug, matching(words, digits), most));
  const guests: GuestRecord[][] = [];
  for (const row of rows) {
    const known = guests.find((records) => records.some((record) => areOneGuest(sharedBy(record, row))));
    if (known) known.push(row);
    else guests.push([row]);
  }
  return guests;
}

/** What the park keeps of the guest of that stay or request; `missing` where it is not there, or names nobody. For managers. */
export async function readGuestFile(actor: Actor, parkSlug: string, id: string): Promise<GuestFile> {
  requireManager(actor, parkSlug);
  if (!isId(id)) throw notThere("the guest");
  return inStore(async () => {
    const [seed] = await readRecords(parkSlug, () => Prisma.sql`r.id = ${id}::uuid`, 1);
    if (!seed) throw notThere("the guest");
    const akin = (await readRecords(parkSlug, sharing(seed), 500)).filter((record) => record.id !== seed.id).map((record) => ({ ...record, shares: sharedBy(seed, record) }));
    return { seed, theirs: latestFirst([seed, ...akin.filter(({ shares }) => areOneGuest(shares))]), perhaps: akin.filter(({ shares }) => !areOneGuest(shares)) };
  });
}

/** Free texts of other records that name somebody: a person has to look what is meant. At most `most`, without those in `except`. */
export interface Mention {
  readonly stay: string;
  readonly reference: string;
  readonly text: string;
}

/** Notes and remarks on other stays in which the name stands. For managers. */
export async function findMentions(actor: Actor, parkSlug: string, name: string, except: readonly string[], most = 20): Promise<Mention[]> {
  requireManager(actor, parkSlug);
  const like = `%${escaped(nameKey({ name }))}%`;
  return inStore(() => client().$queryRaw<Mention[]>`
    select t.id::text as stay, t.reference, said.text
    from stay t
    cross join lateral (
      select t.note as text union all select t.outcome_note union all select t.fit_override ->> 'why'
      union all select n.text from stay_note n where n.stay_id = t.id
      union all select p.means from stay_payment p where p.stay_id = t.id
      union all select a.reason from audit_entry a where a.subject_id = t.id) said
    where t.park_id = (select id from park where slug = ${parkSlug}) and lower(said.text) like ${like} and not (t.id = any (${[...except]}::uuid[]))
    group by t.id, t.reference, said.text
    order by t.reference limit ${most}`);
}

/**
 * Erases the guest of every stay and request chosen, all of them or none: the database takes out what says who it was, see
 * lib/store/README.md. Refused where a stay is not over. For managers.
 */
export async function eraseGuest(actor: Actor, parkSlug: string, chosen: Chosen): Promise<void> {
  requireManager(actor, parkSlug);
  await inStayTransaction(actor, parkSlug, "erased", async (at) => {
    const { stays, unmet } = await requireThere(at, chosen);
    // In one order, so that two managers at once do not wait for each other.
    for (const id of [...stays].sort()) await at.tx.$executeRaw`select erase_guest(${id}::uuid)`;
    for (const id of [...unmet].sort()) await at.tx.$executeRaw`select erase_unmet(${id}::uuid)`;
    // Files that wait to be read in may be a table of stays that names them.
    await at.tx.inventoryUpload.deleteMany({ where: { parkId: at.park.id, doneAt: null } });
  });
}

/** The chosen records, each once, where all are the park's; else `missing`. */
export async function requireThere({ tx, park }: StayTransaction, { stays, unmet }: Chosen): Promise<Chosen> {
  const once = { stays: [...new Set(stays)], unmet: [...new Set(unmet)] };
  if (![...once.stays, ...once.unmet].every(isId)) throw notThere("the guest");
  const [theirs, requests] = [
    await tx.stay.count({ where: { parkId: park.id, id: { in: once.stays } } }),
    await tx.unmetRequest.count({ where: { parkId: park.id, id: { in: once.unmet } } }),
  ];
  if (theirs !== once.stays.length || requests !== once.unmet.length) throw notThere("the guest");
  return once;
}

/** What a guest's data is, is for managers alone. */
export function requireManager(actor: Actor, parkSlug: string): void {
  requireStaff(actor, parkSlug, ["manager"]);
}

function isId(text: string): boolean {
  return /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/.test(text);
}

/** A condition on `r`, which is a stay or a request that found nothing. */
type Condition = (from: "stay" | "unmet") => Prisma.Sql;

function matching(words: readonly string[], digits: string): Condition {
  return (from) => {
    const conditions = words.map((word) => {
      const like = `%${escaped(word)}%`;
      const only = from === "stay" ? Prisma.sql` or lower(r.reference) like ${like} or lower(coalesce(r.plate, '')) like ${like}` : Prisma.empty;
      return Prisma.sql`(lower(coalesce(r.guest_name, '')) like ${like} or lower(coalesce(r.guest_email, '')) like ${like}${only})`;
    });
    const phone = digits.length >= 4 ? Prisma.sql` or regexp_replace(coalesce(r.guest_phone, ''), '[^0-9]', '', 'g') like ${`%${digits}%`}` : Prisma.empty;
    return Prisma.sql`((${Prisma.join(conditions, " and ")})${phone})`;
  };
}

function sharing(seed: GuestRecord): Condition {
  return (from) => {
    const ways = [Prisma.sql`regexp_replace(lower(trim(r.guest_name)), '\\s+', ' ', 'g') = ${nameKey(seed)}`];
    if (emailKey(seed)) ways.push(Prisma.sql`lower(trim(r.guest_email)) = ${emailKey(seed)}`);
    if (phoneKey(seed)) ways.push(Prisma.sql`regexp_replace(r.guest_phone, '[^0-9]', '', 'g') = ${phoneKey(seed)}`);
    if (from === "stay" && plateKey(seed)) ways.push(Prisma.sql`regexp_replace(upper(r.plate), '[^0-9A-Z]', '', 'g') = ${plateKey(seed)}`);
    return Prisma.sql`(${Prisma.join(ways, " or ")})`;
  };
}

type Row = Omit<GuestRecord, "nights"> & { arrive: IsoDate; depart: IsoDate };

async function readRecords(parkSlug: string, condition: Condition, most: number): Promise<GuestRecord[]> {
  const park = Prisma.sql`r.park_id = (select id from park where slug = ${parkSlug})`;
  const rows = await client().$queryRaw<Row[]>`
    select * from (
      select 'stay' as kind, r.id::text, r.reference, r.state, r.arrive::text, r.depart::text, s.label as site, r.guest_name as name, r.guest_email as email, r.guest_phone as phone, r.plate,
             (select coalesce(array_agg(l.name order by l.created_at), '{}') from loan l where l.stay_id = r.id and l.returned_at is null) as lent
      from stay r left join site s on s.id = r.site_id
      where ${park} and r.guest_name is not null and r.erased_at is null and ${condition("stay")}
      union all
      select 'unmet', r.id::text, null, null, r.arrive::text, r.depart::text, null, r.guest_name, r.guest_email, r.guest_phone, null, '{}'
      from unmet_request r
      where ${park} and r.guest_name is not null and ${condition("unmet")}) found
    order by depart desc, kind, id limit ${most}`;
  return rows.map(({ arrive, depart, ...row }) => ({ ...row, nights: { arrive, depart } as Nights }));
}

function latestFirst(records: readonly GuestRecord[]): GuestRecord[] {
  return [...records].sort((a, b) => (a.nights.depart < b.nights.depart ? 1 : a.nights.depart > b.nights.depart ? -1 : a.id < b.id ? -1 : 1));
}

function escaped(word: string): string {
  return word.replace(/[%_\\]/g, (sign) => `\\${sign}`);
}

const nameKey = ({ name }: Pick<GuestRecord, "name">) => name.trim().toLowerCase().replace(/\s+/g, " ");
const emailKey = ({ email }: GuestRecord) => (email ?? "").trim().toLowerCase();
const phoneKey = ({ phone }: GuestRecord) => (phone ?? "").replace(/\D/g, "");
const plateKey = ({ plate }: GuestRecord) => (plate ?? "").toUpperCase().replace(/[^0-9A-Z]/g, "");
