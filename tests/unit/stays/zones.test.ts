import { describe, expect, it } from "vitest";
import { addDays, asDate, countNights, dateIn, daysBetween, isTimeZone, judgeNights, listNights, nights, staySettingsSchema } from "@/lib/stays";

const hour = 3_600_000;
const at = (text: string) => Date.parse(text);

describe("the park's date around a change of the clocks", () => {
  it.each<[string, string, string, string, string]>([
    // Forward at 02:00 on 2027-03-14, a day of 23 hours; back at 02:00 on 2027-11-07, one of 25.
    ["New York in spring, the day before", "America/New_York", "2027-03-14T04:59:59Z", "2027-03-13", "2027-03-14"],
    ["New York in spring, the day itself", "America/New_York", "2027-03-15T03:59:59Z", "2027-03-14", "2027-03-15"],
    ["New York in the fall, the day before", "America/New_York", "2027-11-07T03:59:59Z", "2027-11-06", "2027-11-07"],
    ["New York in the fall, the day itself", "America/New_York", "2027-11-08T04:59:59Z", "2027-11-07", "2027-11-08"],
    // Forward at midnight itself: the day begins at 01:00.
    ["Santiago, where midnight of 2026-09-06 never is", "America/Santiago", "2026-09-06T03:59:59Z", "2026-09-05", "2026-09-06"],
    ["Beirut, where midnight of 2027-03-28 never is", "Asia/Beirut", "2027-03-27T21:59:59Z", "2027-03-27", "2027-03-28"],
    // Back at midnight to 23:00: the evening comes twice and the date does not.
    ["Santiago, where the evening of 2027-04-03 comes twice", "America/Santiago", "2027-04-04T03:59:59Z", "2027-04-03", "2027-04-04"],
    ["Beirut, where the evening of 2027-10-30 comes twice", "Asia/Beirut", "2027-10-30T21:59:59Z", "2027-10-30", "2027-10-31"],
    // Half an hour, and zones off the hour.
    ["Lord Howe, back by half an hour", "Australia/Lord_Howe", "2027-04-03T12:59:59Z", "2027-04-03", "2027-04-04"],
    ["Kathmandu, a quarter off the hour", "Asia/Kathmandu", "2027-01-01T18:14:59Z", "2027-01-01", "2027-01-02"],
    // Over the date line: 2011-12-30 was no day there.
    ["Apia, which went without 2011-12-30", "Pacific/Apia", "2011-12-30T09:59:59Z", "2011-12-29", "2011-12-31"],
  ])("%s", (_, zone, last, before, after) => {
    expect(dateIn(zone, at(last))).toBe(before);
    expect(dateIn(zone, at(last) + 1000)).toBe(after);
  });

  it.each(["America/New_York", "America/Santiago", "Asia/Beirut", "America/Havana", "Europe/Lisbon", "Australia/Lord_Howe", "UTC"])("goes on in %s, hour by hour over both changes of a year, by one day at a time", (zone) => {
    const lengths = new Set<number>();
    for (const [from, to] of [["2027-03-01T12:00:00Z", "2027-04-15T12:00:00Z"], ["2027-09-01T12:00:00Z", "2027-11-15T12:00:00Z"]] as const) {
      let [date, hours, whole] = [dateIn(zone, at(from)), 0, false];
      for (let now = at(from); now < at(to); now += hour) {
        const next = dateIn(zone, now);
        if (next !== date) {
          if (daysBetween(date, next) !== 1) expect.fail(`${zone}: ${date} is followed by ${next} at ${new Date(now).toISOString()}`);
          if (whole) lengths.add(hours);
          [date, hours, whole] = [next, 0, true];
        }
        hours++;
      }
    }
    expect(lengths.delete(24)).toBe(true);
    for (const length of lengths) expect([23, 25]).toContain(length);
    if (zone === "America/New_York" || zone === "America/Santiago" || zone === "Asia/Beirut") expect(lengths).toEqual(new Set([23, 25]));
    if (zone === "UTC") expect(lengths.size).toBe(0);
  });

  it("is another one, at one instant, on the two sides of the date line", () => {
    for (let now = at("2027-12-30T00:00:00Z"); now < at("2028-01-02T00:00:00Z"); now += hour / 2) {
      const apart = daysBetween(dateIn("Pacific/Pago_Pago", now), dateIn("Pacific/Kiritimati", now));
      expect(apart === 1 || apart === 2).toBe(true);
    }
  });

  it("is asked of names alone that are zones", () => {
    for (const zone of ["America/Santiago", "Asia/Beirut", "Pacific/Apia", "Etc/GMT+12", "UTC"]) expect(isTimeZone(zone), zone).toBe(true);
    for (const zone of ["America/Nowhere", "New York", "+25:00", " UTC", "America/"]) expect(isTimeZone(zone), zone).toBe(false);
  });
});

describe("nights do not ask the clock", () => {
  it.each<[string, string, string, number]>([
    ["clocks forward", "2027-03-13", "2027-03-15", 2],
    ["clocks back", "2027-11-06", "2027-11-08", 2],
    ["forward at midnight", "2026-09-05", "2026-09-07", 2],
    ["a day that a zone went without is a date all the same", "2011-12-29", "2011-12-31", 2],
    ["a leap day", "2028-02-28", "2028-03-01", 2],
    ["the same days of a common year", "2027-02-28", "2027-03-01", 1],
    ["a century that is no leap year", "2100-02-28", "2100-03-01", 1],
    ["the year's end", "2026-12-31", "2027-01-01", 1],
    ["a year", "2027-01-01", "2028-01-01", 365],
    ["a leap year", "2028-01-01", "2029-01-01", 366],
    ["the longest stay, over a leap day", "2027-12-31", "2029-02-03", 400],
  ])("%s", (_, arrive, depart, count) => {
    const stay = nights(arrive, depart);
    expect(countNights(stay)).toBe(count);
    const list = listNights(stay);
    expect(list).toHaveLength(count);
    expect(new Set(list).size).toBe(count);
    expect([list[0], addDays(list.at(-1)!, 1)]).toEqual([arrive, depart]);
  });

  it("what a guest may ask for begins with the park's own today, not the server's", () => {
    const settings = staySettingsSchema.parse({ zone: "America/Santiago", daysAhead: 30 });
    const now = at("2026-09-06T03:59:59Z"), [today, next] = [dateIn(settings.zone, now), dateIn(settings.zone, now + 1000)];
    const tonight = nights("2026-09-05", "2026-09-06");
    expect(judgeNights(tonight, "guest", today, settings)).toEqual([]);
    expect(judgeNights(tonight, "guest", next, settings)).toEqual([{ code: "in-the-past", earliest: asDate("2026-09-06") }]);
    // Who comes after midnight is still the desk's guest of the night before.
    expect(judgeNights(tonight, "desk", next, settings)).toEqual([]);
  });
});
