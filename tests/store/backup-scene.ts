import { execFile } from "node:child_process";
import { mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import postgres from "postgres";
import { vi } from "vitest";
import { migrate } from "@/lib/store/migrate";
import { emptyDatabase } from "./database";
import { ask, day, desk, manager, park, person } from "./stays-requests";
import { smallPark } from "./small-park";

export const password = "quills in the meadow";
/** What breaks formats: COPY's own marks, line ends of all kinds, quotes, other scripts, what looks like nothing. */
export const awkward = "tab\there\\N \\. back\\slash\r\nline\n\\.\n\"quoted\" 'too', ünïcødé 漢字 \u{1f690} ";

export interface Database {
  readonly url: string;
  drop(): Promise<void>;
}

export async function migratedDatabase(): Promise<Database> {
  const database = await emptyDatabase();
  await migrate(database.url);
  return database;
}

/** The store's own queries, on the database at `url` and no other. What they know of another one is forgotten. */
export async function storeAt(url: string) {
  await leaveStore();
  vi.resetModules();
  process.env["DATABASE_URL"] = url;
  return {
    ...(await import("@/lib/store/stays")),
    ...(await import("@/lib/store/stays-change")),
    ...(await import("@/lib/store/stays-links")),
    ...(await import("@/lib/store/stays-money")),
    ...(await import("@/lib/store/stays-audit")),
    ...(await import("@/lib/store/stay-notes")),
    ...(await import("@/lib/store/closures")),
    ...(await import("@/lib/store/rates")),
    ...(await import("@/lib/store/parks")),
    ...(await import("@/lib/store/sites")),
    ...(await import("@/lib/store/load-park")),
    ...(await import("@/lib/store/accounts/links")),
    ...(await import("@/lib/store/accounts/people")),
    ...(await import("@/lib/store/accounts/sessions")),
  };
}

/** Closes the store's connections: a database in use is not restored into. */
export async function leaveStore(): Promise<void> {
  const { disconnect } = await import("@/lib/store/client");
  await disconnect();
  delete (globalThis as { padwrightAuth?: unknown }).padwrightAuth;
}

/** A park with a bit of everything that is ever kept. */
export async function fillPark(url: string): Promise<{ link: string }> {
  const store = await storeAt(url);
  await store.loadPark(smallPark());
  await store.saveRates(manager, park, { currency: "USD", minNights: 1, prices: [{ night: 3000 }], fees: [], taxes: [], deposit: { kind: "none" } } as never, 0);
  const { stay } = await store.bookStay(desk, park, { request: ask(5, 3, { guest: { ...person, name: awkward.trim() }, note: awkward }) });
  await store.bookStay(desk, park, { request: ask(8, 2) });
  const { stay: left } = await store.bookStay(desk, park, { request: ask(5, 3, { site: "a02" }) });
  await store.cancelStay(desk, park, left.id);
  await store.addNote(desk, park, stay.id, awkward.trim());
  await store.notePayment(desk, park, stay.id, { amount: 5000, currency: "USD", purpose: "deposit", means: "cash" });
  await store.closeSite(manager, park, "a02", { starts: day(20), ends: day(30), reason: "new gravel" });
  await store.joinByLink(await store.linkForOperator(park, "manager"), park, { name: "Ada", email: "ada@example.org", password });
  const signedIn = await store.signIn("ada@example.org", password, { address: "192.0.2.1", agent: null });
  if (signedIn.state !== "in") throw new Error("nobody could sign in to the park");
  const link = await store.issueLink(desk, park, stay.id);
  await leaveStore();
  return { link };
}

/** Every table with its rows as text, in the order of their bytes. */
export async function contents(url: string): Promise<Record<string, string[]>> {
  return query(url, async (sql) => {
    const tables = await sql<{ name: string }[]>`select table_name as name from information_schema.tables where table_schema = 'public' and table_name <> '_prisma_migrations' order by 1`;
    const all: Record<string, string[]> = {};
    for (const { name } of tables) all[name] = (await sql<{ row: string }[]>`select t::text as row from ${sql(name)} t order by t::text collate "C"`).map(({ row }) => row);
    return all;
  });
}

export async function query<T>(url: string, work: (sql: postgres.Sql) => Promise<T>): Promise<T> {
  const sql = postgres(url, { max: 1, onnotice: () => undefined });
  try {
    return await work(sql);
  } finally {
    await sql.end();
  }
}

export const makeFolder = (): string => mkdtempSync(path.join(tmpdir(), "padwright-backup-"));

/** A command as it is typed, on the database of these settings. */
export function runCommand(name: "backup" | "restore", args: readonly string[], settings: Record<string, string>): Promise<{ code: number; out: string; err: string }> {
  const kept = name === "backup" ? ["--kept"] : [];
  return new Promise((resolve) => {
    execFile(process.execPath, ["scripts/with-database.mjs", ...kept, `lib/cli/${name}.ts`, ...args], { env: { ...process.env, ...settings } }, (error, out, err) => resolve({ code: error ? Number(error.code) : 0, out, err }));
  });
}
