import { describe, expect, it } from "vitest";
import { NightsTaken, StayRefused } from "@/lib/store/errors";
import { listAudit } from "@/lib/store/stays-audit";
import { changeNights, editStay, extendStay, getStay, moveStay } from "@/lib/store/stays-change";
import { findByLink, issueLink, revokeLinks } from "@/lib/store/stays-links";
import { listFreeSites } from "@/lib/store/stays-nights";
import { closeSite, liftClosure } from "@/lib/store/closures";
import { bookStay, cancelStay, confirmStay, holdStay, markArrived, markDeparted, markNoShow, releaseRunOut, requestHeld, requestStay, walkIn } from "@/lib/store/stays";
import { withStore } from "./client";
import { ask, byHand, day, desk, guest, guestWith, manager, occupants, openPark, park, person, refusal, runOut, stayFrom } from "./stays-park";

withStore();

const span = (from: number, count: number) => `[${day(from)},${day(from + count)})`;
const faults = async (work: Promise<unknown>) => {
  const error = await refusal(work);
  if (!(error instanceof StayRefused)) throw error;
  return error.faults;
};

describe("a stay from the guest's request to the day they leave", () => {
  it("is held, asked for, booked, arrived and departed, each with its audit", async () => {
    await openPark();
    const { stay: held, link } = await holdStay(guest, park, { request: ask(0, 3, { guest: null }) });
    expect(held).toMatchObject({ state: "held", site: "a01", siteChosen: true, guest: null, version: 1 });
    expect(held.reference).toMatch(/^[A-Z3-9]{6}$/);
    expect(held.until! - Date.now()).toBeGreaterThan(19 * 60_000);
    expect(held.until! - Date.now()).toBeLessThanOrEqual(20 * 60_000 + 1000);
    const { stay: asked } = await requestHeld(guestWith(link), park, held.id, { guest: person });
    expect(asked).toMatchObject({ state: "requested", until: null, guest: person });
    await confirmStay(desk, park, held.id);
    await markArrived(desk, park, held.id);
    const { stay: left } = await markDeparted(desk, park, held.id);
    expect(left).toMatchObject({ state: "departed", version: 5, freedFrom: day(0) });
    const audit = await listAudit(desk, park, held.id);
    expect(audit.map(({ by, who, after }) => [by, who, (after as { state: string }).state])).toEqual([
      ["guest", null, "held"],
      ["guest", expect.stringMatching(/^link [0-9a-f]{12}$/), "requested"],
      ["desk", "desk-one", "booked"],
      ["desk", "desk-one", "arrived"],
      ["desk", "desk-one", "departed"],
    ]);
    expect(audit[0]).toMatchObject({ before: null, after: { reference: held.reference } });
    expect(audit[2]).toMatchObject({ before: { state: "requested", version: 2 }, after: { state: "booked", version: 3 } });
    expect(Object.keys(audit[2]!.after as object)).not.toContain("rig");
  });

  it("leaves the departure day free for the next arrival", async () => {
    await openPark();
    await bookStay(desk, park, { request: ask(5, 3) });
    await bookStay(desk, park, { request: ask(8, 2) });
    await bookStay(desk, park, { request: ask(3, 2) });
    expect(await occupants()).toEqual([span(3, 2), span(5, 3), span(8, 2)].map((nights) => ({ site: "a01", nights })));
  });

  it("that asks for nights somebody has is told what is free", async () => {
    await openPark();
    await bookStay(desk, park, { request: ask(5, 3) });
    const error = await refusal(bookStay(desk, park, { request: ask(7, 4) }));
    expect(error).toBeInstanceOf(NightsTaken);
    expect(error).toMatchObject({ kind: "overlap", site: "a01", nights: stayFrom(7, 4), free: ["a02"], nearest: stayFrom(8, 4) });
    // Nothing of the refused one is left.
    expect(await byHand((sql) => sql`select 1 from stay`)).toHaveLength(1);
  });

  it("for any that fits occupies nothing until a site is assigned", async () => {
    await openPark();
    const any = { site: null, wanted: { loop: "A" } };
    const { stay } = await requestStay(guest, park, { request: ask(5, 3, any) });
    await requestStay(guest, park, { request: ask(5, 3, any) });
    await requestStay(guest, park, { request: ask(5, 3, any) });
    expect(await occupants()).toEqual([]);
    expect(stay).toMatchObject({ site: null, siteChosen: false, wanted: { loop: "A", services: [] } });
    expect(await faults(holdStay(guest, park, { request: ask(5, 3, any) }))).toEqual([{ code: "site-needed" }]);
    expect(await moveStay(desk, park, stay.id, "a02")).toMatchObject({ site: "a02", siteChosen: false });
    expect(await occupants()).toEqual([{ site: "a02", nights: span(5, 3) }]);
  });

  it("gives its nights back when cancelled or not come, and claims them again when put back", async () => {
    await openPark();
    const { stay } = await bookStay(desk, park, { request: ask(0, 3) });
    await cancelStay(desk, park, stay.id, { reason: "rained off" });
    expect(await occupants()).toEqual([]);
    expect((await listAudit(desk, park, stay.id)).at(-1)).toMatchObject({ reason: "rained off" });
    await confirmStay(desk, park, stay.id);
    await markNoShow(desk, park, stay.id);
    const { stay: other } = await bookStay(desk, park, { request: ask(1, 1) });
    expect(await refusal(markArrived(desk, park, stay.id))).toBeInstanceOf(NightsTaken);
    await cancelStay(desk, park, other.id);
    await markArrived(desk, park, stay.id);
    expect(await occupants()).toEqual([{ site: "a01", nights: span(0, 3) }]);
  });

  it("that ends early frees the nights that are left, and no more than those", async () => {
    await openPark();
    const { stay } = await walkIn(desk, park, { request: ask(-1, 5) });
    await markDeparted(desk, park, stay.id);
    expect(await occupants()).toEqual([{ site: "a01", nights: span(-1, 1) }]);
    await bookStay(desk, park, { request: ask(2, 2) });
    expect(await refusal(markArrived(desk, park, stay.id))).toBeInstanceOf(NightsTaken);
  });

  it("of 400 nights is kept, of 401 not even by hand", async () => {
    await openPark();
    await bookStay(desk, park, { request: ask(1, 400) });
    expect(await occupants()).toEqual([{ site: "a01", nights: span(1, 400) }]);
    await expect(byHand((sql) => sql`update stay set depart = depart + 1`)).rejects.toThrow("stay_has_nights");
    await expect(byHand((sql) => sql`update stay set depart = arrive`)).rejects.toThrow("stay_has_nights");
  });
});

