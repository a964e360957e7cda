import { readFileSync } from "node:fs";
import path from "node:path";
import postgres from "postgres";
import { connect } from "@/lib/store/client";
import { startEmbedded, type EmbeddedServer } from "@/lib/store/embedded/server";
import { loadPark } from "@/lib/store/load-park";
import { migrate } from "@/lib/store/migrate";
import { startServer, type RunningServer } from "../../scripts/stages/server.mjs";
import { homeOf, makeDataFolder, removeDataFolder } from "../setup/data-folder";
import { smallPark } from "../store/small-park";
import { park } from "../store/stays-requests";
import { openRelay, type Relay } from "./relay";
import { freePort } from "../setup/free-port";

/** A park with rates, where guests book at once and two years ahead. */
const settings = { guestsMay: "book", daysAhead: 730 };
const rates = { currency: "USD", prices: [{ night: 3100 }], fees: [{ id: "booking", name: "Booking fee", amount: 250, per: "stay" }] };

/** The embedded database as people have it, its data kept on the disk, and copies of the built application on it. */
export interface House {
  /** Starts one more copy of the application. */
  readonly startCopy: (port?: number) => Promise<Copy>;
  /** Kills the database server outright. */
  readonly killDatabase: () => Promise<void>;
  /** Starts it again on the same data. */
  readonly restartDatabase: () => Promise<void>;
  readonly query: <T extends object>(statement: string) => Promise<T[]>;
  readonly close: () => Promise<void>;
}

export interface Copy extends RunningServer {
  readonly address: string;
  readonly port: number;
}

export async function openHouse(): Promise<House> {
  const data = makeDataFolder(), relay: Relay = await openRelay(), copies: Copy[] = [];
  let server: EmbeddedServer = await startEmbedded(data);
  relay.leadTo(server.url);
  await migrate(server.url);
  await load(server.url);
  return {
    startCopy: async (port) => {
      const at = port ?? (await freePort());
      const running = await startServer({ PORT: at, HOST: "127.0.0.1", DATABASE_URL: relay.address(server.url), dev: false });
      const copy = { ...running, address: `http://127.0.0.1:${at}`, port: at };
      copies.push(copy);
      return copy;
    },
    killDatabase: async () => {
      process.kill(Number(readFileSync(path.join(homeOf(data), "postgres", "postmaster.pid"), "utf8").split("\n")[0]), "SIGKILL");
      await server.ended;
    },
    restartDatabase: async () => {
      server = await startEmbedded(data);
      relay.leadTo(server.url);
    },
    query: async (statement) => {
      const sql = postgres(server.url, { max: 1, onnotice: () => undefined });
      try {
        return [...(await sql.unsafe(statement))] as never;
      } finally {
        await sql.end();
      }
    },
    close: async () => {
      await Promise.all(copies.map((copy) => copy.stop()));
      await relay.close();
      await server.stop();
      removeDataFolder(data);
    },
  };
}

async function load(url: string): Promise<void> {
  const database = connect(url, 1), files = smallPark(park);
  await loadPark({ ...files, park: { ...files.park, staySettings: settings, rates } }, database);
  await database.$disconnect();
}
