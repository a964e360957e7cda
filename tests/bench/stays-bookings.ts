import postgres from "postgres";
import { guestSchema, stayRequestSchema, type Nights, type StayRequest } from "@/lib/stays";
import { NightsTaken } from "@/lib/store/errors";
import { bookStay } from "@/lib/store/stays";
import { listAvailability, type SiteAvailability } from "@/lib/store/stays-nights";
import { digits, spreadOf, told } from "./measure";
import { nightsFrom, rigs, type FilledPark } from "./stays-parks";

/** Connections on either side: what the application has. */
const CONNECTIONS = 10;
/** Beyond the nights that are filled; each round takes so many nights of its own. */
const FIRST = 400;
const NIGHTS_A_ROUND = 500;
const SITES_OF_LOOP = 20;

/** A night somebody wants on a site; and what to take instead where it is gone. */
type Book = (site: number, nights: Nights) => Promise<Outcome>;
type Outcome = { readonly got: true } | { readonly got: false; /** Sites that are still free for the nights; null where the refusal does not tell them. */ readonly free: readonly number[] | null };

interface Rate {
  /** Bookings a second. */
  readonly booked: number;
  /** Answers a second, refusals included. */
  readonly answered: number;
  /** From asking to being answered, ms, one for each call. */
  readonly times: readonly number[];
}

interface Setting {
  readonly name: string;
  readonly clients: number;
  /** What the k-th client asks for one after another, in a round whose nights begin at `first`. */
  readonly run: (book: Book, first: number) => Promise<Rate>;
}

/** Bookings a second with and without others wanting the same, beside the bare insert under the same constraint. */
export async function reportBookings(url: string, park: FilledPark, rounds: number, quick: boolean): Promise<void> {
  console.log(`\nBookings, in the park of ${park.sites} sites with ${park.stays.toLocaleString("en-US")} stays; beside it the bare insert of a site and nights under the same exclusion constraint, one after the other for each site, each a transaction, ${CONNECTIONS} connections each`);
  const sites = await listAvailability(park.slug, nightsFrom(FIRST, 1));
  const loop = sites.flatMap((site, i) => (site.loop === sites[0]!.loop ? [i] : [])).slice(0, SITES_OF_LOOP);
  const bare = await openBare(url, park);
  try {
    const store: Book = bookInStore(park, sites);
    for (const setting of settingsOf(sites.length, loop, quick ? 120 : 240)) {
      const rates: { store: Rate; bare: Rate }[] = [];
      // A round that does not count, until compilers and caches have seen it.
      for (let round = 0; round <= rounds; round++) {
        const first = (nextNight += NIGHTS_A_ROUND);
        const [a, b] = round % 2 ? [await setting.run(bare.book, first), await setting.run(store, first)] : [await setting.run(store, first), await setting.run(bare.book, first)];
        if (round > 0) rates.push(round % 2 ? { bare: a, store: b } : { store: a, bare: b });
      }
      tell(setting.name, rates);
    }
  } finally {
    await bare.close();
  }
}

let nextNight = FIRST;

function settingsOf(sites: number, loop: readonly number[], count: number): Setting[] {
  return [
    apart("alone: one client, each booking its own site and night", 1, Math.ceil(count / 4), sites),
    apart("10 clients, each booking its own site and night", 10, count, sites),
    { name: "50 clients, one site, each its own night", clients: 50, run: (book, first) => inTurns(50, count, (i) => book(7, nightsFrom(first + i, 1))) },
    { name: `100 clients at once for ${loop.length} sites of one loop on one night; who is refused takes another`, clients: 100, run: (book, first) => inTurns(100, 100, (i) => bookSome(book, loop, i, nightsFrom(first, 1))) },
    { name: "100 clients at once for one site and night", clients: 100, run: (book, first) => inTurns(100, 100, () => book(3, nightsFrom(first, 1))) },
  ];
}

function apart(name: string, clients: number, count: number, sites: number): Setting {
  return { name, clients, run: (book, first) => inTurns(clients, count, (i) => book(i % sites, nightsFrom(first + 2 * Math.floor(i / sites), 1))) };
}

