import { describe, expect, it } from "vitest";
import { addsUp, nights, type RateCardInput } from "@/lib/stays";
import { StayRefused } from "@/lib/store/errors";
import { getSettingsVersion, getStayContext, saveParkSettings } from "@/lib/store/park-settings";
import { getRates, listRates, saveRates } from "@/lib/store/rates";
import { listAudit } from "@/lib/store/stays-audit";
import { changeNights, extendStay, moveStay } from "@/lib/store/stays-change";
import { getAccount, getCancellationCost, notePayment, quoteFor } from "@/lib/store/stays-money";
import { bookStay, cancelStay, holdStay, requestHeld, requestStay } from "@/lib/store/stays";
import { rigSchema } from "@/lib/rig";
import { withStore } from "./client";
import { ask, byHand, day, desk, guest, guestWith, manager, openPark, park, refusal, rig, setRates, stayFrom } from "./stays-park";

withStore();

const rates: RateCardInput = {
  currency: "USD",
  minNights: 2,
  prices: [{ night: 3000, week: 18_000 }],
  fees: [{ id: "booking", name: "Booking fee", amount: 395 }],
  taxes: [{ id: "state", name: "State tax", rate: 825 }],
  deposit: { kind: "nights", nights: 1 },
};
/** Three nights: 9000 + 395 + 8.25 % of 9000, which is 742.5. */
const three = 9000 + 395 + 743;

const faults = async (work: Promise<unknown>) => {
  const error = await refusal(work);
  if (!(error instanceof StayRefused)) throw error;
  return error.faults;
};

describe("a price", () => {
  it("is agreed to by its total, and a guest who was shown another is told the new one", async () => {
    await openPark();
    await setRates(rates);
    const { stay, link } = await holdStay(guest, park, { request: ask(5, 3) });
    expect(await faults(requestHeld(guestWith(link), park, stay.id))).toMatchObject([{ code: "price", quote: { total: three } }]);
    await saveRates(manager, park, { ...(await getRates(park))!.card, taxes: [] }, 1);
    expect(await faults(requestHeld(guestWith(link), park, stay.id, { accepts: three }))).toMatchObject([{ code: "price", quote: { total: 9395 } }]);
    await requestHeld(guestWith(link), park, stay.id, { accepts: 9395 });
    const { quotes } = await getAccount(guestWith(link), park, stay.id);
    expect(quotes).toMatchObject([{ total: 9395, card: 2, acceptedOn: day(0), deposit: 3000 }]);
    expect(quotes.every(addsUp)).toBe(true);
  });

  it("that was agreed to is not changed by new rates, by code or by hand", async () => {
    await openPark();
    await setRates(rates);
    const { stay } = await bookStay(desk, park, { request: ask(5, 3) });
    const before = await getAccount(desk, park, stay.id);
    await saveRates(manager, park, { ...(await getRates(park))!.card, prices: [{ season: null, services: [], amps: null, night: 9900, week: null, month: null }] }, 1);
    await moveStay(desk, park, stay.id, "a02");
    expect(await getAccount(desk, park, stay.id)).toEqual(before);
    expect(before.total).toBe(three);
    for (const table of ["stay_quote", "rate_card"]) {
      await expect(byHand((sql) => sql.unsafe(`update ${table} set record = '{}'`))).rejects.toThrow(`${table} is not changed afterwards`);
      await expect(byHand((sql) => sql.unsafe(`delete from ${table}`))).rejects.toThrow(`${table} is not changed afterwards`);
    }
  });

  it("of nights that are added is one of its own, in the rates of that day", async () => {
    await openPark();
    await setRates(rates);
    const { stay } = await bookStay(desk, park, { request: ask(5, 3) });
    await saveRates(manager, park, { ...(await getRates(park))!.card, prices: [{ season: null, services: [], amps: null, night: 4000, week: null, month: null }] }, 1);
    expect(await faults(extendStay(desk, park, stay.id, day(9), { accepts: 1 }))).toMatchObject([{ code: "price", quote: { total: 4330 } }]);
    await extendStay(desk, park, stay.id, day(9), { accepts: 4330 });
    // Shorter again, and elsewhere with as many nights: nothing is added.
    await changeNights(desk, park, stay.id, stayFrom(5, 2));
    await changeNights(desk, park, stay.id, stayFrom(20, 2));
    const { quotes, total } = await getAccount(desk, park, stay.id);
    expect(quotes.map((quote) => [quote.card, quote.nights, quote.total])).toEqual([[1, stayFrom(5, 3), three], [2, stayFrom(8, 1), 4330]]);
    expect(total).toBe(three + 4330);
  });

  it("has a least number of nights for guests, which the desk may pass over", async () => {
    await openPark();
    await setRates(rates);
    expect(await faults(requestStay(guest, park, { request: ask(5, 1), accepts: 0 }))).toEqual([{ code: "min-nights", least: 2, season: null }]);
    await bookStay(desk, park, { request: ask(5, 1) });
  });

  it("is not asked where the park has no rates", async () => {
    await openPark();
    const { stay } = await requestStay(guest, park, { request: ask(5, 3) });
    expect(await getAccount(desk, park, stay.id)).toEqual({ quotes: [], payments: [], total: 0, paid: 0, depositDue: 0 });
    expect(await quoteFor(park, { site: "a01", wanted: { loop: undefined, services: [] } }, stayFrom(5, 3), rigSchema.parse(rig))).toBeNull();
  });

  it("is told of a site without keeping anything", async () => {
    await openPark();
    await setRates(rates);
    expect(await quoteFor(park, { site: "a01", wanted: { loop: undefined, services: [] } }, nights("2028-02-27", "2028-03-01"), rigSchema.parse(rig))).toMatchObject({ ok: true, quote: { total: three } });
    expect(await quoteFor(park, { site: "z99", wanted: { loop: undefined, services: [] } }, stayFrom(5, 3), rigSchema.parse(rig))).toBeNull();
    expect(await byHand((sql) => sql`select 1 from stay_quote`)).toHaveLength(0);
  });
});

