import { describe, expect, test } from "vitest";
import { addMonths, ageOn, dateOf, isOlderThan } from "@/app/manage/age";
import { asDate as on } from "@/lib/stays";
import { staffTable } from "@/lib/wording/en/staff-table";

test("today is the date on the wall where the page is served, whatever it is elsewhere", () => {
  expect(dateOf(new Date(2026, 10, 25, 23, 59, 59))).toEqual(on("2026-11-25"));
  expect(dateOf(new Date(2026, 10, 26, 0, 0, 0))).toEqual(on("2026-11-26"));
});

describe("age", () => {
  test.each([
    ["2026-04-25", "2026-11-25", 7, 214],
    ["2026-04-26", "2026-11-25", 6, 213],
    ["2026-11-25", "2026-11-25", 0, 0],
    ["2026-01-31", "2026-02-27", 0, 27],
    ["2026-01-31", "2026-02-28", 1, 28], // February has no 31st: its last day is the anniversary
    ["2024-01-31", "2024-02-28", 0, 28],
    ["2024-01-31", "2024-02-29", 1, 29],
    ["2024-02-29", "2025-02-28", 12, 365],
    ["2025-12-31", "2026-01-01", 0, 1],
    ["2026-10-31", "2026-11-01", 0, 1], // the night the clocks go back in much of North America
    ["2026-11-26", "2026-11-25", 0, -1],
  ])("of %s on %s is %i months, %i days", (date, today, months, days) => {
    expect(ageOn(on(date), on(today))).toEqual({ months, days });
  });

  test("reads as one says it", () => {
    const ago = (date: string, today: string) => { const { months, days } = ageOn(on(date), on(today)); return staffTable.ago(months, days); };
    expect(ago("2026-11-25", "2026-11-25")).toBe("today");
    expect(ago("2026-11-24", "2026-11-25")).toBe("yesterday");
    expect(ago("2026-11-01", "2026-11-25")).toBe("24 days ago");
    expect(ago("2026-10-25", "2026-11-25")).toBe("1 month ago");
    expect(ago("2024-11-26", "2026-11-25")).toBe("23 months ago");
    expect(ago("2024-11-25", "2026-11-25")).toBe("2 years ago");
    expect(ago("2023-10-20", "2026-11-25")).toBe("3 years 1 month ago");
    expect(ago("2026-11-26", "2026-11-25")).toBe("a day to come: check the date");
  });
});

describe("more than 24 months", () => {
  test("begins the day after the anniversary", () => {
    expect(isOlderThan(on("2024-11-25"), 24, on("2026-11-25"))).toBe(false);
    expect(isOlderThan(on("2024-11-24"), 24, on("2026-11-25"))).toBe(true);
  });

  test("of a leap day is counted from the last of February", () => {
    expect(addMonths(on("2024-02-29"), 24)).toEqual(on("2026-02-28"));
    expect(isOlderThan(on("2024-02-29"), 24, on("2026-02-28"))).toBe(false);
    expect(isOlderThan(on("2024-02-29"), 24, on("2026-03-01"))).toBe(true);
  });

  test("adding months goes over the year's end both ways", () => {
    expect(addMonths(on("2026-11-30"), 3)).toEqual(on("2027-02-28"));
    expect(addMonths(on("2026-01-31"), -2)).toEqual(on("2025-11-30"));
    expect(addMonths(on("2026-12-15"), 1)).toEqual(on("2027-01-15"));
  });
});
