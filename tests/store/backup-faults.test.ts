import { spawn } from "node:child_process";
import { createHash } from "node:crypto";
import { readFileSync, rmSync, writeFileSync } from "node:fs";
import path from "node:path";
import { gzipSync } from "node:zlib";
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { firstLine, frame, jsonFrame, kinds, lastLine, lastLineLength } from "@/lib/store/backup/format";
import { checkBackup, readBackup } from "@/lib/store/backup/read-backup";
import { restore } from "@/lib/store/backup/restore";
import { tallying } from "@/lib/store/backup/tallying";
import { backUp } from "@/lib/store/backup/write-backup";
import { migrate } from "@/lib/store/migrate";
import { contents, fillPark, makeFolder, migratedDatabase, query, type Database } from "./backup-scene";
import { emptyDatabase } from "./database";

let source: Database, target: Database, folder: string, file: string, whole: Buffer;

beforeAll(async () => {
  folder = makeFolder();
  file = path.join(folder, "all.backup");
  source = await migratedDatabase();
  await fillPark(source.url);
  await backUp(source.url, file);
  whole = readFileSync(file);
});

beforeEach(async () => {
  target = await emptyDatabase();
  return () => target.drop();
});

afterAll(async () => {
  await source.drop();
  rmSync(folder, { recursive: true, force: true });
});

function write(name: string, bytes: Buffer): string {
  const at = path.join(folder, name);
  writeFileSync(at, bytes);
  return at;
}

/** What a file is refused with; null where it is not. */
const refusalOf = (bytes: Buffer): Promise<string | null> => checkBackup(write("tried.backup", bytes)).then(() => null, (error: unknown) => `${(error as Error).name}: ${(error as Error).message}`);

/** The backup with the rows of a table changed, and every count and checksum right again: as only somebody who knows the format could. */
async function forge(name: string, table: string, change: (rows: string) => string): Promise<string> {
  const packed: Buffer[] = [];
  let rows: Buffer[] = [], open = "", total = 0, tables = 0, start = "";
  for await (const part of readBackup(file)) {
    if (part.kind === "header") start = `${firstLine}${JSON.stringify(part.header)}\n`;
    if (part.kind === "sequences") packed.push(jsonFrame(kinds.sequences, part.sequences));
    if (part.kind === "rows") rows.push(Buffer.from(part.rows));
    if (part.kind === "table") {
      packed.push(jsonFrame(kinds.table, { name: part.name, columns: part.columns }));
      [rows, open, tables] = [[], part.name, tables + 1];
    }
    if (part.kind !== "table-end") continue;
    const text = Buffer.concat(rows), now = open === table ? Buffer.from(change(text.toString("utf8"))) : text, tally = tallying();
    tally.add(now);
    const closed = tally.close();
    total += closed.rows;
    packed.push(frame(kinds.rows, now), jsonFrame(kinds.tableEnd, closed));
  }
  packed.push(jsonFrame(kinds.end, { tables, rows: total }));
  const body = Buffer.concat([Buffer.from(start), gzipSync(Buffer.concat(packed))]);
  return write(name, Buffer.concat([body, lastLine(createHash("sha256").update(body).digest("hex"))]));
}

describe("a damaged file", () => {
  it("is refused wherever one byte of it was changed", async () => {
    const step = Math.max(1, Math.floor(whole.length / 250));
    const places = [...Array(whole.length).keys()].filter((at) => at < 40 || at >= whole.length - lastLineLength || at % step === 0);
    for (const at of places) {
      const bytes = Buffer.from(whole);
      bytes[at]! ^= 1 << at % 8;
      expect(await refusalOf(bytes), `byte ${at}`).toMatch(/^Fault: .*(is damaged|is no backup|newer Padwright)/);
    }
  });

  it("is refused wherever it was cut off", async () => {
    const step = Math.max(1, Math.floor(whole.length / 150));
    for (let length = 0; length < whole.length; length += length < 30 || length > whole.length - 80 ? 1 : step) {
      expect(await refusalOf(whole.subarray(0, length)), `cut after ${length}`).toMatch(/^Fault: .*(is damaged|is no backup)/);
    }
    expect(await refusalOf(Buffer.concat([whole, Buffer.from("\n")]))).toMatch(/last line is not the checksum/);
  });

  it("is refused with what is wrong", async () => {
    expect(await refusalOf(Buffer.from("PK\u0003\u0004 something else"))).toMatch(/is no backup made by Padwright/);
    expect(await refusalOf(Buffer.from(whole.toString("latin1").replace("backup 1\n", "backup 2\n"), "latin1"))).toMatch(/written by a newer Padwright/);
    expect(await refusalOf(whole.subarray(0, whole.length - 10))).toMatch(/cut short, or its end was changed/);
    const middle = Buffer.from(whole);
    middle[Math.floor(whole.length * 0.7)]! ^= 0x10;
    expect(await refusalOf(middle)).toMatch(/is damaged: (it cannot be unpacked|the rows of the table|.* cannot be read|something stands|it ends|its checksum)/);
    await expect(checkBackup(path.join(folder, "nowhere.backup"))).rejects.toThrow(/There is no file/);
    await expect(checkBackup(folder)).rejects.toThrow(/is not a file/);
    expect(await refusalOf(whole)).toBeNull();
  });

  it("leaves the database untouched", async () => {
    const bytes = Buffer.from(whole);
    bytes[whole.length - 200]! ^= 1;
    await expect(restore(target.url, write("bad.backup", bytes))).rejects.toThrow(/is damaged/);
    expect(await contents(target.url)).toEqual({});
  });
});