describe("rates", () => {
  it("are saved by a manager alone, card by card, and never over another's", async () => {
    await openPark();
    expect(await getRates(park)).toBeNull();
    await setRates(rates);
    const { card } = (await getRates(park))!;
    expect(await refusal(saveRates(desk, park, card, 1))).toMatchObject({ kind: "missing" });
    expect(await refusal(saveRates(manager, park, card, 0))).toMatchObject({ kind: "stale" });
    const saved = await Promise.allSettled([1, 2, 3].map(() => saveRates(manager, park, card, 1)));
    expect(saved.filter(({ status }) => status === "fulfilled")).toHaveLength(1);
    expect((await getRates(park))!.number).toBe(2);
  });

  it("are all kept, the last first, each with who saved it and when, for managers of the park alone", async () => {
    await openPark();
    await setRates(rates);
    const { card } = (await getRates(park))!;
    await saveRates(manager, park, { ...card, taxes: [] }, 1);
    const [last, first] = await listRates(manager, park);
    expect(last).toMatchObject({ number: 2, who: "the-manager", card: { taxes: [] } });
    expect(first).toMatchObject({ number: 1, card });
    expect(last!.at).toBeGreaterThanOrEqual(first!.at);
    expect(await listRates(manager, park, 1)).toHaveLength(1);
    expect(await refusal(listRates(desk, park))).toMatchObject({ kind: "missing" });
    expect(await refusal(listRates(manager, "elsewhere"))).toMatchObject({ kind: "missing" });
  });
});

describe("money", () => {
  it("is kept under the terms that were agreed to, whatever the park asks later", async () => {
    await openPark({ cancellation: [{ daysBefore: 0, keep: { kind: "amount", amount: 1000 } }] });
    await setRates(rates);
    const { stay } = await bookStay(desk, park, { request: ask(7, 3) });
    const context = await getStayContext(park), version = await getSettingsVersion(park);
    await saveParkSettings(manager, park, { stays: { ...context!.settings, cancellation: [{ daysBefore: 0, keep: { kind: "share", basisPoints: 10_000 } }] } }, version);
    expect(await getCancellationCost(desk, park, stay.id)).toMatchObject({ kept: 1000 });
    expect((await cancelStay(desk, park, stay.id)).cost).toMatchObject({ kept: 1000 });
    const later = await bookStay(desk, park, { request: ask(7, 3) });
    expect(await getCancellationCost(desk, park, later.stay.id)).toMatchObject({ kept: (await getAccount(desk, park, later.stay.id)).total });
  });

  it("that was paid at the desk is noted, never changed, and counts at the end", async () => {
    await openPark({ cancellation: [{ daysBefore: 0, keep: { kind: "nights", nights: 1 } }, { daysBefore: 7, keep: { kind: "amount", amount: 1000 } }] });
    await setRates(rates);
    const { stay } = await bookStay(desk, park, { request: ask(7, 3) });
    expect(await getAccount(desk, park, stay.id)).toMatchObject({ paid: 0, depositDue: 3000 });
    const paid = await notePayment(desk, park, stay.id, { amount: 3000, currency: "USD", purpose: "deposit", means: "cash" });
    expect(paid).toMatchObject({ paid: 3000, depositDue: 0, payments: [{ amount: 3000, purpose: "deposit", means: "cash" }] });
    expect(await getCancellationCost(desk, park, stay.id)).toMatchObject({ kept: 1000, back: 2000, owed: 0 });
    const { cost } = await cancelStay(desk, park, stay.id);
    expect(cost).toMatchObject({ kept: 1000, back: 2000 });
    expect(await notePayment(desk, park, stay.id, { amount: 2000, currency: "USD", purpose: "refund", means: "cash" })).toMatchObject({ paid: 1000 });
    await expect(byHand((sql) => sql`update stay_payment set amount = 1`)).rejects.toThrow("stay_payment is not changed afterwards");
    const [entry] = await byHand((sql) => sql<{ id: string }[]>`select id::text from stay_payment order by created_at limit 1`);
    expect(await listAudit(desk, park, entry!.id)).toMatchObject([{ by: "desk", who: "desk-one", subject: "stay_payment", before: null, after: { amount: 3000 } }]);
    expect(await refusal(notePayment(guest, park, stay.id, { amount: 1, currency: "USD", purpose: "stay", means: "x" }))).toMatchObject({ kind: "missing" });
  });
});
