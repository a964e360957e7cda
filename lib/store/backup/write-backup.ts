import { createHash } from "node:crypto";
import { existsSync, readdirSync, renameSync, rmSync } from "node:fs";
import { open, type FileHandle } from "node:fs/promises";
import path from "node:path";
import { pipeline } from "node:stream/promises";
import { createGzip } from "node:zlib";
import postgres from "postgres";
import { isAlive } from "../embedded/processes";
import { Fault, explainSystemError } from "../fault";
import { quoted, readHistory, readSequences, readTables, type Table } from "./catalog";
import { copyOut, writeAlike } from "./copy";
import { firstLine, frame, frameLimit, headerLimit, jsonFrame, kinds, lastLine, type Header, type Tally } from "./format";
import { checkBackup, type Checked } from "./read-backup";
import { sameTally, tallying } from "./tallying";

export interface BackupOptions {
  /** Write over a file that is there. */
  readonly force?: boolean;
  readonly signal?: AbortSignal;
  /** Told of each table once its rows are written. */
  readonly report?: (table: string, tally: Tally) => void;
}

/** Rows are gathered into pieces of so many bytes: COPY hands them out one by one. */
const pieceSize = 256 * 1024;
/** Records pack to a tenth at this level; the best level takes four times as long for a few per cent more. */
const packing = { level: 4 };

/**
 * Writes everything the database at `url` holds, as of one moment, to `file`, and reads it back before it gets its
 * name. Others go on reading and writing meanwhile. Only its owner may read the file: it holds guests' data and what
 * passwords are checked against. On any fault nothing of that name is there, or what was there before.
 */
export async function backUp(url: string, file: string, options: BackupOptions = {}): Promise<Checked> {
  const target = path.resolve(file);
  if (!options.force && existsSync(target)) throw new Fault(`${file} is there already. Choose another name, or write over it with --force.`);
  removeLeftBehind(target);
  const partial = `${target}.partial-${process.pid}`;
  try {
    const written = await writeTo(partial, url, options);
    const checked = await checkBackup(partial);
    compare(written, checked);
    if (!options.force && existsSync(target)) throw new Fault(`${file} has been made in the meantime. Choose another name.`);
    renameSync(partial, target);
    await settleFolder(path.dirname(target));
    return checked;
  } catch (error) {
    throw explainWriting(error, path.dirname(target));
  } finally {
    rmSync(partial, { force: true });
  }
}

async function writeTo(partial: string, url: string, options: BackupOptions): Promise<ReadonlyMap<string, Tally>> {
  const tallies = new Map<string, Tally>();
  const handle = await open(partial, "wx", 0o600);
  try {
    const sql = postgres(url, { max: 1, onnotice: () => undefined });
    try {
      await inSnapshot(sql, (snapshot, tables) => writeAll(handle, snapshot, tables, tallies, options));
    } finally {
      await sql.end({ timeout: 1 });
    }
    // On the disk before it is read back, and before it is called a backup.
    await handle.sync();
  } finally {
    await handle.close();
  }
  return tallies;
}

/** Everything as of one moment. Tables are locked against being altered, and nothing else. */
async function inSnapshot(sql: postgres.Sql, work: (snapshot: postgres.ReservedSql, tables: readonly Table[]) => Promise<void>): Promise<void> {
  const reserved = await sql.reserve();
  try {
    const before = await readTables(reserved);
    if (before.length === 0) throw new Fault("There is nothing to back up: the database has no tables.");
    await reserved.unsafe("begin isolation level repeatable read, read only");
    // Before the first look, which is the moment that counts: what is altered later waits.
    await reserved.unsafe(`lock table ${before.map(({ name }) => quoted(name)).join(", ")} in access share mode`);
    await writeAlike(reserved);
    const tables = await readTables(reserved);
    if (JSON.stringify(tables) !== JSON.stringify(before)) throw new Fault("The tables were being altered at that moment: back up again.");
    await work(reserved, tables);
    await reserved.unsafe("commit");
  } finally {
    reserved.release();
  }
}

