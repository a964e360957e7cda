import "./store-url";
import { afterEach, describe, expect, inject, it } from "vitest";
import postgres from "postgres";
import { listen, type Notice } from "@/lib/store/notices";
import { getParkRowId } from "@/lib/store/parks";
import { bookStay, cancelStay } from "@/lib/store/stays";
import { withStore } from "./client";
import { ask, desk, openPark, park } from "./stays-park";

withStore();

const leaving: (() => void)[] = [];
afterEach(() => leaving.splice(0).forEach((leave) => leave()));

async function listenTo(slug: string) {
  const heard: Notice[] = [];
  const links: boolean[] = [];
  leaving.push(listen((await getParkRowId(slug))!, { onNotice: (notice) => heard.push(notice), onLink: (linked) => links.push(linked) }));
  await expect.poll(() => links.at(-1)).toBe(true);
  return { heard, links };
}

describe("word of changes", () => {
  it("comes of a stay's change, and says which, not what", async () => {
    await openPark();
    const { heard } = await listenTo(park);
    const { stay } = await bookStay(desk, park, { request: ask(30, 2) });
    await expect.poll(() => heard.some(({ subject, id }) => subject === "stay" && id === stay.id)).toBe(true);
    expect(Object.keys(heard[0]!).sort()).toEqual(["id", "subject"]);
    await cancelStay(desk, park, stay.id);
    await expect.poll(() => heard.filter(({ id }) => id === stay.id).length).toBe(2);
  });

  it("is of one's own park alone", async () => {
    await openPark();
    await openPark({}, "other-park");
    const { heard } = await listenTo("other-park");
    await bookStay(desk, park, { request: ask(30, 2) });
    await bookStay({ ...desk, park: "other-park" } as typeof desk, "other-park", { request: ask(30, 2) });
    await expect.poll(() => heard.some(({ subject }) => subject === "stay")).toBe(true);
    expect(heard.filter(({ subject }) => subject === "stay")).toHaveLength(1);
  });

  it("goes on after the connection was cut, and says that there was a gap", async () => {
    await openPark();
    const { heard, links } = await listenTo(park);
    const before = links.length;
    const sql = postgres(inject("databaseUrl"), { max: 1, onnotice: () => undefined });
    await sql`select pg_terminate_backend(pid) from pg_stat_activity where datname = current_database() and pid <> pg_backend_pid() and query ilike 'listen%'`;
    await sql.end();
    await expect.poll(() => links.length > before && links.at(-1)).toBe(true);
    expect(links.slice(before)).toContain(false);
    const { stay } = await bookStay(desk, park, { request: ask(30, 2) });
    await expect.poll(() => heard.some(({ id }) => id === stay.id)).toBe(true);
  });
});