describe("a hold", () => {
  it("that has run out is released in the transaction that wants the night, by the clock", async () => {
    await openPark();
    const { stay: held } = await holdStay(guest, park, { request: ask(5, 3) });
    expect(await refusal(holdStay(guest, park, { request: ask(6, 1) }))).toBeInstanceOf(NightsTaken);
    await runOut(held.id);
    expect(await listFreeSites(park, stayFrom(5, 3))).toEqual(["a02", "a01"]);
    const { stay } = await bookStay(desk, park, { request: ask(6, 1), reason: "on the phone" });
    expect(await getStay(desk, park, held.id)).toMatchObject({ state: "cancelled", until: null });
    expect((await listAudit(desk, park, held.id)).at(-1)).toMatchObject({ by: "clock", who: null, reason: "ran out", after: { state: "cancelled" } });
    expect((await listAudit(desk, park, stay.id)).at(-1)).toMatchObject({ by: "desk", reason: "on the phone" });
  });

  it("that has run out may still be asked for while nobody else wanted the night", async () => {
    await openPark();
    const { stay, link } = await holdStay(guest, park, { request: ask(5, 3) });
    await runOut(stay.id);
    expect((await requestHeld(guestWith(link), park, stay.id)).stay.state).toBe("requested");
  });

  it("that was released is not the guest's any more, who is told so", async () => {
    await openPark();
    const { stay, link } = await holdStay(guest, park, { request: ask(5, 3) });
    await runOut(stay.id);
    await bookStay(desk, park, { request: ask(5, 3) });
    expect(await faults(requestHeld(guestWith(link), park, stay.id))).toEqual([{ code: "move", from: "cancelled", to: "requested", why: "no-such-move" }]);
  });

  it("is told nights on which a hold ran out as free, and all run out are cleared at once", async () => {
    await openPark();
    const { stay } = await holdStay(guest, park, { request: ask(5, 3) });
    await holdStay(guest, park, { request: ask(9, 3) });
    expect(await releaseRunOut(park)).toBe(0);
    await runOut(stay.id);
    // Whoever is a little late may still book.
    expect(await releaseRunOut(park, 1)).toBe(0);
    expect(await releaseRunOut(park)).toBe(1);
    expect(await occupants()).toEqual([{ site: "a01", nights: span(9, 3) }]);
  });

  it("a request lasts as long as the park sets, too", async () => {
    await openPark({ answerHours: 48 });
    const { stay } = await requestStay(guest, park, { request: ask(5, 3) });
    expect(Math.round((stay.until! - Date.now()) / 3_600_000)).toBe(48);
    await runOut(stay.id);
    await requestStay(guest, park, { request: ask(5, 3) });
    expect(await getStay(desk, park, stay.id)).toMatchObject({ state: "cancelled" });
  });
});

