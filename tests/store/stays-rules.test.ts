import { describe, expect, it } from "vitest";
import { client } from "@/lib/store/client";
import { closeSite } from "@/lib/store/closures";
import { toStoreError } from "@/lib/store/errors";
import { bookStay, holdStay } from "@/lib/store/stays";
import { withStore } from "./client";
import { ask, byHand, day, desk, guest, openPark, park, refusal } from "./stays-park";

withStore();

/** What must hold whatever the code does: every statement here is by hand. */
async function refusedAs(statement: string): Promise<{ kind: string; constraint: string | null }> {
  const { kind, constraint } = toStoreError(await refusal(byHand((sql) => sql.unsafe(statement))));
  return { kind, constraint };
}

describe("the database refuses", () => {
  it("a change that does not say who makes it", async () => {
    await openPark();
    await bookStay(desk, park, { request: ask(5, 3) });
    const nobody = byHand(async (sql) => {
      await sql`select set_config('padwright.actor_kind', '', false)`;
      await sql`update stay set note = 'x'`;
    });
    expect(toStoreError(await refusal(nobody))).toMatchObject({ kind: "refused", constraint: "audit_entry_has_actor" });
    expect(toStoreError(await refusal(client().stay.updateMany({ data: { note: "x" } })))).toMatchObject({ kind: "refused", message: expect.stringContaining("a change of stay must say who makes it") });
    await byHand((sql) => sql`update stay set note = 'x'`);
  });

  it("an occupancy that is written or taken away by hand", async () => {
    await openPark();
    await bookStay(desk, park, { request: ask(5, 3) });
    for (const statement of ["delete from occupancy", "update occupancy set nights = '[2027-01-01,2027-01-02)'", "insert into occupancy select gen_random_uuid(), park_id, site_id, '[2030-01-01,2030-01-02)', stay_id from occupancy"]) {
      expect(await refusedAs(statement)).toEqual({ kind: "refused", constraint: "occupancy_by_trigger_alone" });
    }
  });

  it("an audit entry changed or deleted, a stay or closure deleted", async () => {
    await openPark();
    await bookStay(desk, park, { request: ask(5, 3) });
    await closeSite(desk, park, "a02", { starts: day(1), ends: day(2), reason: "repairs" });
    expect(await refusedAs("update audit_entry set actor = 'somebody else'")).toMatchObject({ kind: "refused", constraint: "audit_entry_stays_as_it_is" });
    for (const table of ["audit_entry", "stay", "closure"]) expect(await refusedAs(`delete from ${table}`), table).toMatchObject({ kind: "refused", constraint: `${table}_stays_as_it_is` });
  });

  it("a stay on a site of another park, and a site deleted under its stays", async () => {
    await openPark();
    await openPark({}, "elsewhere");
    await bookStay(desk, park, { request: ask(5, 3) });
    expect(await refusedAs("update stay set site_id = (select s.id from site s join park p on p.id = s.park_id where p.slug = 'elsewhere' limit 1)")).toEqual({ kind: "missing", constraint: "stay_site_fkey" });
    expect(await refusedAs("delete from site")).toMatchObject({ constraint: "stay_site_fkey" });
  });

  it.each([
    ["a state that is none", "state = 'maybe'", "stay_state_known"],
    ["a hold without an end", "state = 'held', held_until = null", "stay_hold_ends"],
    ["a booking that runs out", "held_until = now()", "stay_hold_ends"],
    ["an arrival without a site", "state = 'arrived', site_id = null, site_chosen = false", "stay_arrived_has_site"],
    ["a chosen site that is none", "site_id = null, site_chosen = true", "stay_chosen_has_site"],
    ["a booking for nobody", "guest_name = null", "stay_has_guest"],
    ["nights given back by who has not left", "freed_from = arrive", "stay_freed_within"],
  ])("%s", async (_, change, constraint) => {
    await openPark();
    await bookStay(desk, park, { request: ask(5, 3) });
    expect(await refusedAs(`update stay set ${change}`)).toEqual({ kind: "refused", constraint });
  });

  it("nothing of it when a whole park goes, with all that was in it", async () => {
    await openPark();
    await bookStay(desk, park, { request: ask(5, 3), key: "k" });
    await holdStay(guest, park, { request: ask(9, 3) });
    await closeSite(desk, park, "a02", { starts: day(1), ends: day(2), reason: "repairs" });
    await client().park.delete({ where: { slug: park } });
    for (const table of ["stay", "closure", "occupancy", "audit_entry", "stay_link", "idempotency_key", "site"]) {
      expect(await byHand((sql) => sql.unsafe(`select 1 from ${table}`)), table).toHaveLength(0);
    }
  });
});