describe("what the database would never have let in", () => {
  const emptyButThere = async () => Object.entries(await contents(target.url)).filter(([, rows]) => rows.length > 0);

  it("two on one site in one night, is not let in by a restore either, and everything is undone", async () => {
    const forged = await forge("double.backup", "occupancy", (rows) => rows.replaceAll(/\[[\d-]+,[\d-]+\)/g, "[2030-01-01,2030-01-05)"));
    await expect(restore(target.url, forged)).rejects.toThrow(/The database refused: conflicting key value violates exclusion constraint "occupancy_one_a_night".*Everything was undone/);
    expect(await emptyButThere()).toEqual([]);
    await query(target.url, async (sql) => expect(await sql`select 1 from pg_trigger where not tgisinternal and tgenabled <> 'O'`).toEqual([]));
    expect(await restore(target.url, file)).toMatchObject({ parks: ["Two Pines"] });
  });

  it("a site of no park is refused as well", async () => {
    const forged = await forge("orphan.backup", "park", () => "");
    await expect(restore(target.url, forged)).rejects.toThrow(/violates foreign key constraint.*Everything was undone/);
    expect(await emptyButThere()).toEqual([]);
  });

  it("a value that is read back otherwise than it was written is found out", async () => {
    const forged = await forge("otherwise.backup", "rate_card", (rows) => rows.replace("{", "{ "));
    await expect(restore(target.url, forged)).rejects.toThrow(/the table rate_card is not what the backup holds\. Everything was undone/);
    expect(await emptyButThere()).toEqual([]);
  });
});

describe("a restore that is stopped midway", () => {
  it("by the person leaves the database empty, and the next one works", async () => {
    const stop = new AbortController();
    await expect(restore(target.url, file, { signal: stop.signal, report: (table) => table === "site" && stop.abort() })).rejects.toThrow(/abort/i);
    expect(Object.values(await contents(target.url)).flat()).toEqual([]);
    expect(await restore(target.url, file)).toMatchObject({ parks: ["Two Pines"] });
  });

  it("by a kill leaves the database empty, and the next one works", async () => {
    const large = path.join(folder, "large.backup");
    await query(source.url, async (sql) => {
      await sql`select set_config('padwright.actor_kind', 'desk', false)`;
      await sql`insert into stay (park_id, reference, state, arrive, depart, rig, guest_name) select id, 'L' || i, 'requested', '2030-01-01', '2030-01-03', '{}', 'Many' from park, generate_series(1, 20000) i`;
    });
    await backUp(source.url, large);
    await migrate(target.url);
    const command = spawn(process.execPath, ["scripts/run.mjs", "lib/cli/restore.ts", large], { env: { ...process.env, DATABASE_URL: target.url }, stdio: "ignore", detached: true });
    const ended = new Promise<NodeJS.Signals | null>((resolve) => command.once("exit", (_, signal) => resolve(signal)));
    const inTheMidst = await query(source.url, async (sql) => {
      const isCopying = async () => (await sql`select 1 from pg_stat_activity where datname = ${new URL(target.url).pathname.slice(1)} and xact_start is not null and query like 'copy "stay"%'`).length > 0;
      for (const end = Date.now() + 45_000; Date.now() < end; ) if (await isCopying()) return true;
      return false;
    });
    // The process at work is a child of that one.
    process.kill(-command.pid!, "SIGKILL");
    await ended;
    expect(inTheMidst).toBe(true);
    await expect.poll(() => query(source.url, (sql) => sql`select 1 from pg_stat_activity where datname = ${new URL(target.url).pathname.slice(1)}`)).toEqual([]);
    expect(Object.values(await contents(target.url)).flat()).toEqual([]);
    expect(await restore(target.url, large)).toMatchObject({ parks: ["Two Pines"] });
    expect((await contents(target.url))["stay"]).toHaveLength(20_003);
  });
});
