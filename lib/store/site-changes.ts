import { siteSchema, type Site, type SiteInput } from "@/lib/park";
import type { ActorKind } from "@/lib/stays";
import { client } from "./client";
import { inStore, StoreError } from "./errors";
import type { Prisma } from "./generated/client";
import { ANEW } from "./site-effects";
import { notThere, requireStaff, type Actor } from "./stays-actor";
import { inStayTransaction, type StayTransaction } from "./stays-transaction";

/** What brings a change of a site. */
export const changeCauses = ["edit", "survey", "import", "restore", "copy"] as const;
export type ChangeCause = (typeof changeCauses)[number];

/** One site's new record. */
export interface SiteChange {
  readonly siteId: string;
  /** The version it began from; null: a new site, or one that is out of use and comes back. */
  readonly base: number | null;
  /** As it is to be kept, whatever else it carries; null: taken out of use. */
  readonly record: SiteInput | null;
}

/** Who changes sites: a manager of their park. */
export type Manager = Extract<Actor, { kind: "desk" | "manager" }>;

/** A site as it stands, with the version that a change begins from. */
export interface SiteAt {
  /** As it came in, whatever else it carries. */
  readonly record: SiteInput;
  readonly version: number;
  /** Out of use: nobody can have it, and it is in no list. */
  readonly retired: boolean;
}

/** A change began from an older version than the site now has. Which ones, and what they are at; null: not there (any more). */
export class SitesStale extends StoreError {
  constructor(readonly sites: readonly { readonly siteId: string; readonly base: number | null; readonly version: number | null }[]) {
    super("stale", `changed since it was read: ${sites.map(({ siteId, base, version }) => `${siteId} from ${base ?? "new"}, now ${version ?? "not there"}`).join("; ")}`, null);
  }
}

/** A site cannot be taken out of use: somebody is on it or is still to come, or a closure is in force. */
export class SitesInUse extends StoreError {
  constructor(readonly sites: readonly SiteUse[], options?: ErrorOptions) {
    super("refused", `in use: ${sites.map(({ siteId }) => siteId).join(", ")}`, "site_in_use", options);
  }
}

/** What keeps a site from being taken out of use. */
export interface SiteUse {
  readonly siteId: string;
  readonly stays: readonly { readonly id: string; readonly reference: string }[];
  readonly closures: number;
}

/** Records that are no sites: every fault with its site and the path of its field. */
export class SiteFaults extends StoreError {
  constructor(readonly faults: readonly { readonly siteId: string; readonly path: readonly PropertyKey[]; readonly message: string }[]) {
    super("refused", `not a site: ${faults.slice(0, 5).map(({ siteId, path, message }) => `${siteId} ${path.map(String).join(".")} ${message}`).join("; ")}`, null);
  }
}

/** The site as it stands, for a manager to change; null where the park never had one of that id. */
export async function getSiteAt(actor: Manager, siteId: string): Promise<SiteAt | null> {
  return (await listSitesAt(actor, [siteId])).get(siteId) ?? null;
}

/** The same for several sites, by their ids, out of use or not; those that the park never had are left out. All where none are named. */
export async function listSitesAt(actor: Manager, siteIds?: readonly string[]): Promise<Map<string, SiteAt>> {
  requireStaff(actor, actor.park, ["manager"]);
  const rows = await inStore(() => client().site.findMany({
    where: { park: { slug: actor.park }, ...(siteIds ? { siteId: { in: [...siteIds] } } : {}) },
    orderBy: [{ position: "asc" }, { siteId: "asc" }],
    select: { siteId: true, record: true, version: true, retiredAt: true },
  }));
  return new Map(rows.map(({ siteId, record, version, retiredAt }) => [siteId, { record: record as unknown as SiteInput, version, retired: retiredAt !== null }]));
}

/**
 * Gives sites new records, adds sites and takes some out of use: all of it in one transaction, or nothing. Each change makes a
 * revision with who, when, `cause` and `why`; a record that is as the site has it makes none. Answers the version each site is at.
 *
 * Refused: a record that is no site ({@link SiteFaults}), a change that began from an older version ({@link SitesStale}), a site
 * taken out of use on which somebody is or is to come ({@link SitesInUse}). For managers; for others the sites are not there.
 */
export async function changeSites(actor: Manager, changes: readonly SiteChange[], { cause, why }: { readonly cause: ChangeCause; readonly why: string }): Promise<Map<string, number>> {
  requireStaff(actor, actor.park, ["manager"]);
  requireSound(changes);
  if (changes.length === 0) return new Map();
  return inStayTransaction(actor, actor.park, why.trim() === "" ? undefined : why.trim(), (at) => changeSitesWithin(at, changes, cause), PATIENCE);
}

