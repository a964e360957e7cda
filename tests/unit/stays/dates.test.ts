import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { addDays, asDate, dateIn, dateOfDay, dayNumber, daysBetween, daysInMonth, isTimeZone, readDate, weekday } from "@/lib/stays";

const seed = 20261125;
/** Every day from 2000-01-01 to 2199-12-31. */
const anyDay = fc.integer({ min: 10_957, max: 84_005 });

describe("readDate", () => {
  it.each(["2026-11-25", "2028-02-29", "2000-02-29", "2000-01-01", "2199-12-31"])("takes %s", (text) => expect(readDate(text)).toBe(text));
  it.each(["2026-02-30", "2027-02-29", "2100-02-29", "2026-13-01", "2026-00-10", "2026-06-31", "2026-06-00", "2026-6-1", "26-06-01", "1999-12-31", "2200-01-01", "2026-06-01T00:00", " 2026-06-01", ""])(
    "refuses %j",
    (text) => expect(readDate(text)).toBeNull(),
  );
  it("throws the value where it was to be right", () => expect(() => asDate("2026-02-30")).toThrow('"2026-02-30"'));
});

describe("day numbers", () => {
  it.each([["2000-01-01", 10_957], ["2026-11-25", 20_782], ["2028-02-29", 21_243], ["2199-12-31", 84_005]])("%s is day %i", (date, day) => {
    expect(dayNumber(asDate(date))).toBe(day);
    expect(dateOfDay(day)).toBe(date);
  });

  it("agree with the runtime's own calendar on every day of the two centuries", () => {
    for (let day = 10_957; day <= 84_005; day++) {
      const date = new Date(day * 86_400_000).toISOString().slice(0, 10);
      if (dateOfDay(day) !== date || dayNumber(asDate(date)) !== day || weekday(asDate(date)) !== new Date(day * 86_400_000).getUTCDay()) expect.fail(`day ${day}, ${date}`);
    }
  });

  it("go over a leap day, a common February and the new year", () => {
    expect(addDays(asDate("2028-02-28"), 1)).toBe("2028-02-29");
    expect(addDays(asDate("2028-02-28"), 2)).toBe("2028-03-01");
    expect(addDays(asDate("2027-02-28"), 1)).toBe("2027-03-01");
    expect(addDays(asDate("2100-02-28"), 1)).toBe("2100-03-01");
    expect(addDays(asDate("2026-12-31"), 1)).toBe("2027-01-01");
    expect(daysBetween(asDate("2027-01-01"), asDate("2026-12-31"))).toBe(-1);
    expect(daysInMonth(2028, 2)).toBe(29);
  });

  it("adding and counting are each other's inverse", () => {
    fc.assert(
      fc.property(anyDay, anyDay, (a, b) => daysBetween(dateOfDay(a), dateOfDay(b)) === b - a && addDays(dateOfDay(a), b - a) === dateOfDay(b)),
      { seed },
    );
  });

  it("do not leave the known years in silence", () => {
    expect(() => addDays(asDate("2199-12-31"), 1)).toThrow(RangeError);
    expect(() => addDays(asDate("2000-01-01"), -1)).toThrow(RangeError);
  });
});

describe("dateIn", () => {
  const at = (text: string) => Date.parse(text);

  it("tells the park's date, not the server's", () => {
    const instant = at("2027-01-01T04:59:59Z");
    expect(dateIn("UTC", instant)).toBe("2027-01-01");
    expect(dateIn("America/New_York", instant)).toBe("2026-12-31");
    expect(dateIn("America/New_York", instant + 1000)).toBe("2027-01-01");
    expect(dateIn("Pacific/Kiritimati", at("2026-12-31T10:00:00Z"))).toBe("2027-01-01");
    expect(dateIn("Pacific/Pago_Pago", at("2027-01-01T10:59:59Z"))).toBe("2026-12-31");
  });

  it("knows that a day may have 23 or 25 hours", () => {
    // America/Denver: forward at 02:00 on 2027-03-14, back at 02:00 on 2027-11-07.
    expect(dateIn("America/Denver", at("2027-03-14T06:59:59Z"))).toBe("2027-03-13");
    expect(dateIn("America/Denver", at("2027-03-14T07:00:00Z"))).toBe("2027-03-14");
    expect(dateIn("America/Denver", at("2027-03-15T05:59:59Z"))).toBe("2027-03-14");
    expect(dateIn("America/Denver", at("2027-03-15T06:00:00Z"))).toBe("2027-03-15");
    expect(dateIn("America/Denver", at("2027-11-08T06:59:59Z"))).toBe("2027-11-07");
    expect(dateIn("America/Denver", at("2027-11-08T07:00:00Z"))).toBe("2027-11-08");
  });

  it("tells the leap day", () => expect(dateIn("America/Los_Angeles", at("2028-03-01T07:59:59Z"))).toBe("2028-02-29"));

  it("knows a zone from a word", () => {
    expect(isTimeZone("America/Denver")).toBe(true);
    expect(isTimeZone("Mountain")).toBe(false);
    expect(isTimeZone("")).toBe(false);
  });
});
