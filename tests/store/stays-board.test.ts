import { describe, expect, it } from "vitest";
import { freeRunsBySite, freeSites, occupies } from "@/lib/stays";
import { closeSite } from "@/lib/store/closures";
import { getBoard, listOccupancies } from "@/lib/store/stays-board";
import { listFreeSites } from "@/lib/store/stays-nights";
import { bookStay, cancelStay, holdStay, requestStay } from "@/lib/store/stays";
import { withStore } from "./client";
import { ask, byHand, day, desk, guest, openPark, park, refusal, runOut, stayFrom } from "./stays-park";

withStore();

describe("the board", () => {
  it("holds what has a night in the window, assigned or not, closures too; nothing that was cancelled", async () => {
    await openPark();
    const { stay: booked } = await bookStay(desk, park, { request: ask(5, 3) });
    const { stay: any } = await requestStay(guest, park, { request: ask(6, 2, { site: null }) });
    const { stay: gone } = await bookStay(desk, park, { request: ask(5, 3, { site: "a02" }) });
    await cancelStay(desk, park, gone.id);
    const closure = await closeSite(desk, park, "a02", { starts: day(5), ends: day(9), reason: "repairs" });
    await bookStay(desk, park, { request: ask(8, 1) });
    const board = await getBoard(desk, park, stayFrom(7, 1));
    expect(board.stays.map(({ id }) => id)).toEqual([booked.id, any.id]);
    expect(board.stays[0]).toMatchObject({ site: "a01", state: "booked", nights: stayFrom(5, 3), guest: "Ada Quill", plate: "QM 4711", rigKind: "van", rigLength: 5900, version: 1 });
    expect(board.stays[1]).toMatchObject({ site: null });
    expect(board.closures).toEqual([{ id: closure, site: "a02", nights: stayFrom(5, 4), reason: "repairs" }]);
    expect(Math.abs(board.at - Date.now())).toBeLessThan(60_000);
    // The day one leaves is not a night of theirs.
    expect((await getBoard(desk, park, stayFrom(8, 1))).stays.map(({ id }) => id)).not.toContain(booked.id);
  });

  it("is for staff of the park; who has a site when, without names, for anybody", async () => {
    await openPark();
    await bookStay(desk, park, { request: ask(5, 3) });
    expect(await refusal(getBoard(guest, park, stayFrom(0, 30)))).toMatchObject({ kind: "missing" });
    expect(await refusal(getBoard({ kind: "desk", account: "d", park: "elsewhere" }, park, stayFrom(0, 30)))).toMatchObject({ kind: "missing" });
    expect(await listOccupancies(park, stayFrom(0, 30))).toEqual([{ site: "a01", nights: stayFrom(5, 3), until: null }]);
    const { stay } = await holdStay(guest, park, { request: ask(9, 3) });
    expect(await listOccupancies(park, stayFrom(9, 1))).toEqual([{ site: "a01", nights: stayFrom(9, 3), until: stay.until }]);
    await runOut(stay.id);
    expect(await listOccupancies(park, stayFrom(9, 1))).toEqual([]);
  });
});

describe("a park of 400 sites with 8,000 stays in a year", () => {
  it("answers a range as looking through every occupancy does, and the year's board holds them all", async () => {
    await openPark();
    await fillPark();
    const year = stayFrom(0, 365), occupancies = await listOccupancies(park, year), board = await getBoard(desk, park, year);
    expect(board.stays.filter(({ state, site }) => occupies(state) && site !== null)).toHaveLength(occupancies.length);
    expect(occupancies.length).toBe(8000);
    const sites = [...new Set(occupancies.map(({ site }) => site))];
    expect(sites).toHaveLength(400);
    for (const nights of [stayFrom(3, 1), stayFrom(100, 7), stayFrom(200, 30), stayFrom(364, 1)]) {
      // The two small sites of the park have no stays.
      expect((await listFreeSites(park, nights)).filter((site) => site.startsWith("s")).sort()).toEqual(freeSites(sites, occupancies, nights).sort());
    }
    expect([...freeRunsBySite(sites, occupancies, year).values()].flat().length).toBeGreaterThan(400);
  });
});

/** 400 sites with 20 stays each, of 1 to 14 nights with gaps between them, spread over the year. */
async function fillPark(): Promise<void> {
  await byHand(async (sql) => {
    await sql`
      insert into site (park_id, site_id, label, record, position)
      select park_id, 's' || n, 'S' || n, jsonb_set(record, '{id}', to_jsonb('s' || n)), 10 + n
      from (select park_id, record from site where site_id = 'a01') one, generate_series(1, 400) n`;
    await sql`
      insert into stay (park_id, reference, state, arrive, depart, site_id, rig, guest_name)
      select s.park_id, s.site_id || '-' || i, 'booked', ${day(0)}::date + i * 18 + (s.position * 7 + i * 3) % 4, ${day(0)}::date + i * 18 + (s.position * 7 + i * 3) % 4 + 1 + (s.position * 11 + i * 5) % 14, s.id,
             ${sql.json({ kind: "van", body: { length: 5900 } })}, 'Guest ' || i
      from site s, generate_series(0, 19) i where s.site_id like 's%'`;
    await sql`analyze`;
  });
}
