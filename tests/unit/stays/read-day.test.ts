import { describe, expect, it } from "vitest";
import { asDate, readDay, readDeparture } from "@/lib/stays";

const today = asDate("2026-11-25"); // a Wednesday

describe("a date typed in a hurry", () => {
  it.each([
    ["jun 18", "2027-06-18"], ["June 18th", "2027-06-18"], ["18 jun", "2027-06-18"], ["6/18", "2027-06-18"], ["6/18/28", "2028-06-18"], ["06.18", "2027-06-18"], ["2027-6-18", "2027-06-18"],
    ["11/25", "2026-11-25"], ["nov 24", "2027-11-24"], ["dec 31", "2026-12-31"], ["jan 1", "2027-01-01"], ["feb 29", "2028-02-29"],
    ["today", "2026-11-25"], ["tomorrow", "2026-11-26"], ["+3", "2026-11-28"], ["fri", "2026-11-27"], ["wed", "2026-11-25"], ["tues", "2026-12-01"], ["Sunday", "2026-11-29"], ["11/24/26", "2026-11-24"],
  ])("%s is %s", (text, date) => {
    expect(readDay(text, today)).toEqual({ ok: true, date });
  });

  it.each([["", "empty"], ["soon", "not-a-date"], ["18", "not-a-date"], ["13/1", "no-such-day"], ["2/30", "no-such-day"], ["feb 29 27", "no-such-day"], ["11/23/26", "past"], ["mon 3", "not-a-date"]])("%j is refused: %s", (text, why) => {
    expect(readDay(text, today)).toEqual({ ok: false, why });
  });
});

describe("when they leave", () => {
  const arrive = asDate("2026-12-30");
  it.each([["2", "2027-01-01"], ["2n", "2027-01-01"], ["1 night", "2026-12-31"], ["2 weeks", "2027-01-13"], ["jan 2", "2027-01-02"], ["sat", "2027-01-02"], ["wed", "2027-01-06"], ["12/30", "2027-12-30"]])("%s is %s", (text, date) => {
    expect(readDeparture(text, arrive)).toEqual({ ok: true, date });
  });

  it.each([["0", "not-after"], ["", "empty"], ["401", "too-long"], ["12/30/2026", "not-after"], ["12/29/2026", "not-after"], ["6/1/2029", "too-long"], ["later", "not-a-date"]])("%j is refused: %s", (text, why) => {
    expect(readDeparture(text, arrive)).toEqual({ ok: false, why });
  });
});
