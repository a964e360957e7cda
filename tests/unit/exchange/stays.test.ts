import { describe, expect, it } from "vitest";
import { bounds, type HeldStay, type Inventory, type Json, type StayAdded, type StayChanged } from "@/lib/exchange";
import { asDate } from "@/lib/stays";
import { overallOf } from "@/lib/exchange/stay-rigs";
import { planOf } from "./support";
import { heldStay, parkWithStays, tableOf } from "./stays-support";

const HEAD = "reference,state,arrive,depart,site,guest,email,phone,plate,rig kind,rig length (ft),note";
const plan = (rows: string, inventory: Inventory = parkWithStays(), head = HEAD) => planOf(inventory, { "stays.csv": `${head}\n${rows}\n` });
const told = (of: ReturnType<typeof plan>) => of.faults.map(({ row, column, code, rule }) => [row, column, rule?.code ?? code]);

describe("stays that were handed out", () => {
  it("change nothing when they are read in again, whatever became of them", () => {
    const inventory = parkWithStays([
      heldStay(), heldStay({ id: "2", reference: "PAST11", state: "departed", arrive: asDate("2026-05-01"), depart: asDate("2026-05-03") }),
      heldStay({ id: "3", reference: "GONE22", state: "cancelled", guest: "", email: "", phone: "", plate: "", note: "", erased: true, rigLength: null, rigKind: "" }),
      heldStay({ id: "4", reference: "ANY333", site: "", arrive: asDate("2027-08-01"), depart: asDate("2027-08-02"), note: "=1+1\nsecond line ", guest: "'O’Neil" }),
    ]);
    expect(planOf(inventory, { "stays.csv": tableOf(inventory) })).toMatchObject({ faultCount: 0, stays: [], unchanged: { stays: 4 } });
    expect(planOf(inventory, { "stays.csv": tableOf(inventory) }, "remove")).toMatchObject({ faultCount: 0, stays: [], unchanged: { stays: 4 } });
  });

  it("change nothing in the ways in which a spreadsheet writes them anew", () => {
    const table = `Reference;State;Arrive (d.m.y);Depart (dd/mm/yyyy);Site;Rig kind;Rig length (m)\nk7m2qx;BOOKED;4.7.2027;8/7/2027;A-1;Travel Trailer;9,45\n`;
    expect(planOf(parkWithStays(), { "our stays.csv": table })).toMatchObject({ faultCount: 0, stays: [], unchanged: { stays: 1 } });
  });
});

