import { spawn } from "node:child_process";
import { once } from "node:events";
import { readFileSync } from "node:fs";
import path from "node:path";
import postgres from "postgres";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { connect } from "@/lib/store/client";
import { startEmbedded, type EmbeddedServer } from "@/lib/store/embedded/server";
import { loadPark } from "@/lib/store/load-park";
import { migrate } from "@/lib/store/migrate";
import { homeOf, makeDataFolder, removeDataFolder } from "../setup/data-folder";
import { smallPark } from "./small-park";
import { day, park } from "./stays-requests";

let data: string;
let server: EmbeddedServer;

beforeEach(async () => {
  data = makeDataFolder();
  // A server as people have it: what it says is kept is on the disk.
  server = await startEmbedded(data);
  await migrate(server.url);
  const database = connect(server.url, 1);
  await loadPark({ ...smallPark(park) }, database);
  await database.$disconnect();
});

afterEach(async () => {
  await server.stop();
  removeDataFolder(data);
});

const serverPid = () => Number(readFileSync(path.join(homeOf(data), "postgres", "postmaster.pid"), "utf8").split("\n")[0]);

async function query<T extends object>(statement: string): Promise<T[]> {
  const sql = postgres(server.url, { max: 1, onnotice: () => undefined });
  try {
    return [...(await sql.unsafe<T[]>(statement))];
  } finally {
    await sql.end();
  }
}

/** A process that books one night after another, eight at a time, and tells each in a line as soon as it is accepted. */
function burst(first: number, nights: number) {
  const child = spawn(process.execPath, ["scripts/run.mjs", "tests/store/stays-burst.ts", "row", String(first), String(nights)], { env: { ...process.env, DATABASE_URL: server.url }, stdio: ["ignore", "pipe", "inherit"], detached: true });
  let text = "";
  child.stdout.on("data", (chunk: Buffer) => (text += chunk.toString()));
  const told = (word: string) => text.split("\n").filter((line) => line.startsWith(`${word} `)).map((line) => line.slice(word.length + 1));
  return { told, ended: once(child, "close") };
}

describe("the database killed in the middle of a burst", () => {
  it("after its restart there is no half stay, no night twice, and every stay that was accepted", async () => {
    const one = burst(10, 320);
    while (one.told("accepted").length < 40) await new Promise((done) => setTimeout(done, 5));
    process.kill(serverPid(), "SIGKILL");
    await server.ended;
    await one.ended;
    const accepted = one.told("accepted");
    expect(one.told("failed").length).toBeGreaterThan(0);

    server = await startEmbedded(data);
    const stays = await query<{ id: string; occupied: boolean; audited: number; nights: string }>(`
      select s.id::text, s.arrive::text as nights, exists(select 1 from occupancy o where o.stay_id = s.id and o.nights = daterange(s.arrive, s.depart)) as occupied,
             (select count(*)::int from audit_entry a where a.subject_id = s.id) as audited from stay s`);
    expect(stays.map(({ id }) => id)).toEqual(expect.arrayContaining(accepted));
    expect(stays.every(({ occupied, audited }) => occupied && audited === 1)).toBe(true);
    expect(new Set(stays.map(({ nights }) => nights)).size).toBe(stays.length);
    // Only those in flight may have been made without the word having got out.
    expect(stays.length - accepted.length).toBeLessThanOrEqual(8);
    expect(await query("select 1 from occupancy where stay_id is null and closure_id is null")).toHaveLength(0);

    // And it goes on from there: the same nights again are all taken, the next are free.
    const again = burst(10, 8);
    await again.ended;
    expect(again.told("taken")).toHaveLength(8);
    const later = burst(380, 8);
    await later.ended;
    expect(later.told("accepted"), day(380)).toHaveLength(8);
  });
});
