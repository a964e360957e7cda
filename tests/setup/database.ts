import type { TestProject } from "vitest/node";
import { migrate } from "@/lib/store/migrate";
import { openThrowaway } from "@/lib/store/open-database";

declare module "vitest" {
  interface ProvidedContext {
    /** A migrated, empty database for this run. */
    databaseUrl: string;
    /** The server it is on, for tests that make databases of their own. */
    serverUrl: string;
  }
}

/**
 * A real PostgreSQL for the store's tests: a database of its own on the server that DATABASE_URL names, else on the
 * embedded server.
 */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const database = await openThrowaway(process.env["DATABASE_URL"]);
  await migrate(database.url);
  project.provide("databaseUrl", database.url);
  project.provide("serverUrl", database.serverUrl);
  return () => database.close();
}
