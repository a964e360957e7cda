import { appendFileSync, cpSync, existsSync, readFileSync, readdirSync, rmSync, statSync, writeFileSync } from "node:fs";
import path from "node:path";
import type postgres from "postgres";
import { afterAll, afterEach, beforeAll, describe, expect, it } from "vitest";
import { checkBackup } from "@/lib/store/backup/read-backup";
import { restore } from "@/lib/store/backup/restore";
import { backUp } from "@/lib/store/backup/write-backup";
import { migrate, readMigrations } from "@/lib/store/migrate";
import { makeDataFolder, removeDataFolder } from "../setup/data-folder";
import { contents, fillPark, leaveStore, makeFolder, migratedDatabase, password, query, runCommand, storeAt, type Database } from "./backup-scene";
import { emptyDatabase } from "./database";
import { smallPark } from "./small-park";
import { ask, day, desk, guestWith, park } from "./stays-requests";

let source: Database, folder: string, file: string, link: string;
const targets: Database[] = [];

beforeAll(async () => {
  folder = makeFolder();
  file = path.join(folder, "all.backup");
  source = await migratedDatabase();
  ({ link } = await fillPark(source.url));
  await backUp(source.url, file);
});

afterEach(async () => {
  await leaveStore();
  for (const target of targets.splice(0)) await target.drop();
});

afterAll(async () => {
  await source.drop();
  rmSync(folder, { recursive: true, force: true });
});

async function emptyTarget(): Promise<string> {
  const target = await emptyDatabase();
  targets.push(target);
  return target.url;
}

describe("a backup that is restored", () => {
  it("gives every row of every table as it was", async () => {
    const url = await emptyTarget();
    const { parks, rows, migrated } = await restore(url, file);
    expect({ parks, migrated }).toEqual({ parks: ["Two Pines"], migrated: [] });
    const was = await contents(source.url);
    expect(await contents(url)).toEqual(was);
    expect(rows).toBe(Object.values(was).flat().length);
    for (const table of ["stay", "occupancy", "closure", "audit_entry", "stay_payment", "stay_quote", "stay_note", "rate_card", "staff_credential", "staff_session", "secret"]) expect(was[table]!.length, table).toBeGreaterThan(0);
  });

  it("lets people in by their passwords and links, and keeps who is signed in", async () => {
    const url = await emptyTarget();
    await restore(url, file);
    const store = await storeAt(url);
    const outcome = await store.signIn("ada@example.org", password, { address: "192.0.2.1", agent: null });
    expect(outcome.state).toBe("in");
    expect(await store.signIn("ada@example.org", "something else here", { address: "192.0.2.1", agent: null })).toEqual({ state: "refused" });
    const signedIn = await store.findSession(outcome.state === "in" ? outcome.cookie : undefined);
    expect(signedIn).toMatchObject({ name: "Ada", role: "manager", park });
    expect(await store.listSessions(signedIn!)).toHaveLength(2);
    const { stay } = await store.bookStay(desk, park, { request: ask(40, 1) });
    expect(await store.listAudit(desk, park, stay.id)).toHaveLength(1);
  });

  it("still refuses a second stay on a night, still writes who has one and what changed", async () => {
    const url = await emptyTarget();
    await restore(url, file);
    const store = await storeAt(url);
    await expect(store.bookStay(desk, park, { request: ask(6, 1) })).rejects.toMatchObject({ kind: "overlap" });
    await expect(store.bookStay(desk, park, { request: ask(22, 1, { site: "a02" }) })).rejects.toMatchObject({ kind: "overlap" });
    const { stay } = await store.bookStay(desk, park, { request: ask(50, 2) });
    await leaveStore();
    await query(url, async (sql) => {
      expect(await sql`select lower(nights)::text as night from occupancy where stay_id = ${stay.id}`).toEqual([{ night: day(50) }]);
      expect(await sql`select 1 from audit_entry where subject_id = ${stay.id}`).toHaveLength(1);
      await expect(sql`update stay set note = 'by nobody' where id = ${stay.id}`).rejects.toMatchObject({ constraint_name: "audit_entry_has_actor" });
      await expect(sql`delete from stay where id = ${stay.id}`).rejects.toMatchObject({ constraint_name: "stay_stays_as_it_is" });
      expect(await sql`select tgname from pg_trigger where not tgisinternal and tgenabled <> 'O'`).toEqual([]);
    });
  });

  it("opens a guest's private link", async () => {
    const url = await emptyTarget();
    await restore(url, file);
    const store = await storeAt(url);
    const found = await store.findByLink(link);
    expect(found).toMatchObject({ park });
    expect(await store.getAccount(guestWith(link), park, found!.stay)).toMatchObject({ paid: 5000 });
  });

  it("is refused a second time, and by a database that has anything else", async () => {
    const url = await emptyTarget();
    await restore(url, file);
    const before = await contents(url);
    await expect(restore(url, file)).rejects.toThrow(/not empty: it has Two Pines\. .*nothing was changed/i);
    expect(await contents(url)).toEqual(before);
    const odd = await emptyTarget();
    await query(odd, (sql) => sql`create table shopping as select 'bread' as item`);
    await migrate(odd);
    await expect(restore(odd, file)).rejects.toThrow(/its table shopping has rows/);
  });

  it("takes the place of what a start on an empty database makes, its secret first of all", async () => {
    const url = await emptyTarget();
    await migrate(url);
    await query(url, (sql) => sql`insert into secret values ('sign-in', 'of the empty one')`);
    await restore(url, file);
    expect((await contents(url))["secret"]).toEqual((await contents(source.url))["secret"]);
  });

  it("is refused while somebody else is connected", async () => {
    const url = await emptyTarget();
    await query(url, async (sql) => {
      await sql`select 1`;
      await expect(restore(url, file)).rejects.toThrow(/in use \(1 other connection\)/);
    });
    expect(await restore(url, file)).toMatchObject({ parks: ["Two Pines"] });
  });
});

