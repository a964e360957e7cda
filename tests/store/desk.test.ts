import { describe, expect, it } from "vitest";
import { lend, listLoans, listStock, takeBack } from "@/lib/store/loans";
import { addNote, listNotes, listOutcomes } from "@/lib/store/stay-notes";
import { bookStay, cancelStay, holdStay, markArrived, markDeparted, requestStay, walkIn } from "@/lib/store/stays";
import { notePayment } from "@/lib/store/stays-money";
import { findStays, listToday } from "@/lib/store/stays-today";
import { withStore } from "./client";
import { ask, day, desk, guest, openPark, park, person, refusal, runOut, setRates, today } from "./stays-park";

withStore();

const elsewhere = { kind: "desk", account: "d", park: "elsewhere" } as const;
const blocks = [{ id: "blocks", kind: "blocks" as const, name: "Leveling blocks", count: 2 }];

describe("a day at the desk", () => {
  it("has who is here, comes today, waits for a site or an answer, and what each has borrowed; nobody of other days", async () => {
    await openPark({ lends: blocks });
    const { stay: here } = await walkIn(desk, park, { request: ask(0, 2) });
    const { stay: comes } = await bookStay(desk, park, { request: ask(0, 1, { site: "a02", note: "after dark" }) });
    const { stay: unassigned } = await bookStay(desk, park, { request: ask(20, 2, { site: null }) });
    const { stay: asked } = await requestStay(guest, park, { request: ask(30, 2) });
    const { stay: held } = await holdStay(guest, park, { request: ask(40, 2) });
    await bookStay(desk, park, { request: ask(5, 1, { site: "a02" }) });
    const { stay: gone } = await bookStay(desk, park, { request: ask(3, 1, { site: "a02" }) });
    await cancelStay(desk, park, gone.id);
    await lend(desk, park, here.id, "blocks");
    const listed = await listToday(desk, park, today());
    expect(new Set(listed.map(({ id }) => id))).toEqual(new Set([here.id, comes.id, unassigned.id, asked.id, held.id]));
    expect(listed.find(({ id }) => id === here.id)).toMatchObject({ lent: ["Leveling blocks"], state: "arrived", site: "a01" });
    expect(listed.find(({ id }) => id === comes.id)).toMatchObject({ lent: [], note: "after dark", phone: person.phone });
    await runOut(held.id);
    expect((await listToday(desk, park, today())).map(({ id }) => id)).not.toContain(held.id);
  });

  it("tells what is due of a deposit until it is paid", async () => {
    await openPark();
    await setRates({ currency: "USD", prices: [{ night: 4000 }], deposit: { kind: "nights", nights: 1 } });
    const { stay } = await bookStay(desk, park, { request: ask(0, 2) });
    const due = async () => (await listToday(desk, park, today())).map(({ depositDue, currency }) => [depositDue, currency]);
    expect(await due()).toEqual([[4000, "USD"]]);
    await notePayment(desk, park, stay.id, { amount: 1500, currency: "USD", purpose: "deposit", means: "cash" });
    expect(await due()).toEqual([[2500, "USD"]]);
    await notePayment(desk, park, stay.id, { amount: 2500, currency: "USD", purpose: "deposit", means: "check" });
    expect(await due()).toEqual([[0, "USD"]]);
  });

  it("has who left that day, and is for staff of the park", async () => {
    await openPark();
    const { stay } = await walkIn(desk, park, { request: ask(0, 3) });
    await markDeparted(desk, park, stay.id, { outcome: { how: "too-tight", note: "the post" } });
    expect((await listToday(desk, park, today())).map(({ id, state }) => [id, state])).toEqual([[stay.id, "departed"]]);
    expect(await refusal(listToday(guest, park, today()))).toMatchObject({ kind: "missing" });
    expect(await refusal(listToday(elsewhere, park, today()))).toMatchObject({ kind: "missing" });
    expect(await listOutcomes(desk, park, "a01")).toEqual([{ stay: stay.id, left: day(3), how: "too-tight", note: "the post", rigKind: "van" }]);
    expect(await listOutcomes(desk, park, "a02")).toEqual([]);
  });
});

