import { readFileSync } from "node:fs";
import path from "node:path";
import postgres from "postgres";
import { addDays, dateIn, nights, type IsoDate, type Nights } from "@/lib/stays";
import type { Site } from "@/lib/park";
import { connect } from "@/lib/store/client";
import { loadPark } from "@/lib/store/load-park";
import type { Actor } from "@/lib/store/stays-actor";
import { generatedPark } from "./generated-park";

export interface FilledPark {
  readonly slug: string;
  readonly sites: number;
  readonly stays: number;
  readonly desk: Actor;
}

export const STAYS_A_SITE = 20;
/** The year that is filled: from today on. */
export const YEAR = 365;
/** For so many sites there is one stay more that has no site yet. */
const SITES_FOR_ONE_UNASSIGNED = 20;

const demo = path.join(import.meta.dirname, "../../seed/quillback-meadow/rigs.json");
export const rigs = (JSON.parse(readFileSync(demo, "utf8")) as { rigs: { rig: { id: string } }[] }).rigs.map(({ rig }) => rig);

/** Today at UTC, which the parks keep. */
export const today = dateIn("UTC", Date.now());
export const day = (away: number): IsoDate => addDays(today, away);
export const nightsFrom = (away: number, count: number): Nights => nights(day(away), day(away + count));
export const wholeYear: Nights = { arrive: today, depart: day(YEAR) };

/** Parks of so many sites in one database, each drawn by seed and filled with stays. */
export async function openFilledParks(url: string, sizes: readonly number[], seed: number): Promise<FilledPark[]> {
  const database = connect(url, 2), sql = postgres(url, { max: 1, onnotice: () => undefined });
  const parks: FilledPark[] = [];
  try {
    await sql`select set_config('padwright.actor_kind', 'desk', false)`;
    for (const sites of sizes) {
      const slug = `park-${sites}`;
      await loadPark({ park: { slug, name: `Park of ${sites}`, staySettings: { zone: "UTC", guestsMay: "book", daysAhead: 730 } }, sites: { sites: byLoop(generatedPark(sites, seed)) }, rigs: { rigs: [] } }, database);
      parks.push({ slug, sites, stays: await fill(sql, slug), desk: { kind: "desk", account: `desk@${slug}.test`, park: slug } });
    }
    await sql`analyze`;
  } finally {
    await database.$disconnect();
    await sql.end();
  }
  return parks;
}

/** As parks list them. */
function byLoop(sites: readonly Site[]): Site[] {
  return [...sites].sort((a, b) => (a.loop ?? "").localeCompare(b.loop ?? ""));
}

/** Every site with stays of 1 to 14 nights and gaps between them, spread over the year, with the records of the demo park's rigs; and some that have no site yet. */
async function fill(sql: postgres.Sql, slug: string): Promise<number> {
  const records = sql.json(rigs as never);
  const housed = await sql`
    insert into stay (park_id, reference, state, arrive, depart, site_id, rig, guest_name, plate)
    select s.park_id, 'H' || s.position || '-' || i, case i when 0 then 'requested' else 'booked' end, a, a + 1 + (s.position * 11 + i * 5) % 14, s.id,
           ${records}::jsonb -> ((s.position * 7 + i) % ${rigs.length}::int), (array['Wren', 'Okoro', 'Vale', 'Lindqvist', 'Abernathy-Moss', 'Ito'])[1 + (s.position + i) % 6] || ', ' || chr(65 + i), 'QM ' || s.position || i
    from site s, generate_series(0, ${STAYS_A_SITE - 1}::int) i, lateral (select ${today}::date + i * 18 + (s.position * 7 + i * 3) % 4 as a) at
    where s.park_id = (select id from park where slug = ${slug})`;
  const unassigned = await sql`
    insert into stay (park_id, reference, state, arrive, depart, rig, guest_name)
    select s.park_id, 'U' || s.position, 'requested', a, a + 1 + s.position % 9, ${records}::jsonb -> (s.position % ${rigs.length}::int), 'Nobody yet ' || s.position
    from site s, lateral (select ${today}::date + (s.position * 37) % 350 as a) at
    where s.park_id = (select id from park where slug = ${slug}) and s.position % ${SITES_FOR_ONE_UNASSIGNED}::int = 0`;
  return housed.count + unassigned.count;
}
