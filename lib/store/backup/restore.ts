import postgres from "postgres";
import { Fault } from "../fault";
import { migrate, readMigrations } from "../migrate";
import { quoted, readHistory, readTables, type History, type Table } from "./catalog";
import { copyIn, copyOut, writeAlike } from "./copy";
import type { Header, Sequences, Tally } from "./format";
import { checkBackup, readBackup, type Checked, type Part } from "./read-backup";
import { sameTally, tallying } from "./tallying";

export interface RestoreOptions {
  /** Our migrations, where they do not lie in their usual place. */
  readonly migrations?: string;
  readonly signal?: AbortSignal;
  /** Told of each table once its rows are in. */
  readonly report?: (table: string, tally: Tally) => void;
}

export interface Restored extends Checked {
  /** The names of the parks that are there now. */
  readonly parks: readonly string[];
  /** Migrations that came after the backup was made. */
  readonly migrated: readonly string[];
}

/** Rows that a start makes before there is any park: the backup's own take their place. */
const madeAtStart = ["secret", "rate_limit"];
/** So long another program may hold a table, in milliseconds. */
const lockLimit = 10_000;

/**
 * Puts a backup into the empty database at `url`: all of it, compared with the file once it is in, or none of it. The
 * file is read to its end before anything is touched. What it holds is put into the tables as they were when it was
 * made, and then brought up to date.
 */
export async function restore(url: string, file: string, options: RestoreOptions = {}): Promise<Restored> {
  const checked = await checkBackup(file);
  const { migrations } = checked.header;
  checkOrigin(migrations, readMigrations(options.migrations ?? "prisma/migrations"), file);
  const sql = postgres(url, { max: 1, onnotice: () => undefined });
  try {
    await checkTarget(sql, migrations);
    options.signal?.throwIfAborted();
    await migrate(url, options.migrations, migrations.length);
    await inOneTransaction(sql, (tx) => fill(tx, file, options));
    const migrated = await migrate(url, options.migrations);
    // Without counts of its rows, the database would look for them in the wrong ways at first.
    await sql`analyze ${sql(checked.header.tables)}`;
    return { ...checked, migrated, parks: await parkNames(sql) };
  } catch (error) {
    throw explain(error);
  } finally {
    await sql.end({ timeout: 1 });
  }
}

/** The backup's history has to be the beginning of ours. */
function checkOrigin(theirs: readonly History[], ours: readonly { name: string; checksum: string }[], file: string): void {
  theirs.forEach(({ name, sha256 }, i) => {
    const known = ours.find((migration) => migration.name === name);
    if (!known) throw new Fault(`${file} was made by a newer Padwright: it has the migration ${name}, which this one does not know. Update Padwright; nothing was changed.`);
    if (ours[i]?.name !== name || known.checksum !== sha256) throw new Fault(`${file} was made with another prisma/migrations/${name}. Restore with the Padwright that made it; nothing was changed.`);
  });
}

/** Nobody else may be at work on the database, and it may not be ahead of the backup. */
async function checkTarget(sql: postgres.Sql, migrations: readonly History[]): Promise<void> {
  const reserved = await sql.reserve();
  try {
    const [others] = await reserved<{ count: number }[]>`
      select count(*)::int as count from pg_stat_activity where datname = current_database() and pid <> pg_backend_pid() and backend_type = 'client backend'`;
    const had = await readHistory(reserved);
    // First what cannot be mended by stopping something.
    if (had) await checkEmpty(reserved, await readTables(reserved));
    if (others && others.count > 0) throw new Fault(`The database is in use (${others.count} other connection${others.count === 1 ? "" : "s"}): stop Padwright and whatever else is connected to it, then restore. Nothing was changed.`);
    if (had && had.length > migrations.length) throw new Fault(`The database is of a newer version than the backup. Restore into a new one, which is brought up to date afterwards: ${anotherDatabase} Nothing was changed.`);
  } finally {
    reserved.release();
  }
}

const anotherDatabase = "create one and name it in DATABASE_URL, or set PADWRIGHT_DATA to a new folder.";

async function checkEmpty(sql: postgres.ReservedSql, tables: readonly Table[]): Promise<void> {
  const parks = tables.some(({ name }) => name === "park") ? await parkNames(sql) : [];
  if (parks.length > 0) throw new Fault(`The database is not empty: it has ${parks.slice(0, 3).join(", ")}${parks.length > 3 ? " …" : ""}. A backup is never mixed with what is there. Restore into a new one: ${anotherDatabase} Nothing was changed.`);
  for (const { name } of tables) {
    if (madeAtStart.includes(name)) continue;
    const [row] = await sql.unsafe<{ used: boolean }[]>(`select exists (select 1 from ${quoted(name)}) as used`);
    if (row?.used) throw new Fault(`The database is not empty: its table ${name} has rows. Restore into a new one: ${anotherDatabase} Nothing was changed.`);
  }
}

async function parkNames(sql: postgres.Sql | postgres.ReservedSql): Promise<string[]> {
  const rows = await sql<{ name: string }[]>`select name from park order by created_at, slug`;
  return rows.map(({ name }) => name);
}