describe("a change", () => {
  it("moves a stay to another site, one that a guest chose only with a reason", async () => {
    await openPark();
    const { stay } = await requestStay(guest, park, { request: ask(5, 3) });
    expect(await faults(moveStay(desk, park, stay.id, "a02"))).toEqual([{ code: "reason-needed" }]);
    expect(await moveStay(desk, park, stay.id, "a02", { reason: "limb down over the pad" })).toMatchObject({ site: "a02", siteChosen: false, version: 2 });
    expect(await occupants()).toEqual([{ site: "a02", nights: span(5, 3) }]);
    expect((await listAudit(desk, park, stay.id)).at(-1)).toMatchObject({ reason: "limb down over the pad" });
    expect(await refusal(moveStay(desk, park, stay.id, "z99"))).toMatchObject({ kind: "missing" });
  });

  it("extends, shortens and shifts, over the stay's own nights but never over another's", async () => {
    await openPark();
    const { stay } = await bookStay(desk, park, { request: ask(5, 3) });
    await bookStay(desk, park, { request: ask(10, 2) });
    expect((await extendStay(desk, park, stay.id, day(10))).nights).toEqual(stayFrom(5, 5));
    expect(await refusal(extendStay(desk, park, stay.id, day(11)))).toMatchObject({ kind: "overlap", nearest: stayFrom(4, 6) });
    expect((await changeNights(desk, park, stay.id, stayFrom(6, 2))).nights).toEqual(stayFrom(6, 2));
    expect(await occupants()).toEqual([span(6, 2), span(10, 2)].map((nights) => ({ site: "a01", nights })));
  });

  it("does not let who has arrived arrive on another day, nor leave in the past", async () => {
    await openPark();
    const { stay } = await walkIn(desk, park, { request: ask(-1, 5) });
    expect(await faults(changeNights(desk, park, stay.id, stayFrom(0, 5)))).toEqual([{ code: "arrive-fixed" }]);
    expect((await extendStay(desk, park, stay.id, day(7))).nights.depart).toBe(day(7));
    await expect(extendStay(desk, park, stay.id, day(-1))).rejects.toThrow();
  });

  it("made on an old view is refused as stale, and changes nothing", async () => {
    await openPark();
    const { stay } = await bookStay(desk, park, { request: ask(5, 3) });
    await editStay(desk, park, stay.id, { note: "late" }, { version: 1 });
    expect(await refusal(moveStay(desk, park, stay.id, "a02", { version: 1 }))).toMatchObject({ kind: "stale" });
    expect(await getStay(desk, park, stay.id)).toMatchObject({ site: "a01", note: "late", version: 2 });
  });
});