describe("finding a stay", () => {
  it("goes by name, plate, site, reference and phone however it is written, all words together, the nearest nights first", async () => {
    await openPark();
    const { stay: later } = await bookStay(desk, park, { request: ask(60, 2) });
    const { stay: soon } = await bookStay(desk, park, { request: ask(5, 2) });
    const { stay: other } = await bookStay(desk, park, { request: ask(5, 2, { site: "a02", guest: { name: "Ines 100%", phone: "(555) 010-7788", plate: "ZZ 1" } }) });
    const found = async (text: string) => (await findStays(desk, park, text, today())).map(({ id }) => id);
    expect(await found("quill")).toEqual([soon.id, later.id]);
    expect(await found("ADA q")).toEqual([soon.id, later.id]);
    expect(await found("ada zz")).toEqual([]);
    expect(await found("zz 1")).toEqual([other.id]);
    expect(await found("a02")).toEqual([other.id]);
    expect(await found("555-010-7788")).toEqual([other.id]);
    expect(await found(soon.reference.toLowerCase())).toEqual([soon.id]);
    expect(await found("   ")).toEqual([]);
    // Signs that mean something to the database mean themselves here.
    expect(await found("%")).toEqual([other.id]);
    expect(await found("_")).toEqual([]);
  });

  it("is for staff of the park", async () => {
    await openPark();
    expect(await refusal(findStays(guest, park, "ada", today()))).toMatchObject({ kind: "missing" });
    expect(await refusal(findStays(elsewhere, park, "ada", today()))).toMatchObject({ kind: "missing" });
  });
});

describe("what the desk lends", () => {
  it("is never more than there is, not even to two clerks at once, and can be lent again once it is back", async () => {
    await openPark({ lends: blocks });
    const { stay } = await walkIn(desk, park, { request: ask(0, 2) });
    const tries = await Promise.allSettled(Array.from({ length: 6 }, () => lend(desk, park, stay.id, "blocks")));
    expect(tries.filter(({ status }) => status === "fulfilled")).toHaveLength(2);
    for (const one of tries) if (one.status === "rejected") expect(one.reason).toMatchObject({ kind: "taken", constraint: "loan_none_left" });
    expect(await listStock(desk, park)).toMatchObject([{ id: "blocks", count: 2, out: 2 }]);
    const [first] = await listLoans(desk, park, stay.id);
    await takeBack(desk, park, first!.id);
    const back = (await listLoans(desk, park, stay.id)).find(({ id }) => id === first!.id)!.returnedAt;
    expect(back).not.toBeNull();
    // A second time changes nothing of when it came back.
    await takeBack(desk, park, first!.id);
    expect((await listLoans(desk, park, stay.id)).find(({ id }) => id === first!.id)!.returnedAt).toBe(back);
    expect(await listStock(desk, park)).toMatchObject([{ out: 1 }]);
    await lend(desk, park, stay.id, "blocks");
  });

  it("is only what the park has, for staff alone, and a loan of another park is nobody's here", async () => {
    await openPark({ lends: blocks });
    const { stay } = await walkIn(desk, park, { request: ask(0, 2) });
    expect(await refusal(lend(desk, park, stay.id, "anvil"))).toMatchObject({ kind: "missing" });
    expect(await refusal(lend(guest, park, stay.id, "blocks"))).toMatchObject({ kind: "missing" });
    await lend(desk, park, stay.id, "blocks");
    const [loan] = await listLoans(desk, park, stay.id);
    await openPark({ lends: blocks }, "elsewhere");
    expect(await refusal(takeBack(elsewhere, "elsewhere", loan!.id))).toMatchObject({ kind: "missing" });
  });
});

describe("what the desk writes down", () => {
  it("stays in order with who wrote it, for staff alone", async () => {
    await openPark();
    const { stay } = await bookStay(desk, park, { request: ask(0, 2) });
    await addNote(desk, park, stay.id, "Calls back at four.");
    await markArrived(desk, park, stay.id);
    await addNote(desk, park, stay.id, "Key is in the box.");
    expect((await listNotes(desk, park, stay.id)).map(({ text, by }) => [text, by])).toEqual([["Calls back at four.", "desk-one"], ["Key is in the box.", "desk-one"]]);
    expect(await refusal(addNote(guest, park, stay.id, "no"))).toMatchObject({ kind: "missing" });
    expect(await refusal(listNotes(elsewhere, park, stay.id))).toMatchObject({ kind: "missing" });
  });
});
