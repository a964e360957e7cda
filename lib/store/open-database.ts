import { randomBytes } from "node:crypto";
import { chmodSync, existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import postgres from "postgres";
import { startEmbedded } from "./embedded/server";
import type { Environment } from "./environment";
import { toStoreError } from "./errors";
import { Fault } from "./fault";

/** A database that is open for this run. */
export interface OpenDatabase {
  readonly url: string;
  /** Where it is, in words for a person, without the password. */
  readonly description: string;
  /** Resolves with a line that says why when a server that this run started ends by itself; else never. */
  readonly ended: Promise<string>;
  close(): Promise<void>;
}

/** The oldest PostgreSQL that the store is written for. */
const oldestVersion = 14;
const never = new Promise<string>(() => undefined);

/** Opens the database the settings name: the server at DATABASE_URL, else the embedded one on the data folder. */
export async function openDatabase(
  { DATABASE_URL, PADWRIGHT_DATA }: Pick<Environment, "DATABASE_URL" | "PADWRIGHT_DATA">,
  report?: (what: string) => void,
): Promise<OpenDatabase> {
  if (DATABASE_URL) {
    const version = await checkReachable(DATABASE_URL);
    return { url: DATABASE_URL, description: `PostgreSQL ${version} at ${placeOf(DATABASE_URL)}`, ended: never, close: async () => undefined };
  }
  const server = await startEmbedded(PADWRIGHT_DATA, report ? { report } : {});
  const where = path.relative(process.cwd(), server.home) || ".";
  return {
    url: server.url,
    description: `PostgreSQL 18 on port ${server.port}, data in ${where.startsWith("..") ? server.home : where}`,
    ended: server.ended,
    close: () => server.stop(),
  };
}

/**
 * A database of its own for one trial or test run, gone when it is closed: on the server at `given`, else on an
 * embedded one in a folder that is deleted afterwards. `serverUrl` is for making more.
 */
export async function openThrowaway(given: string | undefined): Promise<OpenDatabase & { serverUrl: string }> {
  const server = given ? { url: given, ended: never, close: async () => undefined } : await throwawayServer();
  const name = `padwright_${randomBytes(6).toString("hex")}`;
  if (given) await checkReachable(given);
  await onServer(server.url, `create database "${name}"`);
  const address = new URL(server.url);
  address.pathname = `/${name}`;
  return {
    url: address.href,
    serverUrl: server.url,
    description: `a throwaway database at ${placeOf(address.href)}`,
    ended: server.ended,
    close: async () => {
      if (given) await onServer(server.url, `drop database if exists "${name}" with (force)`);
      await server.close();
    },
  };
}

async function throwawayServer() {
  const folder = mkdtempSync(path.join(tmpdir(), "padwright-"));
  // The server's own account has to enter it.
  chmodSync(folder, 0o755);
  const server = await startEmbedded(folder, { throwaway: true });
  const close = async () => {
    await server.stop();
    for (const used of new Set([server.home, folder])) if (existsSync(used)) rmSync(used, { recursive: true, force: true });
  };
  return { url: server.url, ended: server.ended, close };
}

/** The version of the server at `url`; a Fault in one line where it cannot be used. */
async function checkReachable(url: string): Promise<string> {
  const sql = postgres(url, { max: 1, connect_timeout: 10, onnotice: () => undefined });
  try {
    const [row] = await sql<{ server_version: string }[]>`show server_version`;
    const version = row?.server_version.split(" ")[0] ?? "";
    if (Number.parseInt(version, 10) >= oldestVersion) return version;
    throw new Fault(`The server at DATABASE_URL is PostgreSQL ${version}; Padwright needs ${oldestVersion} or newer. Nothing was changed.`);
  } catch (error) {
    if (error instanceof Fault) throw error;
    throw new Fault(`The database at ${placeOf(url)} cannot be used: ${adviceFor(error)}`, { cause: error });
  } finally {
    await sql.end({ timeout: 1 }).catch(() => undefined);
  }
}

function adviceFor(error: unknown): string {
  const code = error instanceof Error && "code" in error ? String(error.code) : "";
  if (code === "28P01" || code === "28000") return "the server refuses the user or the password. Correct DATABASE_URL.";
  if (code === "3D000") return "there is no database of that name. Create it with `createdb`, or correct DATABASE_URL.";
  if (code === "ENOTFOUND" || code === "EAI_AGAIN") return "no machine of that name was found. Correct DATABASE_URL.";
  if (toStoreError(error).kind === "unreachable") return `nothing answers there (${code || "no connection"}). Start that server, correct DATABASE_URL, or unset it to use the embedded one.`;
  return error instanceof Error ? error.message : String(error);
}

async function onServer(url: string, statement: string): Promise<void> {
  const sql = postgres(url, { max: 1, onnotice: () => undefined });
  try {
    await sql.unsafe(statement);
  } finally {
    await sql.end();
  }
}

function placeOf(url: string): string {
  const { host, pathname } = new URL(url);
  return `${host}${pathname}`;
}
