import { rigSchema, type Rig } from "@/lib/rig";
import { wantedSchema, type IsoDate, type Nights, type StayState, type Wanted } from "@/lib/stays";
import { client } from "./client";
import { inStore } from "./errors";
import { requireStaff, type Actor } from "./stays-actor";

/** A stay that is still to be, or is now, with what its fit depends on. */
export interface StayAhead {
  readonly id: string;
  readonly reference: string;
  readonly state: StayState;
  readonly nights: Nights;
  /** Null: any that fits. */
  readonly site: string | null;
  readonly wanted: Wanted;
  readonly guest: string | null;
  /** On its site in spite of a poor fit. */
  readonly overridden: boolean;
  /** Null where the record of rig or wishes cannot be read any more: the others are told all the same. */
  readonly rig: Rig | null;
}

interface Columns {
  id: string; reference: string; state: StayState; arrive: string; depart: string; site: string | null; wanted: unknown; guest: string | null; overridden: boolean; rig: unknown;
}

/** Every stay that is asked for, booked or here, and whose last night is today's or later, first arrival first; for staff and for what happens by itself. Sites that are only held while a form is filled in are left out. */
export async function listStaysAhead(actor: Actor, parkSlug: string, today: IsoDate): Promise<StayAhead[]> {
  if (actor.kind !== "clock") requireStaff(actor, parkSlug);
  const rows = await inStore(() => client().$queryRaw<Columns[]>`
    select t.id::text, t.reference, t.state, t.arrive::text, t.depart::text, s.site_id as site, t.wanted, t.guest_name as guest, t.fit_override is not null as overridden, t.rig
    from stay t left join site s on s.id = t.site_id
    where t.park_id = (select id from park where slug = ${parkSlug}) and t.depart > ${today}::date
      and (t.state in ('booked', 'arrived') or (t.state = 'requested' and (t.held_until is null or t.held_until > statement_timestamp())))
    order by t.arrive, t.depart, t.reference`);
  return rows.map(({ arrive, depart, wanted, rig, ...rest }) => {
    const [readRig, readWanted] = [rigSchema.safeParse(rig), wantedSchema.safeParse(wanted)];
    const nights = { arrive, depart } as Nights;
    return readRig.success && readWanted.success ? { ...rest, nights, wanted: readWanted.data, rig: readRig.data } : { ...rest, nights, wanted: { loop: undefined, services: [] }, rig: null };
  });
}
