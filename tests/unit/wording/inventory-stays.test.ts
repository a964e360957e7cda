import { describe, expect, it } from "vitest";
import type { Fault } from "@/lib/exchange";
import { asDate, guestSchema } from "@/lib/stays";
import { inventory } from "@/lib/wording/en/inventory";

const fault = (of: Omit<Fault, "file">) => inventory.fault({ file: "stays.csv", ...of });
const nights = { arrive: asDate("2027-07-02"), depart: asDate("2027-07-05") };

describe("what is wrong with a table of stays", () => {
  it.each([
    [{ code: "date-order", column: "Arrive", given: "4/7/2027", need: "2027-04-07 or 2027-07-04", count: 1 }, "“4/7/2027” may be 2027-04-07 or 2027-07-04. Say the order in the header, such as Arrive (m/d/y) or Arrive (d/m/y), or write dates as 2027-07-04."],
    [{ code: "date-order", column: "Check-in [date]", given: "13/7/2027", need: "2027-07-13", count: 1200 }, "“13/7/2027” is not written as 2027-07-13. 1,200 dates in this column are like it. Say the order in the header, such as Check-in (m/d/y) or Check-in (d/m/y), or write dates as 2027-07-04."],
    [{ code: "date-order", column: "Arrive (m/d/y)", given: "2027/7/4", need: "m/d/y" }, "“2027/7/4” does not go with the order m/d/y in the header."],
    [{ code: "no-such-day", given: "13/7/2027", need: "m/d/y" }, "“13/7/2027” is no day of the calendar, read in the order m/d/y, from 2000 to 2199."],
    [{ code: "short-year", given: "4/7/27" }, "“4/7/27” has a year of two digits. Write all four."],
    [{ code: "stay", rule: { code: "no-nights" } }, "A stay has at least one night: the departure is after the arrival."],
    [{ code: "stay", rule: { code: "change", state: "departed", change: "dates" } }, "This can no longer be changed: the stay is left."],
    [{ code: "stay-fixed", given: "cancelled", need: "state" }, "“cancelled” is not the state of this stay. That is changed on the stay’s own page, at the desk."],
    [{ code: "nights-taken", given: "B-12", nights, by: { kind: "stay", reference: "K7M2QX" } }, "Site B-12 is taken from Fri, Jul 2, 2027 to Mon, Jul 5, 2027 by stay K7M2QX."],
    [{ code: "nights-taken", given: "B-12", nights, by: { kind: "row", row: 7 } }, "Site B-12 is taken from Fri, Jul 2, 2027 to Mon, Jul 5, 2027 by row 7 of this table."],
    [{ code: "nights-taken", given: "B-12", nights, by: { kind: "closure", reason: "new gravel" } }, "Site B-12 is taken from Fri, Jul 2, 2027 to Mon, Jul 5, 2027 by a closure: new gravel."],
    [{ code: "site-left", given: "B-12" }, "The stay is on B-12. Name that site or another: a stay is never taken off its site here."],
    [{ code: "no-stay", given: "NOBODY" }, "There is no stay “NOBODY”. Leave the cell empty for a new stay: it gets its reference here."],
  ] satisfies [Omit<Fault, "file">, string][])("%o", (of, said) => expect(fault(of)).toBe(said));
});

describe("what a table of stays would do", () => {
  const { stayWords } = inventory, guest = guestSchema.parse({ name: "Ada Quill" });
  it("is told by who comes, when and where", () => {
    expect(stayWords.added({ guest, nights, label: "B-12", state: "requested" })).toBe("Ada Quill: Fri, Jul 2 to Mon, Jul 5, 2027 (3 nights), site B-12, requested");
    expect(stayWords.added({ guest, nights, label: "", state: "booked" })).toBe("Ada Quill: Fri, Jul 2 to Mon, Jul 5, 2027 (3 nights), any site that fits");
    expect(stayWords.change({ column: "phone", before: "", after: "555 0100" })).toBe("phone: none → 555 0100");
    expect(stayWords.change({ column: "depart", before: "2027-07-04", after: "2027-07-05" })).toBe("departure: Sun, Jul 4, 2027 → Mon, Jul 5, 2027");
    expect(inventory.outcome({ sites: { added: 0, changed: 0, removed: 0 }, rigs: { added: 0, changed: 0, removed: 0 }, park: false, stays: { added: 1200, changed: 1 } })).toBe("Stays: 1,200 added and 1 changed.");
  });

  it("says how many do not fit", () => {
    expect(stayWords.fits.lead(1, 3)).toBe("1 of 3 stays looked at does not fit the site. It is read in all the same.");
    expect(stayWords.fits.line(4, "Ada Quill", "B-12", "Does not fit", "The rig is too long.")).toBe("Row 4, Ada Quill, site B-12: does not fit. The rig is too long.");
  });
});