describe("a new stay", () => {
  it("is booked with the typical rig of its kind and length, on the site it names by id or post", () => {
    const { faults, stays, today } = plan(`,,2027-07-10,2027-07-12,creek 2,Bo Fern,bo@example.org,,,fifth wheel,33,two dogs\n,requested,2027-07-10,2027-07-12,,Cy Moss,,,,van,19' 6",`);
    expect(faults).toEqual([]);
    expect(today).toBe("2027-06-01");
    const [first, second] = stays as StayAdded[];
    expect(first).toMatchObject({ what: "added", row: 2, state: "booked", nights: { arrive: "2027-07-10", depart: "2027-07-12" }, site: "b2", guest: { name: "Bo Fern", email: "bo@example.org" }, note: "two dogs", rig: { kind: "fifth-wheel" } });
    expect(overallOf(first!.rig)).toBeCloseTo(33 * 304.8, 0);
    expect(second).toMatchObject({ state: "requested", site: null, rig: { kind: "van" } });
  });

  it("comes in a rig of the park's list, and without a column for references", () => {
    const { faults, stays } = plan("2027-07-10,2027-07-12,Bo Fern,van-19", parkWithStays(), "arrival,departure,guest,rig");
    expect(faults).toEqual([]);
    expect(stays[0]).toMatchObject({ rig: { id: "van-19", party: { adults: 1 } }, site: null });
    expect(told(plan(",,2027-07-10,2027-07-12,,Bo Fern,,,,class a,30,,van-19", parkWithStays(), `${HEAD},rig`))).toEqual([[2, "rig kind", "rig-differs"], [2, "rig length (ft)", "rig-differs"]]);
  });

  it("comes with as many as the table says, else with the usual two", () => {
    const head = "arrive,depart,guest,rig kind,rig length (ft),adults,kids,dogs", { faults, stays } = plan("2027-07-10,2027-07-12,Bo Fern,van,19,4,2,\n2027-07-10,2027-07-12,Cy Moss,van,19,,,", parkWithStays(), head);
    expect(faults).toEqual([]);
    expect((stays as StayAdded[]).map(({ rig: { party } }) => [party.adults, party.children, party.pets])).toEqual([[4, 2, 0], [2, 0, 0]]);
    expect(told(plan("2027-07-10,2027-07-12,Bo Fern,van,19,1.5,31,many", parkWithStays(), head))).toEqual([[2, "adults", "record"], [2, "kids", "record"], [2, "dogs", "number"]]);
    expect(told(plan("K7M2QX,3,0,1", parkWithStays(), "reference,adults,children,pets"))).toEqual([[2, "adults", "stay-fixed"]]);
  });

  it("may be on a site, and in a rig, that the same upload brings", () => {
    const { faults, stays } = planOf(parkWithStays(), {
      "stays.csv": "arrive,depart,guest,site,rig\n2027-07-10,2027-07-12,Bo Fern,z9,van-19\n",
      "sites.csv": "id,entry,pad outline (mm),slope along,slope across\nz9,back-in,\"0 0; 9000 0; 9000 3000\",0,0\n",
    });
    expect(faults).toEqual([]);
    expect(stays[0]).toMatchObject({ site: "z9" });
    const gone = planOf(parkWithStays([]), { "stays.csv": "arrive,depart,guest,site,rig\n2027-07-10,2027-07-12,Bo Fern,b2,van-19\n", "sites.csv": "id\na1\n" }, "remove");
    expect(told(gone)).toEqual([[2, "site", "no-such-owner"]]);
  });

  it("has every fault told at once, by row and column", () => {
    const rows = [
      ",arrived,2027-05-20,2027-05-18,nowhere,,ada,12,,blimp,3,",
      ",,,2027-07-12,,Bo Fern,,,,van,,",
      ",,2027-05-20,2027-05-22,,,,,,van,20,",
      ",,2027-07-12,2027-07-12,,Bo Fern,,,,van,200,",
      ",,2027-07-12,2029-07-12,,Bo Fern,,,,van,20,",
      "NOBODY,,2027-07-12,2027-07-13,,Bo Fern,,,,van,20,",
      "K7M2QX,,,,,,,,,,,", "K7M2QX,,2027-07-12,2027-07-13,,Bo Fern,,,,van,20,",
    ].join("\n");
    expect(told(plan(rows))).toEqual([
      [2, "state", "stay-begins"], [2, "depart", "no-nights"], [2, "site", "no-such-owner"], [2, "rig kind", "one-of"], [2, "guest", "guest-needed"],
      [3, "arrive", "cell-needed"], [3, "rig length (ft)", "cell-needed"],
      [4, "arrive", "in-the-past"], [4, "guest", "guest-needed"],
      [5, "depart", "no-nights"], [5, "rig length (ft)", "rig-length"],
      [6, "depart", "record"],
      [7, "reference", "no-stay"],
      [8, "arrive", "cell-needed"], [8, "depart", "cell-needed"], [8, "site", "site-left"], [8, "guest", "guest-needed"],
      [9, "reference", "twice"],
    ]);
  });

  it("asks once for the columns that new stays need, and once a column for a unit", () => {
    expect(plan(",a1\n,b2", parkWithStays(), "reference,site").faults.map(({ row, code, need }) => [row, code, need])).toEqual([[1, "column-needed", "arrive"], [1, "column-needed", "depart"], [1, "column-needed", "guest"], [1, "column-needed", "rig kind"], [1, "column-needed", "rig length"]]);
    expect(plan("2027-07-10,2027-07-12,Bo Fern,van,20\n2027-08-10,2027-08-12,Bo Fern,van,20", parkWithStays(), "arrive,depart,guest,rig kind,rig length").faults).toMatchObject([{ row: 1, column: "rig length", code: "no-unit", count: 2 }]);
  });

  it("needs a price for every night, where the park has rates", () => {
    const park = parkWithStays(), rates = { currency: "USD", seasons: [{ id: "summer", name: "Summer", periods: [{ first: "06-01", last: "07-11" }] }], prices: [{ season: "summer", night: 4000 }] };
    expect(told(plan(",,2027-07-10,2027-07-13,,Bo Fern,,,,van,20,", { ...park, park: { ...(park.park as Record<string, Json>), rates } }))).toEqual([[2, "arrive", "no-price"]]);
  });
});

