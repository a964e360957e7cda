import { makeDataFolder, removeDataFolder } from "../setup/data-folder";
import { digits } from "./measure";
import { aim } from "./report";
import { reportBookings } from "./stays-bookings";
import { reportReading } from "./stays-reading";
import { openFilledParks } from "./stays-parks";
import { client, disconnect } from "@/lib/store/client";
import { startEmbedded } from "@/lib/store/embedded/server";
import { migrate } from "@/lib/store/migrate";

/** The park that the aims are named for, and the ones beside it. */
export const NAMED = 400;
const SITES = [50, 200, NAMED, 1000, 2000] as const;
const QUICK_SITES = [50, 200, NAMED] as const;

/** What is measured of stays: bookings, reading what is free and the board, the page of nights in a browser. */
export async function benchStays({ quick, seed, page }: { readonly quick: boolean; readonly seed: number; /** The built application and a browser too. */ readonly page: boolean }): Promise<void> {
  const rounds = quick ? 3 : 7;
  const data = makeDataFolder();
  // As people have it: waiting for the disk at every commit.
  const server = await startEmbedded(data);
  const close = async () => {
    await server.stop();
    removeDataFolder(data);
  };
  for (const signal of ["SIGINT", "SIGTERM"] as const) process.once(signal, () => void close().finally(() => process.exit(130)));
  // Before anything asks for the settings, which are read once.
  process.env["DATABASE_URL"] = server.url;
  try {
    await migrate(server.url);
    const began = performance.now();
    const parks = await openFilledParks(server.url, quick ? QUICK_SITES : SITES, seed);
    const [{ version, sync }] = await client().$queryRaw<[{ version: string; sync: string }]>`select current_setting('server_version') as version, current_setting('synchronous_commit') || ', fsync ' || current_setting('fsync') as sync`;
    console.log(`\nStays: PostgreSQL ${version}, synchronous_commit ${sync}; ${parks.length} parks in it, of ${parks.map(({ sites }) => sites.toLocaleString("en-US")).join(", ")} sites, each site with 20 stays in a year, filled in ${digits((performance.now() - began) / 1000)} s.`);
    console.log(`On the wall, the median (least … most) of ${rounds} rounds.`);
    await reportBookings(server.url, parks.find(({ sites }) => sites === NAMED)!, rounds, quick);
    const reading = await reportReading(server.url, parks, rounds);
    // It brings what reads the settings as it is loaded.
    if (page) await (await import("./stays-page")).reportPages(server.url, parks, reading, rounds, aim);
  } finally {
    await disconnect();
    await close();
  }
}