/** How many sites of how many are changed. Nothing of it counts before the transaction ends. */
export type TellProgress = (done: number, of: number) => void;

/**
 * The same within a transaction that changes more than sites, and that a manager began. The records have been held to their schema.
 * `tell` hears of each part of some hundred sites that is done; what it throws undoes the whole.
 */
export async function changeSitesWithin(at: StayTransaction, changes: readonly SiteChange[], cause: ChangeCause, tell?: TellProgress): Promise<Map<string, number>> {
  await at.tx.$queryRaw`select set_config('padwright.cause', ${cause}, true)`;
  const present = await lockSites(at, changes);
  requireFresh(changes, present);
  let done = 0;
  tell?.(done, changes.length);
  const inTurn = async <T>(all: readonly T[], work: (at: StayTransaction, part: readonly T[]) => Promise<void>) => {
    for (const part of inParts(all)) {
      await work(at, part);
      tell?.(done += part.length, changes.length);
    }
  };
  await inTurn(changes.filter(({ record }) => record === null), retire);
  const kept = changes.flatMap(({ siteId, record }) => (record === null ? [] : [{ siteId, record }]));
  await inTurn(kept.filter(({ siteId }) => present.has(siteId)), rewrite);
  await inTurn(kept.filter(({ siteId }) => !present.has(siteId)), add);
  return readVersions(at, changes);
}

/** What keeps a site from being taken out of use, for a manager; null where nothing does. */
export async function getSiteUse(actor: Manager, siteId: string): Promise<SiteUse | null> {
  requireStaff(actor, actor.park, ["manager"]);
  return inStayTransaction(actor, actor.park, undefined, async (at) => (await readUses(at, [siteId]))[0] ?? null);
}

/** A record that a site has or had. */
export interface Revision {
  readonly number: number;
  /** Milliseconds. */
  readonly at: number;
  readonly by: ActorKind;
  readonly who: string | null;
  readonly cause: ChangeCause | "load";
  readonly why: string | null;
  /** As it was kept; null: taken out of use. */
  readonly record: SiteInput | null;
}

/** The last `most` revisions of a site, latest first, for managers; none where the park never had such a site. */
export async function listRevisions(actor: Manager, siteId: string, most = 200): Promise<Revision[]> {
  requireStaff(actor, actor.park, ["manager"]);
  const rows = await inStore(() => client().siteRevision.findMany({ where: { site: { siteId, park: { slug: actor.park } } }, orderBy: { number: "desc" }, take: most }));
  return rows.map(toRevision);
}

/** One revision of a site, for managers; null where there is none of that number. */
export async function getRevision(actor: Manager, siteId: string, number: number): Promise<Revision | null> {
  requireStaff(actor, actor.park, ["manager"]);
  const row = await inStore(() => client().siteRevision.findFirst({ where: { number, site: { siteId, park: { slug: actor.park } } } }));
  return row && toRevision(row);
}

/**
 * Gives a site the record of an earlier revision again, as a new revision: nothing in between is lost. `base` is the version that
 * was looked at. A revision that took the site out of use takes it out again. Answers the new version.
 */
export async function restoreRevision(actor: Manager, siteId: string, number: number, base: number, why: string): Promise<number> {
  const revision = await getRevision(actor, siteId, number);
  if (!revision) throw notThere(`revision ${number} of ${siteId}`);
  const versions = await changeSites(actor, [{ siteId, base, record: revision.record }], { cause: "restore", why });
  return versions.get(siteId)!;
}

/** How long a change of many sites may take, milliseconds: ten thousand take some seconds. */
export const PATIENCE = 120_000;
/** How many sites a statement changes: some thousand kilobytes of records. */
const PART = 500;

interface SiteRow {
  readonly siteId: string;
  readonly version: number;
  readonly retired: boolean;
}

/** Every fault of every record, and of the list of changes itself, as {@link SiteFaults}. */
export function requireSound(changes: readonly SiteChange[]): void {
  const seen = new Set<string>();
  const faults = changes.flatMap(({ siteId, record }) => {
    const twice = seen.has(siteId) ? [{ siteId, path: [], message: "is changed twice at once" }] : [];
    seen.add(siteId);
    if (record === null) return twice;
    const other = record.id === siteId ? [] : [{ siteId, path: ["id"], message: `must stay ${siteId}` }];
    return [...twice, ...other, ...(siteSchema.safeParse(record).error?.issues ?? []).map(({ path, message }) => ({ siteId, path, message }))];
  });
  if (faults.length > 0) throw new SiteFaults(faults);
}