describe("dates", () => {
  const dates = (arrive: string, depart: string, head = "arrive,depart") => plan(`${arrive},${depart},Bo Fern,van-19`, parkWithStays(), `${head},guest,rig`);
  it.each([["arrive (m/d/y),depart (m/d/y)", "7/4/2027", "7/10/2027"], ["Arrive_mdy,Depart_mdy", "07/04/2027", "7-10-2027"], ["arrive (d.m.y),depart (DD.MM.YYYY)", "4.7.2027", "10. 7. 2027"], ["arrive (y/m/d),depart (y-m-d)", "2027/7/4", "2027-07-10"], ["arrive [d/m/y],depart (m/d/y)", "4/7/2027", "2027-07-10"]])("are read in the order that the header %s says", (head, arrive, depart) => {
    const { faults, stays } = dates(arrive, depart, head);
    expect(faults).toEqual([]);
    expect(stays[0]).toMatchObject({ nights: { arrive: "2027-07-04", depart: "2027-07-10" } });
  });

  it("are never guessed at: both readings are told, once a column", () => {
    const { faults } = plan("4/7/2027,2027-07-10,Bo Fern,van-19\n13/7/2027,2027-07-20,Bo Fern,van-19", parkWithStays(), "Arrive,depart,guest,rig");
    expect(faults).toEqual([{ file: "stays.csv", row: 2, column: "Arrive", code: "date-order", given: "4/7/2027", need: "2027-04-07 or 2027-07-04", count: 2 }]);
  });

  it.each([
    ["4/7/27", "short-year"], ["27-07-04", "short-year"], ["2027-02-29", "no-such-day"], ["2027-13-01", "no-such-day"], ["tomorrow", "day"], ["46207", "day"], ["2027-7-4", "date-order"], ["1999-07-04", "no-such-day"], ["2027-07-04 00:00", "day"], ["4/7.2027", "day"],
  ])("%s is refused", (text, code) => expect(told(dates(text, "2027-07-10"))).toEqual([[2, "arrive", code]]));

  it.each([["2/29/2027", "no-such-day"], ["13/7/2027", "no-such-day"], ["2027/7/4", "date-order"], ["7/4/27", "short-year"]])("%s is refused under (m/d/y)", (text, code) => expect(told(dates(text, "2027-07-10", "arrive (m/d/y),depart"))).toEqual([[2, "arrive (m/d/y)", code]]));

  it("takes the leap day of a leap year, and no order that is none", () => {
    expect(dates("2028-02-29", "2028-03-01").stays[0]).toMatchObject({ nights: { arrive: "2028-02-29" } });
    expect(told(dates("2027-07-04", "2027-07-10", "arrive (d/d/y),depart"))).toEqual([[1, "arrive (d/d/y)", "unknown-unit"]]);
  });
});

