import { randomBytes } from "node:crypto";
import postgres from "postgres";
import type { TestProject } from "vitest/node";
import { startEmbedded } from "@/lib/store/embedded/server";
import { migrate } from "@/lib/store/migrate";
import { makeDataFolder, removeDataFolder } from "./data-folder";

declare module "vitest" {
  interface ProvidedContext {
    /** A migrated, empty database for this run. */
    databaseUrl: string;
    /** The server it is on, for tests that make databases of their own. */
    serverUrl: string;
  }
}

/**
 * A real PostgreSQL for the store's tests: a database of its own on the server that DATABASE_URL names, else the
 * embedded server on a folder that is deleted afterwards.
 */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const given = process.env["DATABASE_URL"];
  const { serverUrl, close } = given ? { serverUrl: given, close: async () => undefined } : await embedded();
  const name = `padwright_test_${randomBytes(6).toString("hex")}`;
  await onServer(serverUrl, `create database "${name}"`);
  const databaseUrl = withDatabase(serverUrl, name);
  await migrate(databaseUrl);
  project.provide("databaseUrl", databaseUrl);
  project.provide("serverUrl", serverUrl);
  return async () => {
    await onServer(serverUrl, `drop database if exists "${name}" with (force)`);
    await close();
  };
}

async function embedded() {
  const folder = makeDataFolder();
  const server = await startEmbedded(folder, { throwaway: true });
  return {
    serverUrl: server.url,
    close: async () => {
      await server.stop();
      removeDataFolder(folder);
    },
  };
}

function withDatabase(url: string, name: string): string {
  const address = new URL(url);
  address.pathname = `/${name}`;
  return address.href;
}

async function onServer(url: string, statement: string): Promise<void> {
  const sql = postgres(url, { max: 1, onnotice: () => undefined });
  await sql.unsafe(statement);
  await sql.end();
}