/** Where the refusal says what is free, the next try is one of those; else one that was not tried. Until there is none left. */
async function bookSome(book: Book, loop: readonly number[], client: number, nights: Nights): Promise<Outcome> {
  let left = loop;
  for (let site = loop[client % loop.length]!; ; site = left[(client * 7) % left.length]!) {
    const outcome = await book(site, nights);
    if (outcome.got) return outcome;
    const tried = site;
    left = left.filter((other) => other !== tried && (outcome.free === null || outcome.free.includes(other)));
    if (left.length === 0) return outcome;
  }
}

/** `count` tasks by so many clients, each taking the next when it has its answer. */
async function inTurns(clients: number, count: number, task: (i: number) => Promise<Outcome>): Promise<Rate> {
  let next = 0, got = 0;
  const times: number[] = [], began = performance.now();
  const client = async () => {
    for (let i = next++; i < count; i = next++) {
      const asked = performance.now();
      if ((await task(i)).got) got++;
      times.push(performance.now() - asked);
    }
  };
  await Promise.all(Array.from({ length: clients }, client));
  const seconds = (performance.now() - began) / 1000;
  return { booked: got / seconds, answered: count / seconds, times };
}

function tell(name: string, rates: readonly { store: Rate; bare: Rate }[]): void {
  const of = (which: "store" | "bare", what: "booked" | "answered") => told(spreadOf(rates.map((rate) => rate[which][what])));
  const times = rates.flatMap(({ store }) => store.times).sort((a, b) => a - b), at = (share: number) => digits(times[Math.min(times.length - 1, Math.floor(share * times.length))]!);
  const refusals = rates.some(({ store }) => store.answered - store.booked > 1e-9);
  console.log(`  ${name}`);
  console.log(`    booked a second      ${of("store", "booked")}; bare ${of("bare", "booked")}: a booking costs ${told(spreadOf(rates.map(({ store, bare }) => bare.answered / store.answered)))} bare inserts`);
  if (refusals) console.log(`    answered a second    ${of("store", "answered")}; bare ${of("bare", "answered")}`);
  console.log(`    ms until answered    ${at(0.5)} in the middle, ${at(0.95)} for 19 in 20, ${at(1)} the longest`);
}

function bookInStore(park: FilledPark, sites: readonly SiteAvailability[]): Book {
  const rig = rigs[0]!, guest = guestSchema.parse({ name: "Ada Quill", phone: "555 0100" }), at = new Map(sites.map(({ id }, i) => [id, i]));
  const plain = stayRequestSchema.parse({ ...nightsFrom(1, 1), rig, guest });
  return async (site, nights) => {
    const request: StayRequest = { ...plain, ...nights, site: sites[site]!.id };
    try {
      await bookStay(park.desk, park.slug, { request });
      return { got: true };
    } catch (error) {
      if (error instanceof NightsTaken) return { got: false, free: error.free.map((id) => at.get(id)!) };
      throw error;
    }
  };
}

/**
 * What no booking can do without: a turn for the site, a site and nights that exclude each other, and the commit. Filled as the park is.
 * Without the turn, inserts at once each wait for the other, and hundred clients for one night take minutes of deadlocks.
 */
async function openBare(url: string, park: FilledPark): Promise<{ book: Book; close: () => Promise<void> }> {
  const sql = postgres(url, { max: CONNECTIONS, onnotice: () => undefined });
  await sql`create table bare_occupancy (id uuid primary key default gen_random_uuid(), site int not null, nights daterange not null, exclude using gist (site with =, nights with &&))`;
  await sql`insert into bare_occupancy (site, nights) select s.position, o.nights from occupancy o join site s on s.id = o.site_id where o.park_id = (select id from park where slug = ${park.slug})`;
  const book: Book = async (site, { arrive, depart }) => {
    try {
      await sql`insert into bare_occupancy (site, nights) select ${site}::int, daterange(${arrive}::date, ${depart}::date) from pg_advisory_xact_lock(${site}::int)`;
      return { got: true };
    } catch (error) {
      if (error instanceof postgres.PostgresError && error.code === "23P01") return { got: false, free: null };
      throw error;
    }
  };
  return { book, close: async () => { await sql`drop table bare_occupancy`; await sql.end(); } };
}