describe("limits", () => {
  it("tell a guest every one at once", async () => {
    await openPark({ daysAhead: 30, longestStay: 7 });
    const request = ask(40, 8, { guest: { name: "Ada Quill" } });
    expect(await faults(bookStay(guest, park, { request }))).toEqual([
      { code: "too-far-ahead", latest: day(30) },
      { code: "longer-than-allowed", most: 7 },
      { code: "move", from: null, to: "booked", why: "guests-may-book" },
      { code: "contact-needed" },
    ]);
    expect(await faults(requestStay(guest, park, { request: ask(-1, 2, { guest: null }) }))).toEqual([{ code: "in-the-past", earliest: day(0) }, { code: "guest-needed" }]);
  });

  it("let guests book where the park lets them", async () => {
    await openPark({ guestsMay: "book" });
    expect((await bookStay(guest, park, { request: ask(3, 2) })).stay.state).toBe("booked");
  });

  it("go by the date it is in the park", async () => {
    // One of the two is on another date than the other at any instant: 26 hours lie between them.
    for (const zone of ["Pacific/Kiritimati", "Pacific/Pago_Pago"]) {
      await openPark({ zone }, zone.toLowerCase().replace(/[^a-z]+/g, "-"));
      const slug = zone.toLowerCase().replace(/[^a-z]+/g, "-");
      const here = new Intl.DateTimeFormat("en-CA", { timeZone: zone }).format(new Date());
      const faultsOf = await faults(requestStay(guest, slug, { request: ask(-3, 1) }));
      expect(faultsOf).toEqual([{ code: "in-the-past", earliest: here }]);
    }
  });

  it("nobody arrives before the day", async () => {
    await openPark();
    const { stay } = await bookStay(desk, park, { request: ask(1, 2) });
    expect(await faults(markArrived(desk, park, stay.id))).toEqual([{ code: "move", from: "booked", to: "arrived", why: "from-arrival" }]);
    expect(await faults(walkIn(desk, park, { request: ask(1, 2, { site: "a02" }) }))).toEqual([{ code: "move", from: null, to: "arrived", why: "from-arrival" }]);
  });
});

describe("a closure", () => {
  it("occupies a site as a stay does, and is refused where a stay has a night", async () => {
    await openPark();
    const id = await closeSite(desk, park, "a01", { starts: day(5), ends: day(8), reason: "new pedestal" });
    expect(await refusal(bookStay(desk, park, { request: ask(7, 2) }))).toMatchObject({ kind: "overlap", free: ["a02"], nearest: stayFrom(8, 2) });
    await bookStay(desk, park, { request: ask(8, 2) });
    expect(await refusal(closeSite(desk, park, "a01", { starts: day(9), ends: day(500), reason: "winter" }))).toBeInstanceOf(NightsTaken);
    await liftClosure(manager, park, id);
    await liftClosure(manager, park, id);
    await bookStay(desk, park, { request: ask(5, 3) });
    expect((await listAudit(desk, park, id)).map(({ by, reason }) => [by, reason])).toEqual([["desk", "new pedestal"], ["manager", null]]);
  });

  it("of no nights is refused", async () => {
    await openPark();
    expect(await refusal(closeSite(desk, park, "a01", { starts: day(5), ends: day(5), reason: "x" }))).toMatchObject({ kind: "refused" });
  });
});