describe("a stay that is there", () => {
  const change = (cells: Readonly<Record<string, string>>, held: Partial<HeldStay> = {}, others: readonly HeldStay[] = []) => plan(["K7M2QX", ...Object.values(cells)].join(","), parkWithStays([heldStay(held), ...others]), ["reference", ...Object.keys(cells)].join(","));

  it("is changed in what the table says, and in nothing else", () => {
    const { faults, stays } = change({ guest: "Ada Quill-Fern", phone: "", arrive: "2027-07-05", site: "b2" }, { siteChosen: true });
    expect(faults).toEqual([]);
    const [changed] = stays as StayChanged[];
    expect(changed).toMatchObject({ what: "changed", base: 3, nights: { arrive: "2027-07-05", depart: "2027-07-08" }, site: "b2", note: "late, after nine", leavesChosen: true, before: { site: "a1" } });
    expect(changed!.guest).toEqual({ name: "Ada Quill-Fern", email: "ada@example.org", phone: undefined, plate: "QM 4711" });
    expect(changed!.changes).toEqual([
      { column: "arrive", before: "2027-07-04", after: "2027-07-05" }, { column: "site", before: "A-1", after: "Creek 2" }, { column: "guest", before: "Ada Quill", after: "Ada Quill-Fern" }, { column: "phone", before: "555 0100", after: "" },
    ]);
  });

  it("keeps its state and its rig: those have a place of their own", () => {
    expect(told(change({ state: "cancelled", "rig kind": "van", "rig length (ft)": "30", rig: "van-19" }))).toEqual([[2, "state", "stay-fixed"], [2, "rig", "stay-fixed"], [2, "rig kind", "stay-fixed"], [2, "rig length (ft)", "stay-fixed"]]);
  });

  it.each([
    ["departed", { note: "was quiet", arrive: "2027-05-02" }, [[2, "arrive", "change"]]], ["cancelled", { site: "b2" }, [[2, "site", "change"]]], ["arrived", { arrive: "2027-05-31" }, [[2, "arrive", "arrive-fixed"]]], ["arrived", { depart: "2027-05-31" }, [[2, "depart", "in-the-past"]]],
    ["booked", { arrive: "2027-05-02" }, [[2, "arrive", "in-the-past"]]], ["booked", { email: "nobody", site: "" }, [[2, "site", "site-left"], [2, "email", "record"]]], ["booked", { guest: "" }, [[2, "guest", "guest-needed"]]],
  ] as const)("goes by the desk's rules: %s, %o", (state, cells, faults) => {
    const held = state === "booked" ? {} : { state, arrive: asDate("2027-05-01"), depart: asDate("2027-06-05") };
    expect(told(change(cells, held))).toEqual(faults);
  });

  it("lets nobody be written into one whose guest was erased", () => {
    expect(told(change({ guest: "Ada Quill" }, { state: "departed", guest: "", email: "", phone: "", plate: "", erased: true }))).toEqual([[2, "guest", "change"]]);
  });

  it("may change places with another", () => {
    const other = heldStay({ id: "2", reference: "OTHER2", site: "b2" });
    const swapped = plan("K7M2QX,b2\nOTHER2,a1", parkWithStays([heldStay(), other]), "reference,site");
    expect(swapped).toMatchObject({ faultCount: 0, stays: [{ site: "b2" }, { site: "a1" }] });
    expect(plan("K7M2QX,b2", parkWithStays([heldStay(), other]), "reference,site").faults).toMatchObject([{ row: 2, column: "site", code: "nights-taken", given: "Creek 2", by: { kind: "stay", reference: "OTHER2" } }]);
  });
});

describe("nights", () => {
  const row = (arrive: string, depart: string) => `${arrive},${depart},a1,Bo Fern,van-19`, head = "arrive,depart,site,guest,rig";
  it("that somebody has are told by row, with who has them", () => {
    const park = parkWithStays([heldStay()], {});
    const taken = [...park.stays!.taken, { site: "a1", nights: { arrive: asDate("2027-07-20"), depart: asDate("2027-07-22") }, stay: null, by: { kind: "closure" as const, reason: "new gravel" } }, { site: "a1", nights: { arrive: asDate("2027-07-24"), depart: asDate("2027-07-25") }, stay: "9", by: { kind: "hold" as const } }];
    const { faults } = plan([row("2027-07-02", "2027-07-05"), row("2027-07-08", "2027-07-10"), row("2027-07-09", "2027-07-12"), row("2027-07-12", "2027-07-26")].join("\n"), { ...park, stays: { ...park.stays!, taken } }, head);
    expect(faults.map(({ row: at, by, nights }) => [at, by, nights?.arrive])).toEqual([
      [2, { kind: "stay", reference: "K7M2QX" }, "2027-07-04"], [4, { kind: "row", row: 3 }, "2027-07-08"], [5, { kind: "closure", reason: "new gravel" }, "2027-07-20"],
    ]);
  });

  it("are looked at in one sweep, as many rows of them as may be", () => {
    const days = Array.from({ length: bounds.rows }, (_, i) => new Date(Date.UTC(2027, 6, 1) + (i % 400) * 86_400_000).toISOString().slice(0, 10));
    const next = (day: string) => new Date(Date.parse(day) + 86_400_000).toISOString().slice(0, 10);
    const { faultCount } = plan(days.map((day) => row(day, next(day))).join("\n"), parkWithStays([]), head);
    expect(faultCount).toBe(bounds.rows - 400);
  });
});