async function writeAll(handle: FileHandle, sql: postgres.ReservedSql, tables: readonly Table[], tallies: Map<string, Tally>, options: BackupOptions): Promise<void> {
  const hash = createHash("sha256");
  const start = Buffer.from(`${firstLine}${JSON.stringify(await readHeader(sql, tables))}\n`);
  if (start.length > headerLimit) throw new Fault("The database has more tables and migrations than a backup can name.");
  hash.update(start);
  await writeWhole(handle, start);
  await pipeline(
    frames(sql, tables, tallies, options),
    createGzip(packing),
    async (packed: AsyncIterable<Buffer>) => {
      for await (const chunk of packed) {
        hash.update(chunk);
        await writeWhole(handle, chunk);
      }
    },
    { signal: options.signal },
  );
  await writeWhole(handle, lastLine(hash.digest("hex")));
}

/** One write may take less than it was given. */
async function writeWhole(handle: FileHandle, bytes: Buffer): Promise<void> {
  for (let at = 0; at < bytes.length; ) at += (await handle.write(bytes, at)).bytesWritten;
}

async function readHeader(sql: postgres.ReservedSql, tables: readonly Table[]): Promise<Header> {
  const [server] = await sql<{ version: string }[]>`select current_setting('server_version') as version`;
  const migrations = await readHistory(sql);
  if (!migrations) throw new Fault("There is nothing to back up: the database was never used by Padwright.");
  return { madeAt: new Date().toISOString(), postgres: server?.version.split(" ")[0] ?? "", migrations, tables: tables.map(({ name }) => name) };
}

async function* frames(sql: postgres.ReservedSql, tables: readonly Table[], tallies: Map<string, Tally>, { report }: BackupOptions): AsyncGenerator<Buffer> {
  for (const table of tables) {
    const tally = tallying();
    yield jsonFrame(kinds.table, { name: table.name, columns: table.columns });
    for await (const piece of pieces(copyOut(sql, table))) {
      tally.add(piece);
      for (let at = 0; at < piece.length; at += frameLimit) yield frame(kinds.rows, piece.subarray(at, at + frameLimit));
    }
    const closed = tally.close();
    tallies.set(table.name, closed);
    yield jsonFrame(kinds.tableEnd, closed);
    report?.(table.name, closed);
  }
  yield jsonFrame(kinds.sequences, await readSequences(sql));
  yield jsonFrame(kinds.end, { tables: tables.length, rows: [...tallies.values()].reduce((sum, { rows }) => sum + rows, 0) });
}

async function* pieces(rows: AsyncIterable<Buffer>): AsyncGenerator<Buffer> {
  let gathered: Buffer[] = [], size = 0;
  for await (const row of rows) {
    gathered.push(row);
    size += row.length;
    if (size < pieceSize) continue;
    yield Buffer.concat(gathered, size);
    gathered = [];
    size = 0;
  }
  if (size > 0) yield Buffer.concat(gathered, size);
}

/** What was read back is what the database gave. */
function compare(written: ReadonlyMap<string, Tally>, { tables }: Checked): void {
  for (const { name, tally } of tables) {
    const was = written.get(name);
    if (!was || !sameTally(was, tally)) throw new Fault(`Read back, the table ${name} is not what was written: the disk cannot be trusted. No backup was made.`);
  }
  if (tables.length !== written.size) throw new Fault("Read back, the backup holds fewer tables than were written: the disk cannot be trusted. No backup was made.");
}

/** Of runs that were killed. One that still runs keeps its own. */
function removeLeftBehind(target: string): void {
  const folder = path.dirname(target), start = `${path.basename(target)}.partial-`;
  if (!existsSync(folder)) throw new Fault(`There is no folder ${folder}.`);
  for (const name of readdirSync(folder)) {
    const pid = name.startsWith(start) ? Number(name.slice(start.length)) : NaN;
    if (Number.isInteger(pid) && !isAlive(pid)) rmSync(path.join(folder, name), { force: true });
  }
}

function explainWriting(error: unknown, folder: string): unknown {
  const code = error instanceof Error && "code" in error ? error.code : "";
  if (code === "EACCES" || code === "EPERM" || code === "EROFS") return new Fault(`${folder} cannot be written to. Choose another folder for the backup.`, { cause: error });
  return explainSystemError(error, folder);
}

/** A new name is on the disk once its folder is. Some systems have no such thing, and need none. */
async function settleFolder(folder: string): Promise<void> {
  const handle = await open(folder, "r").catch(() => null);
  await handle?.sync().catch(() => undefined);
  await handle?.close();
}
