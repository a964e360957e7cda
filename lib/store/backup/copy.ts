import type { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import type postgres from "postgres";
import { quoted, type Table } from "./catalog";

/**
 * The rows of a table as COPY writes them, in pieces. How dates and numbers are written is part of the bytes that are
 * compared, so whoever asks has called {@link writeAlike} on the connection.
 */
export async function* copyOut(sql: postgres.ReservedSql, { name, columns, order }: Table): AsyncGenerator<Buffer> {
  const list = columns.map(quoted).join(", ");
  const stream = await sql.unsafe(`copy (select ${list} from ${quoted(name)} as row_of order by ${order}) to stdout`).readable();
  for await (const chunk of stream) yield chunk as Buffer;
  wake(stream);
}

/** Puts rows as COPY writes them into a table. Rejects with the database's own error. */
export async function copyIn(sql: postgres.ReservedSql, { name, columns }: Pick<Table, "name" | "columns">, rows: AsyncIterable<Buffer>): Promise<void> {
  const query = sql.unsafe(`copy ${quoted(name)} (${columns.map(quoted).join(", ")}) from stdin`);
  const refused = refusalOf(query);
  await Promise.race([refused, query.writable().then((stream) => pipeline(rows, stream))]);
}

/** Makes the connection write every value as every other server does. */
export async function writeAlike(sql: postgres.ReservedSql): Promise<void> {
  await sql.unsafe(`
    set local timezone = 'UTC'; set local datestyle = 'ISO, MDY'; set local intervalstyle = 'postgres'; set local extra_float_digits = 1;
    set local bytea_output = 'hex'; set local client_encoding = 'UTF8';
    set local statement_timeout = 0; set local idle_in_transaction_session_timeout = 0`).simple();
}

/**
 * The driver stops reading from the server while nobody takes its rows, and where the last of them came in one piece
 * with the end, it never begins again: the next answer would be waited for in vain.
 */
function wake(stream: Readable): void {
  stream._read(0);
}

/**
 * Rejects when the server refuses the COPY. What it refuses once all rows are there (a reference to nothing, the disk)
 * the driver tells the query, which was answered when its stream was handed out, and the stream waits for ever.
 */
function refusalOf(query: object): Promise<never> {
  const told = query as { reject: (error: unknown) => void };
  const pass = told.reject;
  const refused = new Promise<never>((_, reject) => {
    told.reject = (error) => {
      pass(error);
      reject(error instanceof Error ? error : new Error(String(error)));
    };
  });
  refused.catch(() => undefined);
  return refused;
}
