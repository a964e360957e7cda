import { chmodSync, mkdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import path from "node:path";
import postgres from "postgres";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { startEmbedded, type EmbeddedServer } from "@/lib/store/embedded/server";
import { homeOf, makeDataFolder, removeDataFolder } from "../setup/data-folder";

let data: string;
const servers: EmbeddedServer[] = [];

beforeEach(() => {
  data = makeDataFolder();
});

afterEach(async () => {
  await Promise.all(servers.splice(0).map((server) => server.stop()));
  removeDataFolder(data);
});

async function start(): Promise<EmbeddedServer> {
  const server = await startEmbedded(data, { throwaway: true });
  servers.push(server);
  return server;
}

async function query(url: string, statement: string): Promise<unknown[]> {
  const sql = postgres(url, { max: 1, onnotice: () => undefined });
  try {
    return [...(await sql.unsafe(statement))];
  } finally {
    await sql.end();
  }
}

const home = () => homeOf(data);
const serverPid = () => Number(readFileSync(path.join(home(), "postgres", "postmaster.pid"), "utf8").split("\n")[0]);

describe("the embedded server", () => {
  it("keeps its data from one run to the next", async () => {
    const first = await start();
    await query(first.url, "create table kept as select 42 as answer");
    await first.stop();
    const second = await start();
    expect(await query(second.url, "select answer from kept")).toEqual([{ answer: 42 }]);
  });

  it("lets nobody in without its password, which only its owner can read", async () => {
    const server = await start();
    const address = new URL(server.url);
    address.password = "guess";
    await expect(query(address.href, "select 1")).rejects.toMatchObject({ code: "28P01" });
    expect(statSync(path.join(data, "password")).mode & 0o777).toBe(0o600);
  });

  it("listens on loopback alone", async () => {
    const server = await start();
    expect(await query(server.url, "show listen_addresses")).toEqual([{ listen_addresses: "127.0.0.1" }]);
    expect(await query(server.url, "show unix_socket_directories")).toEqual([{ unix_socket_directories: "" }]);
  });

  it("stops a server left behind by a killed run and takes over its data", async () => {
    const lost = await start();
    await query(lost.url, "create table kept as select 1 as one");
    const before = serverPid();
    const next = await start();
    expect(serverPid()).not.toBe(before);
    expect(await query(next.url, "select one from kept")).toEqual([{ one: 1 }]);
  });

  it("recovers from a server that was killed outright", async () => {
    const server = await startEmbedded(data);
    await query(server.url, "create table kept as select 7 as seven");
    process.kill(serverPid(), "SIGKILL");
    expect(await server.ended).toMatch(/was ended by SIGKILL/);
    const next = await start();
    expect(await query(next.url, "select seven from kept")).toEqual([{ seven: 7 }]);
  });

  it("does not take another process for its server when the number was given out again", async () => {
    await (await start()).stop();
    writeFileSync(path.join(home(), "postgres", "postmaster.pid"), `${process.pid}\n${home()}/postgres\n`);
    const server = await start();
    expect(await query(server.url, "select 1 as one")).toEqual([{ one: 1 }]);
  });

  it("refuses the data of another PostgreSQL version and leaves it as it is", async () => {
    await (await start()).stop();
    const version = path.join(home(), "postgres", "PG_VERSION");
    writeFileSync(version, "15\n");
    await expect(start()).rejects.toThrow(/made by PostgreSQL 15 and this Padwright brings 18.*nothing was changed/);
    writeFileSync(version, "18\n");
    await start();
  });

  it("keeps its files where its account can enter when root's data folder cannot be entered by others", async () => {
    chmodSync(data, 0o700);
    const first = await start();
    expect(home() === data).toBe(process.getuid?.() !== 0);
    await query(first.url, "create table kept as select 1 as one");
    await first.stop();
    const again = await start();
    expect(await query(again.url, "select one from kept")).toEqual([{ one: 1 }]);
  });

  it("does not overwrite a folder that is something else", async () => {
    const folder = path.join(data, "postgres");
    mkdirSync(folder);
    writeFileSync(path.join(folder, "letters.txt"), "dear diary");
    await expect(start()).rejects.toThrow(/is there but is no database/);
    expect(readFileSync(path.join(folder, "letters.txt"), "utf8")).toBe("dear diary");
  });
});
