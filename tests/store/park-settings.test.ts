import { describe, expect, it } from "vitest";
import { policySchema } from "@/lib/fit";
import { staySettingsSchema } from "@/lib/stays";
import { getStayContext, listSettingsChanges, readParkSettings, saveParkSettings } from "@/lib/store/park-settings";
import { getPark } from "@/lib/store/parks";
import { bookStay, cancelStay, holdStay, markDeparted, requestStay, walkIn } from "@/lib/store/stays";
import { listStaysAhead } from "@/lib/store/stays-ahead";
import { withStore } from "./client";
import { ask, byHand, desk, guest, manager, openPark, park, refusal, runOut, today } from "./stays-park";

withStore();

const quiet = (from: string) => staySettingsSchema.parse({ houseRules: { quietHours: { from, to: "07:00" } } });

describe("saving a park's settings", () => {
  it("keeps what was saved, counts it, and has it in the history with who and why", async () => {
    await openPark();
    const before = await readParkSettings(manager, park);
    expect(before.policy.clearance).toBe(200); // as in the park's file
    const policy = { ...before.policy, clearance: 250 };
    expect(await saveParkSettings(manager, park, { policy }, before.version, "Wider rigs of late.")).toBe(before.version + 1);
    expect(await readParkSettings(manager, park)).toEqual({ version: before.version + 1, policy, stays: before.stays });
    expect((await getPark(park))?.policy.clearance).toBe(250);
    const [entry, ...others] = await listSettingsChanges(manager, park, 10);
    expect(others).toEqual([]);
    expect(entry).toMatchObject({ by: "manager", who: "the-manager", reason: "Wider rigs of late." });
    expect([entry!.before.policy, entry!.after.policy]).toEqual([before.policy, policy]);
    expect(entry!.before.stays).toEqual(entry!.after.stays);
  });

  it("keeps nothing at all of a save on an old view, neither half nor entry", async () => {
    await openPark();
    const { version, policy } = await readParkSettings(manager, park);
    await saveParkSettings(manager, park, { stays: quiet("21:00") }, version);
    const attempt = saveParkSettings(manager, park, { policy: { ...policy, clearance: 900 }, stays: quiet("23:00") }, version);
    expect(await refusal(attempt)).toMatchObject({ kind: "stale" });
    const now = await readParkSettings(manager, park);
    expect([now.version, now.policy.clearance, now.stays.houseRules.quietHours?.from]).toEqual([version + 1, 200, "21:00"]);
    expect(await listSettingsChanges(manager, park, 10)).toHaveLength(1);
  });

  it("lets one of many who save at once have it, and tells all others", async () => {
    await openPark();
    const { version } = await readParkSettings(manager, park);
    const hours = ["19:00", "20:00", "21:00", "22:30", "23:00", "23:30"];
    const tries = await Promise.allSettled(hours.map((from) => saveParkSettings(manager, park, { stays: quiet(from) }, version)));
    const done = tries.flatMap((one, i) => (one.status === "fulfilled" ? [hours[i]] : []));
    expect(done).toHaveLength(1);
    for (const one of tries) if (one.status === "rejected") expect(one.reason).toMatchObject({ kind: "stale" });
    expect((await getStayContext(park))?.settings.houseRules.quietHours?.from).toBe(done[0]);
    expect(await listSettingsChanges(manager, park, 10)).toHaveLength(1);
  });

  it("is for managers of the park alone", async () => {
    await openPark();
    const elsewhere = { kind: "manager", account: "m", park: "elsewhere" } as const;
    for (const actor of [desk, guest, elsewhere]) {
      expect(await refusal(readParkSettings(actor, park))).toMatchObject({ kind: "missing" });
      expect(await refusal(listSettingsChanges(actor, park, 5))).toMatchObject({ kind: "missing" });
      expect(await refusal(saveParkSettings(actor, park, { policy: policySchema.parse({}) }, 1))).toMatchObject({ kind: "missing" });
    }
  });

  it("lists the latest changes first, no more than asked", async () => {
    await openPark();
    const hours = ["19:00", "20:00", "21:00"];
    for (const from of hours) await saveParkSettings(manager, park, { stays: quiet(from) }, (await readParkSettings(manager, park)).version);
    expect((await listSettingsChanges(manager, park, 2)).map(({ after }) => after.stays.houseRules.quietHours?.from)).toEqual(["21:00", "20:00"]);
  });
});

describe("the stays ahead", () => {
  it("are those asked for, booked or here whose last night is today's or later, and no holds", async () => {
    await openPark();
    const { stay: here } = await walkIn(desk, park, { request: ask(0, 2) });
    const { stay: booked } = await bookStay(desk, park, { request: ask(9, 2) });
    const { stay: any } = await bookStay(desk, park, { request: ask(12, 2, { site: null, wanted: { loop: "A" } }) });
    const { stay: asked } = await requestStay(guest, park, { request: ask(20, 2) });
    const { stay: held } = await holdStay(guest, park, { request: ask(30, 1) });
    const { stay: gone } = await walkIn(desk, park, { request: ask(0, 1, { site: "a02" }) });
    await markDeparted(desk, park, gone.id);
    const { stay: cancelled } = await bookStay(desk, park, { request: ask(40, 1) });
    await cancelStay(desk, park, cancelled.id);
    const listed = await listStaysAhead(manager, park, today());
    expect(listed.map(({ id, site }) => [id, site])).toEqual([[here.id, "a01"], [booked.id, "a01"], [any.id, null], [asked.id, "a01"]]);
    expect(listed.map(({ id }) => id)).not.toContain(held.id);
    expect(listed[2]).toMatchObject({ wanted: { loop: "A" }, guest: "Ada Quill", overridden: false, rig: { kind: "van" } });
    await byHand((sql) => sql`update stay set held_until = clock_timestamp() + interval '1 hour' where id = ${asked.id}`);
    await runOut(asked.id);
    expect((await listStaysAhead(manager, park, today())).map(({ id }) => id)).not.toContain(asked.id);
  });

  it("go on without one whose rig cannot be read any more", async () => {
    await openPark();
    const { stay: good } = await bookStay(desk, park, { request: ask(3, 1) });
    const { stay: bad } = await bookStay(desk, park, { request: ask(5, 1) });
    await byHand((sql) => sql`update stay set rig = '{"id": "old", "kind": "van"}'::jsonb where id = ${bad.id}`);
    expect((await listStaysAhead(desk, park, today())).map(({ id, rig }) => [id, rig === null])).toEqual([[good.id, false], [bad.id, true]]);
  });

  it("are for staff of the park", async () => {
    await openPark();
    expect(await refusal(listStaysAhead(guest, park, today()))).toMatchObject({ kind: "missing" });
    expect(await refusal(listStaysAhead({ kind: "desk", account: "d", park: "elsewhere" }, park, today()))).toMatchObject({ kind: "missing" });
  });
});
