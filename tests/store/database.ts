import { randomBytes } from "node:crypto";
import postgres from "postgres";
import { inject } from "vitest";

/** A new empty database on the test server, not migrated, and how to drop it. */
export async function emptyDatabase(): Promise<{ url: string; drop: () => Promise<void> }> {
  const name = `padwright_test_${randomBytes(6).toString("hex")}`;
  const server = inject("serverUrl");
  const address = new URL(server);
  address.pathname = `/${name}`;
  await run(server, `create database "${name}"`);
  return { url: address.href, drop: () => run(server, `drop database if exists "${name}" with (force)`) };
}

async function run(url: string, statement: string): Promise<void> {
  const sql = postgres(url, { max: 1, onnotice: () => undefined });
  await sql.unsafe(statement);
  await sql.end();
}
