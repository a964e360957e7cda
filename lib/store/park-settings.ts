import { policySchema, type Policy } from "@/lib/fit/policy";
import { dateIn, staySettingsSchema, type ActorKind, type IsoDate, type StaySettings } from "@/lib/stays";
import { client } from "./client";
import { inStore, StoreError } from "./errors";
import type { Prisma } from "./generated/client";
import { notThere, requireStaff, type Actor } from "./stays-actor";
import { inStayTransaction } from "./stays-transaction";

/** A park's settings for stays, and what date it is there. Anybody may know them. */
export interface StayContext {
  readonly settings: StaySettings;
  /** The date by the database's clock, in the park's zone. */
  readonly today: IsoDate;
  /** The database's clock, milliseconds. */
  readonly now: number;
}

/** Null where there is no such park. */
export async function getStayContext(parkSlug: string): Promise<StayContext | null> {
  const [row] = await inStore(() => client().$queryRaw<{ stay_settings: unknown; now: Date }[]>`select stay_settings, clock_timestamp() as now from park where slug = ${parkSlug}`);
  if (!row) return null;
  const settings = staySettingsSchema.parse(row.stay_settings);
  return { settings, today: dateIn(settings.zone, row.now.getTime()), now: row.now.getTime() };
}

/** All that a manager sets, and which version of it this is. */
export interface ParkSettings {
  readonly policy: Policy;
  readonly stays: StaySettings;
}

/**
 * Saves what was changed of a park's settings, for a manager, with its entry in the audit. `basedOn` is the version that
 * was edited; where another was saved since it is `stale`. The new version's number.
 */
export async function saveParkSettings(actor: Actor, parkSlug: string, settings: Partial<ParkSettings>, basedOn: number, reason?: string): Promise<number> {
  requireStaff(actor, parkSlug, ["manager"]);
  return inStayTransaction(actor, parkSlug, reason, async ({ tx, park }) => {
    const [row] = await tx.$queryRaw<{ version: number }[]>`select version from park where id = ${park.id}::uuid for update`;
    if (row?.version !== basedOn) throw new StoreError("stale", `changed since it was read: version ${basedOn} is now ${row?.version}`, null);
    const { policy, stays } = settings;
    const saved = await tx.park.update({
      where: { id: park.id },
      data: {
        version: { increment: 1 },
        ...(policy ? { policy: policy as unknown as Prisma.InputJsonObject } : {}),
        ...(stays ? { staySettings: stays as unknown as Prisma.InputJsonObject } : {}),
      },
    });
    return saved.version;
  });
}

/** Which version of its settings a park has. */
export async function getSettingsVersion(parkSlug: string): Promise<number> {
  const row = await inStore(() => client().park.findUnique({ where: { slug: parkSlug }, select: { version: true } }));
  if (!row) throw notThere(`park ${parkSlug}`);
  return row.version;
}

/** The settings together with the version they are, read as one, for a manager to change. */
export async function readParkSettings(actor: Actor, parkSlug: string): Promise<ParkSettings & { readonly version: number }> {
  requireStaff(actor, parkSlug, ["manager"]);
  const row = await inStore(() => client().park.findUnique({ where: { slug: parkSlug }, select: { version: true, policy: true, staySettings: true } }));
  if (!row) throw notThere(`park ${parkSlug}`);
  return { version: row.version, policy: policySchema.parse(row.policy), stays: staySettingsSchema.parse(row.staySettings) };
}

/** One saving of the settings: who, when, why, from what, to what. Defaults filled in, so that a default that was written down is no change. */
export interface SettingsChange {
  readonly at: number;
  readonly by: ActorKind;
  readonly who: string | null;
  readonly reason: string | null;
  readonly before: ParkSettings;
  readonly after: ParkSettings;
}

/** The last `most` changes of the settings, latest first, for a manager. */
export async function listSettingsChanges(actor: Actor, parkSlug: string, most: number): Promise<SettingsChange[]> {
  requireStaff(actor, parkSlug, ["manager"]);
  const rows = await inStore(() => client().auditEntry.findMany({ where: { park: { slug: parkSlug }, subject: "park" }, orderBy: { at: "desc" }, take: most }));
  return rows.map(({ at, actorKind, actor: who, reason, before, after }) => ({ at: at.getTime(), by: actorKind as ActorKind, who, reason, before: readSettings(before), after: readSettings(after) }));
}

function readSettings(kept: unknown): ParkSettings {
  const { policy, stay_settings: stays } = kept as { policy: unknown; stay_settings: unknown };
  return { policy: policySchema.parse(policy), stays: staySettingsSchema.parse(stays) };
}
