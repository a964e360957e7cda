import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync, appendFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import postgres from "postgres";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { Fault } from "@/lib/store/fault";
import { migrate, readMigrations } from "@/lib/store/migrate";
import { emptyDatabase } from "./database";

let folder: string;
let url: string;
let drop: () => Promise<void>;

beforeEach(async () => {
  folder = mkdtempSync(path.join(tmpdir(), "padwright-migrations-"));
  cpSync("prisma/migrations", folder, { recursive: true });
  ({ url, drop } = await emptyDatabase());
});

afterEach(async () => {
  await drop();
  rmSync(folder, { recursive: true, force: true });
});

function addMigration(name: string, sql: string): void {
  mkdirSync(path.join(folder, name));
  writeFileSync(path.join(folder, name, "migration.sql"), sql);
}

async function query<T extends object>(statement: string): Promise<T[]> {
  const sql = postgres(url, { max: 1, onnotice: () => undefined });
  try {
    return [...(await sql.unsafe<T[]>(statement))];
  } finally {
    await sql.end();
  }
}

describe("migrate", () => {
  it("applies every migration once and writes Prisma's history", async () => {
    const names = readMigrations(folder).map(({ name }) => name);
    expect(await migrate(url, folder)).toEqual(names);
    expect(await migrate(url, folder)).toEqual([]);
    const rows = await query<{ migration_name: string; checksum: string; finished: boolean; applied_steps_count: number }>(
      "select migration_name, checksum, finished_at is not null as finished, applied_steps_count from _prisma_migrations order by started_at",
    );
    expect(rows.map((row) => row.migration_name)).toEqual(names);
    expect(rows.map((row) => row.checksum)).toEqual(readMigrations(folder).map(({ checksum }) => checksum));
    expect(rows.every((row) => row.finished && row.applied_steps_count === 1)).toBe(true);
  });

  it("lets copies that start together wait for one another", async () => {
    const applied = await Promise.all([1, 2, 3, 4].map(() => migrate(url, folder)));
    expect(applied.filter((names) => names.length > 0)).toHaveLength(1);
  });

  it("undoes a migration that fails half way and keeps the ones before it", async () => {
    addMigration("29990101000000_half", "create table first_half (id int); select 1 / 0;");
    await expect(migrate(url, folder)).rejects.toThrow(/29990101000000_half was refused and undone: division by zero/);
    expect(await query("select 1 from information_schema.tables where table_name = 'first_half'")).toEqual([]);
    expect(await query("select 1 from _prisma_migrations where migration_name like '%half'")).toEqual([]);
    expect(await query("select 1 from information_schema.tables where table_name = 'park'")).toHaveLength(1);
  });

  it("refuses an applied migration that was changed since", async () => {
    await migrate(url, folder);
    const first = readMigrations(folder)[0]!.name;
    appendFileSync(path.join(folder, first, "migration.sql"), "\n-- edited\n");
    await expect(migrate(url, folder)).rejects.toThrow(new RegExp(`${first} was changed after the database had it`));
  });

  it("refuses a database that a newer version has migrated", async () => {
    addMigration("29990101000000_newer", "create table newer (id int);");
    await migrate(url, folder);
    await expect(migrate(url)).rejects.toThrow(Fault);
    await expect(migrate(url)).rejects.toThrow(/29990101000000_newer, which this Padwright does not know/);
  });

  it("refuses a history with a migration missing in the middle", async () => {
    await migrate(url, folder);
    addMigration("20000101000000_before", "create table earlier (id int);");
    await expect(migrate(url, folder)).rejects.toThrow(/where 20000101000000_before was expected/);
  });
});
