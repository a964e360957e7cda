import { PrismaPg } from "@prisma/adapter-pg";
import { databaseUrl } from "./environment";
import { Prisma, PrismaClient } from "./generated/client";

/**
 * Survives the reloading of modules in development, where each edit would otherwise open another pool. By the columns that a client knows: one from
 * before the schema was edited would refuse the new ones.
 */
const kept = globalThis as typeof globalThis & { padwrightClients?: Map<string, PrismaClient> };
const columns = JSON.stringify(Object.entries(Prisma).filter(([name]) => name.endsWith("ScalarFieldEnum")));

/** A client for the database at `url`. Most callers want {@link client}. */
export function connect(url: string, poolSize = 10): PrismaClient {
  const adapter = new PrismaPg({ connectionString: url, max: poolSize, connectionTimeoutMillis: 10_000 });
  return new PrismaClient({ adapter, errorFormat: "minimal" });
}

/** The client of this process, made when first asked for: a build needs none. */
export function client(): PrismaClient {
  const clients = (kept.padwrightClients ??= new Map());
  const known = clients.get(columns);
  if (known) return known;
  const made = connect(databaseUrl());
  clients.set(columns, made);
  return made;
}

/** Closes the connections of this process, so that a command can end. */
export async function disconnect(): Promise<void> {
  const open = [...(kept.padwrightClients?.values() ?? [])];
  kept.padwrightClients?.clear();
  await Promise.all(open.map((one) => one.$disconnect()));
}

export type { PrismaClient } from "./generated/client";
