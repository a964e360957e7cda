import { createHash, randomUUID } from "node:crypto";
import { readFileSync, readdirSync } from "node:fs";
import path from "node:path";
import postgres from "postgres";
import { Fault } from "./fault";

/** Prisma's own number for its migration lock, so that its command line and this runner wait for each other. */
const lockNumber = 72_707_369;

export interface Migration {
  readonly name: string;
  readonly sql: string;
  readonly checksum: string;
}

interface Applied {
  readonly migration_name: string;
  readonly checksum: string;
  readonly finished: boolean;
}

/** The migrations in `folder`, oldest first. */
export function readMigrations(folder: string): Migration[] {
  return readdirSync(folder, { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map((entry) => entry.name)
    .sort()
    .map((name) => {
      const sql = readFileSync(path.join(folder, name, "migration.sql"), "utf8");
      return { name, sql, checksum: createHash("sha256").update(sql).digest("hex") };
    });
}

/**
 * Brings the database at `url` up to date and returns the names of what was applied. Each migration is one
 * transaction, with its row in Prisma's table, so that Prisma's command line sees the same history. Copies that
 * start together wait for one another. `upTo` is how many migrations it is to have had at most, for what was kept
 * when there were fewer.
 */
export async function migrate(url: string, folder = path.resolve("prisma/migrations"), upTo = Infinity): Promise<string[]> {
  const migrations = readMigrations(folder);
  const sql = postgres(url, { max: 1, onnotice: () => undefined });
  try {
    await sql`select pg_advisory_lock(${lockNumber})`;
    await sql.unsafe(historyTable);
    const applied = await sql<Applied[]>`
      select migration_name, checksum, finished_at is not null as finished
      from _prisma_migrations where rolled_back_at is null order by started_at`;
    checkHistory(migrations, applied);
    const pending = migrations.slice(applied.length, Math.max(applied.length, upTo));
    for (const migration of pending) await apply(sql, migration);
    return pending.map(({ name }) => name);
  } finally {
    await sql.end();
  }
}

/** Refuses a history that is not the beginning of ours. */
function checkHistory(migrations: readonly Migration[], applied: readonly Applied[]): void {
  applied.forEach(({ migration_name: name, checksum, finished }, i) => {
    const ours = migrations[i];
    if (!finished) {
      throw new Fault(`The migration ${name} was begun by another tool and did not finish: settle it there, or restore the database.`);
    }
    if (!ours || !migrations.some((migration) => migration.name === name)) {
      throw new Fault(`The database has the migration ${name}, which this Padwright does not know: it belongs to a newer one. Update Padwright; nothing was changed.`);
    }
    if (ours.name !== name) {
      throw new Fault(`The database has the migration ${name} where ${ours.name} was expected: restore prisma/migrations as it was; nothing was changed.`);
    }
    if (ours.checksum !== checksum) {
      throw new Fault(`The migration ${name} was changed after the database had it: restore prisma/migrations/${name}/migration.sql as it was; nothing was changed.`);
    }
  });
}

async function apply(sql: postgres.Sql, migration: Migration): Promise<void> {
  try {
    await sql.begin(async (tx) => {
      await tx.unsafe(migration.sql).simple();
      await tx`
        insert into _prisma_migrations (id, checksum, migration_name, started_at, finished_at, applied_steps_count)
        values (${randomUUID()}, ${migration.checksum}, ${migration.name}, clock_timestamp(), clock_timestamp(), 1)`;
    });
  } catch (error) {
    if (!(error instanceof postgres.PostgresError)) throw error;
    if (error.code === "53100") throw new Fault("The database's disk is full. Free some space and start again; nothing was lost.", { cause: error });
    throw new Fault(`The migration ${migration.name} was refused and undone: ${error.message}.`, { cause: error });
  }
}

/** Exactly the table that Prisma's command line makes. */
const historyTable = `
CREATE TABLE IF NOT EXISTS _prisma_migrations (
    id                      VARCHAR(36) PRIMARY KEY NOT NULL,
    checksum                VARCHAR(64) NOT NULL,
    finished_at             TIMESTAMPTZ,
    migration_name          VARCHAR(255) NOT NULL,
    logs                    TEXT,
    rolled_back_at          TIMESTAMPTZ,
    started_at              TIMESTAMPTZ NOT NULL DEFAULT now(),
    applied_steps_count     INTEGER NOT NULL DEFAULT 0
)`;