describe("a backup from another version", () => {
  const ours = readMigrations("prisma/migrations");

  it("that is older is put into the tables as they were and brought up to date", async () => {
    const old = await emptyDatabase(), url = await emptyTarget(), oldFile = path.join(folder, "old.backup");
    const count = ours.findIndex(({ name }) => name.endsWith("_accounts"));
    await migrate(old.url, undefined, count);
    await query(old.url, (sql) => sql`insert into park (slug, name, record) values ('old-park', 'Old Park', '{"slug": "old-park"}')`);
    expect((await backUp(old.url, oldFile)).header.migrations).toHaveLength(count);
    await old.drop();
    const { parks, migrated } = await restore(url, oldFile);
    expect({ parks, migrated }).toEqual({ parks: ["Old Park"], migrated: ours.slice(count).map(({ name }) => name) });
    await expect(restore(source.url, oldFile)).rejects.toThrow(/not empty/);
    const ahead = await emptyTarget();
    await migrate(ahead);
    await expect(restore(ahead, oldFile)).rejects.toThrow(/newer version than the backup/);
  });

  it("that is newer, or was made with migrations that are not ours, is refused", async () => {
    const fewer = path.join(folder, "fewer"), changed = path.join(folder, "changed"), last = ours.at(-1)!.name;
    for (const copy of [fewer, changed]) cpSync("prisma/migrations", copy, { recursive: true });
    rmSync(path.join(fewer, last), { recursive: true });
    appendFileSync(path.join(changed, last, "migration.sql"), "\n-- edited\n");
    const url = await emptyTarget();
    await expect(restore(url, file, { migrations: fewer })).rejects.toThrow(new RegExp(`newer Padwright: it has the migration ${last}`));
    await expect(restore(url, file, { migrations: changed })).rejects.toThrow(new RegExp(`another prisma/migrations/${last}`));
    expect(await contents(url)).toEqual({});
  });
});

describe("a backup while others write", () => {
  it("is of one moment: no stay without its entry in the audit, no night without its stay", async () => {
    const busy = await migratedDatabase(), url = await emptyTarget(), busyFile = path.join(folder, "busy.backup");
    const store = await storeAt(busy.url);
    await store.loadPark(smallPark());
    await leaveStore();
    let writing = true, written = 0, tablesWhileWriting = 0;
    const writer = query(busy.url, async (sql) => {
      await sql`select set_config('padwright.actor_kind', 'desk', false)`;
      while (writing) {
        await sql`insert into stay (park_id, reference, state, arrive, depart, site_id, rig, guest_name)
          select park_id, ${`W${written}`}, 'booked', ${day(1)}::date + ${written}::int, ${day(2)}::date + ${written}::int, id, '{}', 'Writer' from site where site_id = 'a01'`;
        written += 1;
      }
    });
    await expect.poll(() => written).toBeGreaterThan(20);
    let before = written;
    await backUp(busy.url, busyFile, { report: () => { if (written > before) tablesWhileWriting += 1; before = written; } });
    writing = false;
    await writer;
    await busy.drop();
    await restore(url, busyFile);
    const { stay, occupancy, audit_entry: audit } = await contents(url);
    // Several tables were read with new stays in between: torn, they would not tell of the same ones.
    expect(tablesWhileWriting).toBeGreaterThan(2);
    expect(stay!.length).toBeLessThan(written);
    expect({ nights: occupancy!.length, entries: audit!.length }).toEqual({ nights: stay!.length, entries: stay!.length });
  });
});

