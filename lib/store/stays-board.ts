import type { Nights, Occupancy, StayState } from "@/lib/stays";
import { client } from "./client";
import { inStore } from "./errors";
import { Prisma } from "./generated/client";
import { requireStaff, type Actor } from "./stays-actor";

/** A stay as a board or list shows it; the rest of it is read when it is opened. */
export interface BoardStay {
  readonly id: string;
  readonly reference: string;
  readonly state: StayState;
  readonly nights: Nights;
  readonly site: string | null;
  readonly siteChosen: boolean;
  readonly guest: string | null;
  readonly plate: string | null;
  readonly rigKind: string;
  /** Body and hitch, mm. */
  readonly rigLength: number;
  readonly until: number | null;
  readonly freedFrom: string | null;
  /** On its site in spite of a poor fit. */
  readonly overridden: boolean;
  readonly together: string | null;
  readonly version: number;
}

export interface BoardClosure {
  readonly id: string;
  readonly site: string;
  readonly nights: Nights;
  readonly reason: string;
}

export interface Board {
  readonly window: Nights;
  /** The database's clock when it was read, milliseconds: what has run out by then stands in nobody's way. */
  readonly at: number;
  readonly stays: readonly BoardStay[];
  readonly closures: readonly BoardClosure[];
}

/** Every stay and closure with a night in `window`, without a site too, for staff. What was cancelled or did not come is left out. */
export async function getBoard(actor: Actor, parkSlug: string, window: Nights): Promise<Board> {
  requireStaff(actor, parkSlug);
  return inStore(async () => {
    const [stays, closures] = await Promise.all([readStays(parkSlug, window), readClosures(parkSlug, window)]);
    return { window, at: stays.at, stays: stays.rows, closures };
  });
}

/** The stays that travel together under that id, but for one of them; for staff. */
export async function listCompanions(actor: Actor, parkSlug: string, together: string, except: string): Promise<BoardStay[]> {
  requireStaff(actor, parkSlug);
  return (await inStore(() => readBoardStays(parkSlug, Prisma.sql`t.together = ${together}::uuid and t.id <> ${except}::uuid`))).map(toBoardStay);
}

/** Who has which site when, without a word of who it is: for anybody. What has run out is left out. */
export async function listOccupancies(parkSlug: string, window: Nights): Promise<Occupancy[]> {
  const rows = await inStore(() => client().$queryRaw<{ site: string; arrive: string; depart: string; until: Date | null }[]>`
    select s.site_id as site, lower(o.nights)::text as arrive, upper(o.nights)::text as depart, o.held_until as until
    from occupancy o join site s on s.id = o.site_id
    where o.park_id = (select id from park where slug = ${parkSlug})
      and o.nights && daterange(${window.arrive}::date, ${window.depart}::date)
      and (o.held_until is null or o.held_until > clock_timestamp())`);
  return rows.map(({ site, arrive, depart, until }) => ({ site, nights: { arrive, depart } as Nights, until: until?.getTime() ?? null }));
}

export type StayColumns = Omit<BoardStay, "nights" | "until"> & { arrive: string; depart: string; until: Date | null; at: Date };

async function readStays(parkSlug: string, window: Nights): Promise<{ at: number; rows: BoardStay[] }> {
  const rows = await readBoardStays(parkSlug, Prisma.sql`t.depart > ${window.arrive}::date and t.arrive < ${window.depart}::date and t.state not in ('cancelled', 'no-show')`);
  const at = rows[0]?.at ?? (await client().$queryRaw<{ at: Date }[]>`select statement_timestamp() as at`)[0]!.at;
  return { at: at.getTime(), rows: rows.map(toBoardStay) };
}

/** Stays of a park in short, by a condition on `stay t`; for the queries of this folder. */
export async function readBoardStays(parkSlug: string, condition: Prisma.Sql): Promise<StayColumns[]> {
  return client().$queryRaw<StayColumns[]>`
    select t.id::text, t.reference, t.state, t.arrive::text, t.depart::text, s.site_id as site, t.site_chosen as "siteChosen",
           t.guest_name as guest, t.plate, t.rig ->> 'kind' as "rigKind",
           ((t.rig -> 'body' ->> 'length')::float8 + coalesce((t.rig -> 'hitch' ->> 'length')::float8, 0)) as "rigLength",
           t.held_until as until, t.freed_from::text as "freedFrom", t.fit_override is not null as overridden, t.together::text, t.version, statement_timestamp() as at
    from stay t left join site s on s.id = t.site_id
    where t.park_id = (select id from park where slug = ${parkSlug}) and ${condition}
    order by t.arrive, t.depart, t.reference`;
}

export function toBoardStay({ arrive, depart, until, at: _, ...rest }: StayColumns): BoardStay {
  return { ...rest, nights: { arrive, depart } as Nights, until: until?.getTime() ?? null };
}

async function readClosures(parkSlug: string, window: Nights): Promise<BoardClosure[]> {
  const rows = await client().$queryRaw<{ id: string; site: string; arrive: string; depart: string; reason: string }[]>`
    select c.id::text, s.site_id as site, c.starts::text as arrive, c.ends::text as depart, c.reason
    from closure c join site s on s.id = c.site_id
    where c.park_id = (select id from park where slug = ${parkSlug})
      and c.ends > ${window.arrive}::date and c.starts < ${window.depart}::date and c.lifted_at is null
    order by c.starts, s.position`;
  return rows.map(({ id, site, arrive, depart, reason }) => ({ id, site, nights: { arrive, depart } as Nights, reason }));
}