/** Whatever ends it, the connection with the process even, before its commit leaves the database as it was. */
async function inOneTransaction(sql: postgres.Sql, work: (tx: postgres.ReservedSql) => Promise<void>): Promise<void> {
  const reserved = await sql.reserve();
  try {
    await reserved.unsafe("begin");
    await work(reserved);
    await reserved.unsafe("commit");
  } catch (error) {
    // A connection that is gone has nothing to undo.
    await reserved.unsafe("rollback").catch(() => undefined);
    throw error;
  } finally {
    reserved.release();
  }
}

async function fill(tx: postgres.ReservedSql, file: string, { signal, report }: RestoreOptions): Promise<void> {
  await writeAlike(tx);
  await tx.unsafe(`set local lock_timeout = ${lockLimit}`);
  const tables = await readTables(tx);
  await tx.unsafe(`lock table ${tables.map(({ name }) => quoted(name)).join(", ")} in access exclusive mode`);
  await checkEmpty(tx, tables);
  // What triggers would write (who has which night, the audit, word to others) is in the file. Constraints stay in force.
  for (const { name } of tables) await tx.unsafe(`alter table ${quoted(name)} disable trigger user`);
  for (const name of madeAtStart) if (tables.some((table) => table.name === name)) await tx.unsafe(`delete from ${quoted(name)}`);
  const tallies = await copyAll(tx, file, tables, signal, report);
  for (const { name } of tables) await tx.unsafe(`alter table ${quoted(name)} enable trigger user`);
  for (const table of tables) await compare(tx, table, tallies.get(table.name), signal);
}

async function copyAll(tx: postgres.ReservedSql, file: string, tables: readonly Table[], signal: AbortSignal | undefined, report: RestoreOptions["report"]): Promise<Map<string, Tally>> {
  const tallies = new Map<string, Tally>();
  const parts = readBackup(file)[Symbol.asyncIterator]();
  try {
    for (let next = await parts.next(); !next.done; next = await parts.next()) {
      const part = next.value;
      if (part.kind === "header") checkTables(part.header, tables);
      if (part.kind === "sequences") await setSequences(tx, part.sequences);
      if (part.kind !== "table") continue;
      checkColumns(part.name, part.columns, tables);
      const end: { tally?: Tally } = {};
      await copyIn(tx, part, rowsOf(parts, end, signal));
      if (!end.tally) throw new Fault(`The rows of ${part.name} have no end. Nothing was changed.`);
      tallies.set(part.name, end.tally);
      report?.(part.name, end.tally);
    }
  } finally {
    await parts.return?.(undefined);
  }
  return tallies;
}

/** The rows up to the end of the table, which goes into `end`. */
async function* rowsOf(parts: AsyncIterator<Part>, end: { tally?: Tally }, signal: AbortSignal | undefined): AsyncGenerator<Buffer> {
  for (let next = await parts.next(); !next.done; next = await parts.next()) {
    signal?.throwIfAborted();
    const part = next.value;
    if (part.kind === "rows") yield part.rows;
    if (part.kind !== "table-end") continue;
    end.tally = part.tally;
    return;
  }
}

function checkTables({ tables: named }: Header, tables: readonly Table[]): void {
  const strange = named.filter((name) => !tables.some((table) => table.name === name));
  if (strange.length > 0) throw new Fault(`The backup holds ${strange.join(", ")}, which Padwright does not make. Make it in the new database as it was, empty, and restore again. Nothing was changed.`);
}

function checkColumns(name: string, columns: readonly string[], tables: readonly Table[]): void {
  const ours = tables.find((table) => table.name === name);
  if (ours && [...ours.columns].sort().join("\n") === [...columns].sort().join("\n")) return;
  throw new Fault(`The table ${name} has other columns than in the backup: somebody altered it. Make it in the new database as it was, and restore again. Nothing was changed.`);
}

async function setSequences(tx: postgres.ReservedSql, sequences: Sequences): Promise<void> {
  for (const { name, lastValue, isCalled } of sequences) await tx`select setval(${quoted(name)}::regclass, ${lastValue}::bigint, ${isCalled})`;
}

/** What is in the database now, read out again, is what the file holds. */
async function compare(tx: postgres.ReservedSql, table: Table, expected: Tally | undefined, signal: AbortSignal | undefined): Promise<void> {
  if (!expected) return;
  const tally = tallying();
  for await (const row of copyOut(tx, table)) {
    signal?.throwIfAborted();
    tally.add(row);
  }
  if (!sameTally(tally.close(), expected)) throw new Fault(`Read out of the database again, the table ${table.name} is not what the backup holds. Everything was undone.`);
}

function explain(error: unknown): unknown {
  if (!(error instanceof postgres.PostgresError)) return error;
  if (error.code === "53100") return new Fault("The database's disk is full. Free some space and restore again; nothing was kept.", { cause: error });
  if (error.code === "55P03") return new Fault("The database is in use: stop Padwright and whatever else is connected to it, then restore. Nothing was changed.", { cause: error });
  return new Fault(`The database refused: ${error.message}${error.table_name ? ` (table ${error.table_name})` : ""}. Everything was undone.`, { cause: error });
}
