import { PrismaPg } from "@prisma/adapter-pg";
import { databaseUrl } from "./environment";
import { Prisma, PrismaClient } from "./generated/client";

/** Survives the reloading of modules in development, where each edit would otherwise open another pool. */
const kept = globalThis as typeof globalThis & { padwrightClient?: PrismaClient; padwrightClientOf?: string };

/** The columns the client knows. One that was kept from before the schema was edited knows others, and gives way. */
const columns = JSON.stringify(Object.entries(Prisma).filter(([name]) => name.endsWith("ScalarFieldEnum")));

/** A client for the database at `url`. Most callers want {@link client}. */
export function connect(url: string, poolSize = 10): PrismaClient {
  const adapter = new PrismaPg({ connectionString: url, max: poolSize, connectionTimeoutMillis: 10_000 });
  return new PrismaClient({ adapter, errorFormat: "minimal" });
}

/** The client of this process, made when first asked for: a build needs none. */
export function client(): PrismaClient {
  if (kept.padwrightClientOf !== columns) {
    void kept.padwrightClient?.$disconnect();
    delete kept.padwrightClient;
    kept.padwrightClientOf = columns;
  }
  kept.padwrightClient ??= connect(databaseUrl());
  return kept.padwrightClient;
}

/** Closes the connections of this process, so that a command can end. */
export async function disconnect(): Promise<void> {
  await kept.padwrightClient?.$disconnect();
  delete kept.padwrightClient;
}

export type { PrismaClient } from "./generated/client";