describe("who may see a stay", () => {
  it("a guest with their link, none with another's, none without, none once it is revoked", async () => {
    await openPark();
    const one = await requestStay(guest, park, { request: ask(5, 3) });
    const other = await requestStay(guest, park, { request: ask(5, 3, { site: "a02" }) });
    expect(await getStay(guestWith(one.link), park, one.stay.id)).toMatchObject({ id: one.stay.id });
    for (const link of [other.link, null, "", `${one.link}x`]) {
      expect(await refusal(getStay(guestWith(link), park, one.stay.id))).toMatchObject({ kind: "missing" });
      expect(await refusal(cancelStay(guestWith(link), park, one.stay.id))).toMatchObject({ kind: "missing" });
    }
    expect(await findByLink(one.link!)).toEqual({ park, stay: one.stay.id });
    const second = await issueLink(desk, park, one.stay.id);
    expect(await revokeLinks(desk, park, one.stay.id)).toBe(2);
    expect(await findByLink(second)).toBeNull();
    expect(await refusal(getStay(guestWith(one.link), park, one.stay.id))).toMatchObject({ kind: "missing" });
    // The token itself is nowhere.
    const stored = await byHand((sql) => sql`select (select string_agg(l::text, '') from stay_link l) || (select string_agg(a::text, '') from audit_entry a) as all`);
    expect(JSON.stringify(stored)).not.toContain(one.link!);
  });

  it("a guest changes what they bring, not where and when, and cancels", async () => {
    await openPark();
    const { stay, link } = await requestStay(guest, park, { request: ask(5, 3) });
    expect((await editStay(guestWith(link), park, stay.id, { note: "two dogs" })).note).toBe("two dogs");
    expect(await faults(moveStay(guestWith(link), park, stay.id, "a02", { reason: "nicer" }))).toEqual([{ code: "change", state: "requested", change: "site" }]);
    expect(await faults(extendStay(guestWith(link), park, stay.id, day(10)))).toEqual([{ code: "change", state: "requested", change: "dates" }]);
    expect(await faults(confirmStay(guestWith(link), park, stay.id))).toMatchObject([{ code: "move", why: "not-theirs" }]);
    expect((await cancelStay(guestWith(link), park, stay.id)).stay.state).toBe("cancelled");
  });

  it("staff of another park get nothing", async () => {
    await openPark();
    const { stay } = await bookStay(desk, park, { request: ask(5, 3) });
    const stranger = { kind: "manager", account: "m", park: "elsewhere" } as const;
    for (const work of [getStay(stranger, park, stay.id), cancelStay(stranger, park, stay.id), issueLink(stranger, park, stay.id), listAudit(stranger, park, stay.id), bookStay(stranger, park, { request: ask(9, 1) })]) {
      expect(await refusal(work)).toMatchObject({ kind: "missing" });
    }
    await openPark({}, "elsewhere");
    expect(await refusal(getStay(stranger, "elsewhere", stay.id))).toMatchObject({ kind: "missing" });
    expect(await refusal(getStay(desk, park, "not-an-id"))).toMatchObject({ kind: "missing" });
  });
});

describe("a request with a key", () => {
  it("is done once, however often it is sent, and another with the same key is refused", async () => {
    await openPark();
    const request = ask(5, 3);
    const sent = await Promise.all(Array.from({ length: 5 }, () => requestStay(guest, park, { request, key: "k-1" })));
    expect(new Set(sent.map(({ stay }) => stay.id)).size).toBe(1);
    expect(sent.filter(({ repeated }) => !repeated)).toHaveLength(1);
    for (const { link, stay } of sent) expect((await getStay(guestWith(link), park, stay.id)).id).toBe(stay.id);
    expect(await faults(requestStay(guest, park, { request: ask(6, 3, { site: "a02" }), key: "k-1" }))).toEqual([{ code: "key-reused" }]);
    expect(await byHand((sql) => sql`select 1 from stay`)).toHaveLength(1);
  });

  it("that was refused may be sent again", async () => {
    await openPark();
    const { stay } = await bookStay(desk, park, { request: ask(5, 3) });
    expect(await refusal(requestStay(guest, park, { request: ask(5, 3), key: "k-2" }))).toBeInstanceOf(NightsTaken);
    await cancelStay(desk, park, stay.id);
    expect((await requestStay(guest, park, { request: ask(5, 3), key: "k-2" })).repeated).toBe(false);
  });
});
