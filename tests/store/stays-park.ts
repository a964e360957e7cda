import postgres from "postgres";
import { inject } from "vitest";
import { rateCardSchema, type RateCardInput, type StaySettingsInput } from "@/lib/stays";
import { loadPark } from "@/lib/store/load-park";
import { saveRates } from "@/lib/store/rates";
import { smallPark } from "./small-park";
import { manager, park } from "./stays-requests";

export * from "./stays-requests";

/** Loads the park, with settings for stays where they are not the usual ones. */
export async function openPark(settings: StaySettingsInput = {}, slug = park): Promise<void> {
  const files = smallPark(slug);
  await loadPark({ ...files, park: { ...files.park, staySettings: settings } });
}

export async function setRates(card: RateCardInput, basedOn = 0): Promise<void> {
  await saveRates(manager, park, rateCardSchema.parse(card), basedOn);
}

/** Statements by hand, past all code: on a connection of their own, which says it is the desk. */
export async function byHand<T>(work: (sql: postgres.Sql) => Promise<T>): Promise<T> {
  const sql = postgres(inject("databaseUrl"), { max: 1, onnotice: () => undefined });
  try {
    await sql`select set_config('padwright.actor_kind', 'desk', false)`;
    return await work(sql);
  } finally {
    await sql.end();
  }
}

/** Lets a hold have run out a second ago. */
export async function runOut(stayId: string): Promise<void> {
  await byHand((sql) => sql`update stay set held_until = clock_timestamp() - interval '1 second' where id = ${stayId}`);
}

/** What the database itself says: who has the site on which nights. */
export async function occupants(): Promise<{ site: string; nights: string }[]> {
  return byHand(async (sql) => [
    ...(await sql<{ site: string; nights: string }[]>`select s.site_id as site, o.nights::text as nights from occupancy o join site s on s.id = o.site_id order by s.site_id, o.nights`),
  ]);
}

/** What a refused promise was refused with. */
export async function refusal(work: Promise<unknown>): Promise<unknown> {
  return work.then(() => Promise.reject(new Error("it was not refused")), (error: unknown) => error);
}
