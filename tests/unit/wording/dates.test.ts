import { describe, expect, it } from "vitest";
import { asDate, nights } from "@/lib/stays";
import { formatDay, formatLongDay, formatNights, type CalendarNames } from "@/lib/wording/dates";
import { catalogueOf } from "@/lib/wording";

const { calendar, nights: many } = catalogueOf().stays;
const day = (text: string, year?: number) => formatDay(asDate(text), calendar, year);

describe("a day in words", () => {
  it("carries its year unless it is the one that is spoken of", () => {
    expect(day("2027-06-18", 2027)).toBe("Fri, Jun 18");
    expect(day("2027-06-18", 2026)).toBe("Fri, Jun 18, 2027");
    expect(day("2027-06-18")).toBe("Fri, Jun 18, 2027");
    expect(formatLongDay(asDate("2027-06-18"), calendar)).toBe("Friday, June 18, 2027");
  });

  it.each([["2028-02-29", "Tue, Feb 29, 2028"], ["2026-12-31", "Thu, Dec 31, 2026"], ["2027-01-01", "Fri, Jan 1, 2027"], ["2000-02-29", "Tue, Feb 29, 2000"], ["2100-03-01", "Mon, Mar 1, 2100"], ["2027-03-14", "Sun, Mar 14, 2027"], ["2199-12-31", "Tue, Dec 31, 2199"]])(
    "%s is %s, whatever the zone of the machine",
    (date, words) => expect(day(date)).toBe(words),
  );

  it("names every day and month as the runtime's own calendar does, leap years too", () => {
    const long = new Intl.DateTimeFormat("en-US", { timeZone: "UTC", weekday: "long", month: "long", day: "numeric", year: "numeric" });
    const short = new Intl.DateTimeFormat("en-US", { timeZone: "UTC", weekday: "short", month: "short", day: "numeric", year: "numeric" });
    for (let at = Date.UTC(2027, 0, 1); at < Date.UTC(2029, 0, 1); at += 86_400_000) {
      const date = new Date(at).toISOString().slice(0, 10);
      expect([formatLongDay(asDate(date), calendar), day(date)]).toEqual([long.format(at), short.format(at)]);
    }
  });

  it("takes its names from the language it is given", () => {
    const names: CalendarNames = { days: ["Zondag", "Maandag", "Dinsdag", "Woensdag", "Donderdag", "Vrijdag", "Zaterdag"], months: Array.from({ length: 12 }, (_, i) => `Maand${i + 1}`) };
    expect(formatLongDay(asDate("2027-06-18"), names)).toBe("Vrijdag, Maand6 18, 2027");
  });
});

describe("nights in words", () => {
  const span = (arrive: string, depart: string) => formatNights(nights(arrive, depart), calendar, many);

  it("tell the year once, at the end, and both where the stay goes over the new year", () => {
    expect(span("2027-06-18", "2027-06-20")).toBe("Fri, Jun 18 to Sun, Jun 20, 2027 (2 nights)");
    expect(span("2026-12-31", "2027-01-01")).toBe("Thu, Dec 31, 2026 to Fri, Jan 1, 2027 (1 night)");
  });

  it("count nights of the calendar: over a leap day, a night of 23 hours and one of 25, and the longest stay", () => {
    expect(span("2028-02-28", "2028-03-01")).toBe("Mon, Feb 28 to Wed, Mar 1, 2028 (2 nights)");
    expect(span("2027-03-13", "2027-03-15")).toBe("Sat, Mar 13 to Mon, Mar 15, 2027 (2 nights)");
    expect(span("2027-11-06", "2027-11-08")).toBe("Sat, Nov 6 to Mon, Nov 8, 2027 (2 nights)");
    expect(span("2027-01-01", "2028-02-05")).toBe("Fri, Jan 1, 2027 to Sat, Feb 5, 2028 (400 nights)");
  });
});
