import postgres from "postgres";
import { layOut, type BoardData } from "@/app/desk/nights/board-data";
import { surveyedSite } from "@/app/manage/make-rows";
import { hookupsOf, type Nights } from "@/lib/stays";
import { listSiteRecords } from "@/lib/store/sites";
import { getBoard, listOccupancies } from "@/lib/store/stays-board";
import { listAvailability, listFreeSites } from "@/lib/store/stays-nights";
import { digits, spreadOf, told, type Spread } from "./measure";
import { nightsFrom, today, wholeYear, type FilledPark } from "./stays-parks";

/** What of a park's page of nights is what, ms. */
export interface Reading {
  readonly sites: Spread;
  readonly board: Spread;
  readonly lanes: Spread;
}

const SPANS: readonly (readonly [string, Nights])[] = [["1 night", nightsFrom(100, 1)], ["a week", nightsFrom(200, 7)], ["30 nights", nightsFrom(30, 30)], ["the year", wholeYear]];

/** What is free and who is where, against the number of sites; beside one query for each site, and an empty question to the database. */
export async function reportReading(url: string, parks: readonly FilledPark[], rounds: number): Promise<Map<string, Reading>> {
  const sql = postgres(url, { max: 10, onnotice: () => undefined });
  const readings = new Map<string, Reading>();
  try {
    const empty = await timesOf(rounds * 5, () => sql`select 1`);
    console.log(`\nWhat is free, and the board of a year\n  an empty question to the database: ${told(empty, " ms")}`);
    for (const park of parks) {
      console.log(`  ${park.sites.toLocaleString("en-US")} sites, ${park.stays.toLocaleString("en-US")} stays`);
      await reportFree(sql, park, rounds);
      readings.set(park.slug, await reportBoard(park, rounds));
    }
  } finally {
    await sql.end();
  }
  tellGrowth(parks, readings);
  return readings;
}

async function reportFree(sql: postgres.Sql, park: FilledPark, rounds: number): Promise<void> {
  const words: string[] = [];
  for (const [name, nights] of SPANS) {
    const one = await timesOf(rounds, () => listFreeSites(park.slug, nights));
    words.push(`${name} ${told(one)}`);
  }
  console.log(`    sites free for        ${words.join("; ")} ms`);
  const [, week] = SPANS[1]!;
  const all = await timesOf(rounds, () => listAvailability(park.slug, week));
  const each = await timesOf(Math.min(3, rounds), () => askEachSite(sql, park, week));
  console.log(`    every site, a week    ${told(all)} ms; one query for each site by ten connections ${told(each)} ms, ${digits(each.median / all.median)} times as long`);
  console.log(`    the year's nights     ${told(await timesOf(rounds, () => listOccupancies(park.slug, wholeYear)))} ms`);
}

/** As one does without the one query. */
async function askEachSite(sql: postgres.Sql, park: FilledPark, { arrive, depart }: Nights): Promise<void> {
  const sites = await sql<{ id: string }[]>`select id from site where park_id = (select id from park where slug = ${park.slug})`;
  await Promise.all(sites.map(({ id }) => sql`select 1 from occupancy where site_id = ${id} and nights && daterange(${arrive}::date, ${depart}::date) limit 1`));
}

async function reportBoard(park: FilledPark, rounds: number): Promise<Reading> {
  const window = wholeYear;
  const records = await timesOf(rounds, async () => (await listSiteRecords(park.slug)).map(surveyedSite));
  const read = await timesOf(rounds, () => getBoard(park.desk, park.slug, window));
  const board = await getBoard(park.desk, park.slug, window);
  const sites = (await listSiteRecords(park.slug)).map(surveyedSite).map(({ site }) => ({ id: site.id, label: site.label ?? site.id, loop: site.loop ?? undefined, hookups: hookupsOf(site).services.join(" ") }));
  let laid: BoardData | undefined;
  const lanes = await timesOf(rounds, async () => { laid = layOut(board, sites, new Map(), today, { nameless: "", rig: ({ rigKind }) => rigKind }); });
  if (laid!.bars.length !== park.stays) throw new Error(`the board of ${park.slug} shows ${laid!.bars.length} of ${park.stays} stays`);
  console.log(`    board of a year       ${told(read)} ms to read ${board.stays.length.toLocaleString("en-US")} stays, ${told(records)} ms to read its sites, ${told(lanes)} ms to lay it out in ${laid!.rows.length.toLocaleString("en-US")} rows`);
  return { sites: records, board: read, lanes };
}

function tellGrowth(parks: readonly FilledPark[], readings: ReadonlyMap<string, Reading>): void {
  const [first, last] = [parks.find(({ sites }) => sites >= 200)!, parks.at(-1)!];
  const power = (part: keyof Reading) => digits(Math.log(readings.get(last.slug)![part].median / readings.get(first.slug)![part].median) / Math.log(last.sites / first.sites));
  console.log(`  from ${first.sites} to ${last.sites.toLocaleString("en-US")} sites the cost grows to the power: board ${power("board")}, sites ${power("sites")}, laying out ${power("lanes")}`);
}

/** Once uncounted, then so many times, ms on the wall. */
export async function timesOf(rounds: number, work: () => PromiseLike<unknown>): Promise<Spread> {
  await work();
  const times: number[] = [];
  for (let round = 0; round < rounds; round++) {
    const began = performance.now();
    await work();
    times.push(performance.now() - began);
  }
  return spreadOf(times);
}
