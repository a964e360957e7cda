import { rigSchema, type Rig } from "@/lib/rig";
import { asDate, fitOverrideSchema, outcomes, stayStates, wantedSchema, type FitOverride, type Guest, type IsoDate, type Nights, type Outcome, type StayState, type Wanted } from "@/lib/stays";
import { StoreError } from "./errors";
import { Prisma } from "./generated/client";
import { notThere, reachOf } from "./stays-actor";
import { Meanwhile, type StayTransaction } from "./stays-transaction";

/** A stay as it stands. Times are milliseconds from 1970-01-01T00:00Z. */
export interface Stay {
  readonly id: string;
  /** Short enough to say on the phone; one of a kind within the park. */
  readonly reference: string;
  readonly state: StayState;
  readonly nights: Nights;
  /** The park's id of the site; null until one is assigned. */
  readonly site: string | null;
  /** The guest chose it and keeps it. */
  readonly siteChosen: boolean;
  readonly wanted: Wanted;
  readonly rig: Rig;
  /** The rig as the guest's form has it in its address, where it came from there: numbers left typical are not in it. */
  readonly rigQuery: string | null;
  /** Null while a site is held and nobody has said who they are. */
  readonly guest: Guest | null;
  readonly note: string;
  /** When the hold or request runs out; null where it does not. */
  readonly until: number | null;
  readonly arrivedAt: number | null;
  readonly departedAt: number | null;
  /** Left early: the nights from here on are free. */
  readonly freedFrom: IsoDate | null;
  /** It is on this site in spite of what the fit says. */
  readonly override: FitOverride | null;
  /** Stays that want neighbouring sites carry the same id. */
  readonly together: string | null;
  /** How it went, as the desk noted it when they left. */
  readonly outcome: { readonly how: Outcome; readonly note: string } | null;
  /** Whether the guest's data was erased. */
  readonly erased: boolean;
  /** Counts the changes. Hand it back with a change, and one made on an old view is refused. */
  readonly version: number;
}

/** The stay with its site's own row, for changing it. */
export interface StayRow {
  readonly stay: Stay;
  readonly siteRow: { readonly id: string; readonly siteId: string } | null;
}

const withSite = { site: { select: { id: true, siteId: true } } } as const;
type Row = Prisma.StayGetPayload<{ include: typeof withSite }>;

/** The stay of that id, if it is of this park and the actor reaches it; else it is not there. */
export async function readStay({ tx, actor, park }: Pick<StayTransaction, "tx" | "actor" | "park">, stayId: string): Promise<StayRow> {
  if (!/^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/.test(stayId)) throw notThere("the stay");
  const row = await tx.stay.findFirst({ where: { id: stayId, parkId: park.id, ...reachOf(actor) }, include: withSite });
  if (!row) throw notThere("the stay");
  return { stay: toStay(row), siteRow: row.site };
}

/**
 * Keeps others from changing the stay until the transaction ends. Taken after the site, never before, so that no two
 * wait for each other. `expected` is the version the person saw, where they say it.
 */
export async function lockStay({ tx }: StayTransaction, { id, version }: Stay, expected: number | undefined): Promise<void> {
  const [row] = await tx.$queryRaw<{ version: number }[]>`select version from stay where id = ${id}::uuid for update`;
  if (expected !== undefined && row?.version !== expected) throw new StoreError("stale", `changed since it was read: version ${expected} is now ${row?.version}`, null);
  if (row?.version !== version) throw new Meanwhile("the stay was changed meanwhile");
}

/** Saves what changed of a locked stay. */
export async function saveStay({ tx }: StayTransaction, { id }: Stay, data: Prisma.StayUncheckedUpdateInput): Promise<Stay> {
  return toStay(await tx.stay.update({ where: { id }, data: { ...data, version: { increment: 1 } }, include: withSite }));
}

export async function insertStay({ tx }: StayTransaction, data: Prisma.StayUncheckedCreateInput): Promise<Stay> {
  return toStay(await tx.stay.create({ data, include: withSite }));
}

/** The columns of a guest. */
export function guestColumns(guest: Guest | null | undefined) {
  return { guestName: guest?.name ?? null, guestEmail: guest?.email ?? null, guestPhone: guest?.phone ?? null, plate: guest?.plate ?? null };
}

/** The column of an override; null takes away one that is there. */
export function overrideColumn(override: FitOverride | null | undefined) {
  return { fitOverride: override ?? Prisma.DbNull };
}

/** Midnight UTC of a date, which is how the typed client writes a column of dates. */
export function dateColumn(date: IsoDate): Date {
  return new Date(`${date}T00:00:00Z`);
}

export function readDateColumn(value: Date): IsoDate {
  return asDate(value.toISOString().slice(0, 10));
}

function toStay(row: Row): Stay {
  return {
    id: row.id,
    reference: row.reference,
    state: readState(row.state),
    nights: { arrive: readDateColumn(row.arrive), depart: readDateColumn(row.depart) },
    site: row.site?.siteId ?? null,
    siteChosen: row.siteChosen,
    wanted: wantedSchema.parse(row.wanted),
    rig: rigSchema.parse(row.rig),
    rigQuery: row.rigQuery,
    guest: row.guestName === null ? null : { name: row.guestName, email: row.guestEmail ?? undefined, phone: row.guestPhone ?? undefined, plate: row.plate ?? undefined },
    note: row.note,
    until: row.heldUntil?.getTime() ?? null,
    arrivedAt: row.arrivedAt?.getTime() ?? null,
    departedAt: row.departedAt?.getTime() ?? null,
    freedFrom: row.freedFrom && readDateColumn(row.freedFrom),
    override: row.fitOverride === null ? null : fitOverrideSchema.parse(row.fitOverride),
    together: row.together,
    outcome: readOutcome(row),
    erased: row.erasedAt !== null,
    version: row.version,
  };
}

function readOutcome({ outcome, outcomeNote }: Row): Stay["outcome"] {
  const how = outcomes.find((known) => known === outcome);
  return how === undefined ? null : { how, note: outcomeNote };
}

function readState(text: string): StayState {
  const state = stayStates.find((known) => known === text);
  if (!state) throw new RangeError(`no state of a stay: ${text}`);
  return state;
}