describe("what is not one of our tables", () => {
  it("is kept too, its numbers going on where they were, once it is there to take it", async () => {
    const other = await migratedDatabase(), url = await emptyTarget(), otherFile = path.join(folder, "other.backup");
    const make = (sql: postgres.Sql) => sql`create table ledger (id bigint generated always as identity primary key, amount int not null, twice int generated always as (amount * 2) stored, parent bigint references ledger)`;
    await query(other.url, async (sql) => {
      await make(sql);
      await sql`insert into ledger (amount, parent) values (7, null), (8, 1), (9, 1)`;
    });
    await backUp(other.url, otherFile);
    await expect(restore(url, otherFile)).rejects.toThrow(/holds ledger, which Padwright does not make/);
    await query(url, make);
    await restore(url, otherFile);
    expect((await contents(url))["ledger"]).toEqual((await contents(other.url))["ledger"]);
    expect(await query(url, (sql) => sql`insert into ledger (amount) values (1) returning id::int, twice`)).toEqual([{ id: 4, twice: 2 }]);
    await other.drop();
  });
});

describe("the file", () => {
  it("is for its owner alone, says what it is of, and nothing else is left beside it", () => {
    expect(statSync(file).mode & 0o777).toBe(0o600);
    expect(readFileSync(file, "latin1")).toMatch(/^Padwright backup 1\n\{"madeAt":"\d{4}-/);
    expect(readdirSync(folder).filter((name) => name.includes("partial"))).toEqual([]);
  });

  it("has the same contents for the same database, wherever its rows lie", async () => {
    const url = await emptyTarget(), again = path.join(folder, "again.backup");
    await restore(url, file);
    await backUp(url, again);
    expect((await checkBackup(again)).tables).toEqual((await checkBackup(file)).tables);
  });

  it("is not written over unless that is asked for", async () => {
    const kept = path.join(folder, "kept.backup");
    writeFileSync(kept, "something of somebody's");
    await expect(backUp(source.url, kept)).rejects.toThrow(/is there already.*--force/);
    expect(readFileSync(kept, "utf8")).toBe("something of somebody's");
    await backUp(source.url, kept, { force: true });
    expect((await checkBackup(kept)).rows).toBeGreaterThan(0);
  });

  it("is not there where the backup was stopped, and what a killed run left is cleared away", async () => {
    const stopped = path.join(folder, "stopped.backup"), left = `${stopped}.partial-999999999`;
    writeFileSync(left, "half");
    const stop = new AbortController();
    await expect(backUp(source.url, stopped, { signal: stop.signal, report: () => stop.abort() })).rejects.toThrow(/abort/i);
    expect([stopped, left].filter(existsSync)).toEqual([]);
    expect(readdirSync(folder).filter((name) => name.startsWith("stopped"))).toEqual([]);
  });

  it("cannot be made of nothing, or where there is no folder", async () => {
    await expect(backUp(await emptyTarget(), path.join(folder, "nothing.backup"))).rejects.toThrow(/nothing to back up/);
    await expect(backUp(source.url, path.join(folder, "nowhere", "a.backup"))).rejects.toThrow(/There is no folder/);
  });
});

describe("the commands", () => {
  it("back up and restore a database of one's own", async () => {
    const url = await emptyTarget(), made = path.join(folder, "by-command.backup");
    expect(await runCommand("backup", [made], { DATABASE_URL: source.url })).toMatchObject({ code: 0, err: "", out: expect.stringMatching(/read back and whole/) as string });
    expect(await runCommand("backup", [made], { DATABASE_URL: source.url })).toMatchObject({ code: 2, out: "", err: expect.stringMatching(/is there already/) as string });
    expect(await runCommand("restore", [made], { DATABASE_URL: url })).toMatchObject({ code: 0, err: "", out: expect.stringMatching(/^Restored Two Pines as of /) as string });
    expect(await contents(url)).toEqual(await contents(source.url));
    expect(await runCommand("restore", [made, "too-much"], { DATABASE_URL: url })).toMatchObject({ code: 2, out: "" });
  });

  it("start the embedded database for as long as they take, where it is not running", async () => {
    const data = makeDataFolder(), made = path.join(folder, "embedded.backup");
    const settings = { DATABASE_URL: "", PADWRIGHT_DATA: data };
    try {
      expect(await runCommand("backup", [made], settings)).toMatchObject({ code: 1, err: expect.stringMatching(/There is no database in /) as string });
      expect(await runCommand("restore", [file], settings)).toMatchObject({ code: 0, out: expect.stringMatching(/^Restored Two Pines/) as string });
      expect(await runCommand("restore", [file], settings)).toMatchObject({ code: 2, err: expect.stringMatching(/not empty/) as string });
      expect(await runCommand("backup", [made], settings)).toMatchObject({ code: 0 });
      expect((await checkBackup(made)).tables).toEqual((await checkBackup(file)).tables);
      expect(existsSync(path.join(data, "lock"))).toBe(false);
    } finally {
      removeDataFolder(data);
    }
  });
});
