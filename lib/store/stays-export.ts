import type { HeldStay, Occupant, StayBook, TakenNights } from "@/lib/exchange";
import { addDays, dateIn, staySettingsSchema, type IsoDate, type StayState } from "@/lib/stays";
import { client } from "./client";
import { inStore } from "./errors";
import type { Prisma } from "./generated/client";
import type { Manager } from "./site-changes";
import { notThere, requireStaff } from "./stays-actor";

/** Every stay of the park, first arrival first, for managers; sites that are only held while a form is filled in are left out. */
export async function listStayLines(actor: Manager): Promise<HeldStay[]> {
  requireStaff(actor, actor.park, ["manager"]);
  return inStore(async () => {
    const park = await client().park.findUnique({ where: { slug: actor.park }, select: { id: true } });
    if (!park) throw notThere(`park ${actor.park}`);
    return readStayLines(client(), park.id);
  });
}

/** What a table of stays is held against, as one transaction sees it: every stay, and who has which site from last night on. */
export async function readStayBook(tx: Reader, park: { readonly id: string; readonly staySettings: unknown }): Promise<StayBook> {
  const [clock] = await tx.$queryRaw<{ now: Date }[]>`select clock_timestamp() as now`;
  const settings = staySettingsSchema.parse(park.staySettings), today = dateIn(settings.zone, clock!.now.getTime());
  return { today, settings, stays: await readStayLines(tx, park.id), taken: await readTaken(tx, park.id, addDays(today, -1)) };
}

type Reader = Pick<Prisma.TransactionClient, "$queryRaw">;

interface Line extends Omit<HeldStay, "arrive" | "depart" | "state"> {
  readonly arrive: string;
  readonly depart: string;
  readonly state: string;
}

/** The rig's numbers are taken out of its record as they stand: thousands of records are not read whole for two of them. */
async function readStayLines(tx: Reader, parkId: string): Promise<HeldStay[]> {
  const rows = await tx.$queryRaw<Line[]>`
    select t.id::text, t.reference, t.state, t.arrive::text, t.depart::text, coalesce(s.site_id, '') as site, coalesce(t.guest_name, '') as guest, coalesce(t.guest_email, '') as email,
           coalesce(t.guest_phone, '') as phone, coalesce(t.plate, '') as plate, coalesce(t.rig ->> 'kind', '') as "rigKind", coalesce(t.rig ->> 'id', '') as "rigId",
           case when jsonb_typeof(t.rig #> '{body,length}') = 'number' then (t.rig #>> '{body,length}')::float8 + case when jsonb_typeof(t.rig #> '{hitch,length}') = 'number' then (t.rig #>> '{hitch,length}')::float8 else 0 end end as "rigLength",
           case when jsonb_typeof(t.rig #> '{party,adults}') = 'number' then (t.rig #>> '{party,adults}')::float8 end as adults, case when jsonb_typeof(t.rig #> '{party,children}') = 'number' then (t.rig #>> '{party,children}')::float8 end as children,
           case when jsonb_typeof(t.rig #> '{party,pets}') = 'number' then (t.rig #>> '{party,pets}')::float8 end as pets, t.note, t.version, t.site_chosen as "siteChosen", t.erased_at is not null as erased, exists (select 1 from stay_quote q where q.stay_id = t.id) as priced
    from stay t left join site s on s.id = t.site_id
    where t.park_id = ${parkId}::uuid and t.state <> 'held' order by t.arrive, t.reference`;
  return rows.map(({ arrive, depart, state, ...rest }) => ({ ...rest, arrive: arrive as IsoDate, depart: depart as IsoDate, state: state as StayState }));
}

async function readTaken(tx: Reader, parkId: string, from: IsoDate): Promise<TakenNights[]> {
  const rows = await tx.$queryRaw<{ site: string; arrive: string; depart: string; stay: string | null; reference: string | null; state: string | null; reason: string | null }[]>`
    select s.site_id as site, lower(o.nights)::text as arrive, upper(o.nights)::text as depart, o.stay_id::text as stay, t.reference, t.state, c.reason
    from occupancy o join site s on s.id = o.site_id left join stay t on t.id = o.stay_id left join closure c on c.id = o.closure_id
    where o.park_id = ${parkId}::uuid and upper(o.nights) > ${from}::date and (o.held_until is null or o.held_until > clock_timestamp())`;
  return rows.map(({ site, arrive, depart, stay, reference, state, reason }) => {
    const by: Occupant = stay === null ? { kind: "closure", reason: reason ?? "" } : state === "held" ? { kind: "hold" } : { kind: "stay", reference: reference ?? "" };
    return { site, nights: { arrive: arrive as IsoDate, depart: depart as IsoDate }, stay, by };
  });
}