/** In the order of their rows' ids, so that two changes of the same sites wait for one another and never each for the other. */
async function lockSites({ tx, park }: StayTransaction, changes: readonly SiteChange[]): Promise<Map<string, SiteRow>> {
  const rows = await tx.$queryRaw<SiteRow[]>`
    select site_id as "siteId", version, retired_at is not null as retired from site
    where park_id = ${park.id}::uuid and site_id = any(${changes.map(({ siteId }) => siteId)}) order by id for no key update`;
  return new Map(rows.map((row) => [row.siteId, row]));
}

function requireFresh(changes: readonly SiteChange[], present: ReadonlyMap<string, SiteRow>): void {
  const stale = changes.flatMap(({ siteId, base }) => {
    const row = present.get(siteId);
    const fresh = base === null ? !row || row.retired : row?.version === base;
    return fresh ? [] : [{ siteId, base, version: row?.version ?? null }];
  });
  if (stale.length > 0) throw new SitesStale(stale);
}

async function retire(at: StayTransaction, part: readonly SiteChange[]): Promise<void> {
  const { tx, park, now } = at;
  const ids = part.map(({ siteId }) => siteId);
  const inUse = await readUses(at, ids);
  if (inUse.length > 0) throw new SitesInUse(inUse);
  await tx.site.updateMany({ where: { parkId: park.id, siteId: { in: ids }, retiredAt: null }, data: { retiredAt: new Date(now) } });
}

/** What the database would refuse it for, named. */
async function readUses({ tx, park, today }: StayTransaction, siteIds: readonly string[]): Promise<SiteUse[]> {
  return tx.$queryRaw<SiteUse[]>`
    select s.site_id as "siteId", count(c.id)::int as closures,
           coalesce(jsonb_agg(jsonb_build_object('id', t.id, 'reference', t.reference) order by t.arrive) filter (where t.id is not null), '[]') as stays
    from site s
    join (select o.site_id, o.stay_id, o.closure_id from occupancy o
          where upper(o.nights) > ${today}::date and (o.held_until is null or o.held_until > clock_timestamp())
          union select a.site_id, a.id, null from stay a where a.state = 'arrived') o on o.site_id = s.id
    left join stay t on t.id = o.stay_id left join closure c on c.id = o.closure_id
    where s.park_id = ${park.id}::uuid and s.site_id = any(${[...siteIds]})
    group by s.site_id, s.position order by s.position, s.site_id`;
}

/** Rows whose record stays as it was are passed over by the trigger that counts versions. */
async function rewrite({ tx, park }: StayTransaction, part: readonly { readonly siteId: string; readonly record: SiteInput }[]): Promise<void> {
  await tx.$executeRaw`
    update site s set record = c.record, retired_at = null
    from jsonb_to_recordset(${JSON.stringify(part)}::jsonb) as c("siteId" text, record jsonb)
    where s.park_id = ${park.id}::uuid and s.site_id = c."siteId"`;
}

async function add({ tx, park }: StayTransaction, part: readonly { readonly siteId: string; readonly record: SiteInput }[]): Promise<void> {
  const [last] = await tx.$queryRaw<{ position: number }[]>`select coalesce(max(position), -1) as position from site where park_id = ${park.id}::uuid`;
  await tx.site.createMany({
    data: part.map(({ siteId, record }, i) => ({ parkId: park.id, siteId, label: siteId, position: last!.position + 1 + i, record: record as unknown as Prisma.InputJsonObject })),
  });
  await tx.$executeRaw`update site set weighed_version = ${ANEW}::int where park_id = ${park.id}::uuid and site_id = any(${part.map(({ siteId }) => siteId)})`;
}

async function readVersions({ tx, park }: StayTransaction, changes: readonly SiteChange[]): Promise<Map<string, number>> {
  const rows = await tx.site.findMany({ where: { parkId: park.id, siteId: { in: changes.map(({ siteId }) => siteId) } }, select: { siteId: true, version: true } });
  return new Map(rows.map(({ siteId, version }) => [siteId, version]));
}

function inParts<T>(all: readonly T[]): T[][] {
  return Array.from({ length: Math.ceil(all.length / PART) }, (_, i) => all.slice(i * PART, (i + 1) * PART));
}

interface RevisionRow {
  readonly number: number; readonly at: Date; readonly actorKind: string; readonly actor: string | null; readonly cause: string; readonly why: string | null; readonly record: unknown;
}

function toRevision({ number, at, actorKind, actor, cause, why, record }: RevisionRow): Revision {
  return { number, at: at.getTime(), by: actorKind as ActorKind, who: actor, cause: cause as Revision["cause"], why, record: record as SiteInput | null };
}

/** A record as pages read it; for one that cannot be read any more it is null. */
export function readRecord(record: SiteInput | null): Site | null {
  return record === null ? null : (siteSchema.safeParse(record).data ?? null);
}
