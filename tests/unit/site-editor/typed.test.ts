import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { printTyped, readTyped, type Sort } from "@/app/manage/editing/typed";
import { readBearing, readCoordinate } from "@/app/manage/map/typed-place";

const SEED = 20_261_126;
const read = (text: string, sort: Sort, units: "ft-in" | "metric" = "ft-in") => { const typed = readTyped(text, sort, units); return typed.ok ? typed.value : typed.fault; };

describe("numbers as people type them", () => {
  it("reads lengths with and without units, feet for places and inches for posts", () => {
    expect([read("24 ft 6 in", "length"), read("24.5", "length"), read("7.5", "length", "metric"), read("", "length")]).toEqual([7468, 7468, 7500, undefined]);
    expect([read("36", "small"), read("90", "small", "metric")]).toEqual([914, 900]);
    expect([read("20", "small-through"), read("1 m", "through", "metric")]).toEqual([254, 500]);
    expect(read("62.832", "girth", "metric")).toBe(100);
  });

  it("reads coordinates with their side or a sign, and refuses both at once", () => {
    expect([read("6 ft right", "left"), read("-6", "left"), read("−6", "left"), read("6 ft L", "left"), read("6 ft", "left")]).toEqual([-1829, -1829, -1829, 1829, 1829]);
    expect([read("-4 ft 11 in", "into"), read("-6 ft right", "left"), read("up", "left"), read("1,200", "into")]).toEqual([-1499, "side", "unreadable", "comma"]);
  });

  it("reads the other numbers", () => {
    expect([read("60 psi", "pressure"), read("60", "pressure"), read("4.1 bar", "pressure"), read("415", "pressure", "metric")]).toEqual([413.7, 413.7, 410, 415]);
    expect([read("-1.5 %", "percent"), read("1,5", "percent"), read("120 V", "volts"), read("two", "count")]).toEqual([-1.5, 1.5, 120, "number"]);
  });

  it("prints what reads back as the same number, to a 32nd of an inch or half a millimeter", () => {
    fc.assert(fc.property(fc.integer({ min: -40_000, max: 40_000 }), fc.constantFrom("ft-in" as const, "metric" as const), (mm, units) => {
      for (const sort of ["into", "left"] as const) expect(Math.abs(Number(read(printTyped(mm, sort, units), sort, units)) - mm), `${mm} ${sort} ${units}: ${printTyped(mm, sort, units)}`).toBeLessThanOrEqual(1.3);
      for (const sort of ["length", "small"] as const) expect(Math.abs(Number(read(printTyped(Math.abs(mm), sort, units), sort, units)) - Math.abs(mm))).toBeLessThanOrEqual(1.3);
    }), { seed: SEED, numRuns: 500 });
    expect([printTyped(-1829, "left", "ft-in"), printTyped(9144, "into", "ft-in"), printTyped(0, "left", "ft-in"), printTyped(13_703, "into", "metric"), printTyped(291, "girth", "ft-in")]).toEqual(["6 ft right", "30 ft", "0 in", "13.703 m", "6 ft"]);
  });

  it("what was typed to a sixteenth of an inch is shown as it was typed", () => {
    for (let sixteenths = 1; sixteenths < 16 * 12 * 45; sixteenths += 7) {
      const mm = Number(read(`${sixteenths}/16 in`, "into")), shown = printTyped(mm, "into", "ft-in");
      expect(Math.abs(mm - (sixteenths * 25.4) / 16)).toBeLessThan(0.6);
      // Half a tenth of a millimeter may be rounded either way: what is shown stays the same.
      expect(Math.abs(Number(read(shown, "into")) - mm)).toBeLessThanOrEqual(1);
      expect(printTyped(Number(read(shown, "into")), "into", "ft-in")).toBe(shown);
    }
  });

  it("reads a park's coordinates beyond what a site may measure, and bearings", () => {
    expect([readCoordinate("2000", "ft-in"), readCoordinate("-812.5 m", "ft-in"), readCoordinate("564 ft 7 in", "ft-in"), readCoordinate("far", "metric")]).toEqual([609_600, -812_500, 172_085, null]);
    expect([readBearing("118.5°"), readBearing("0"), readBearing("361"), readBearing("north")]).toEqual([118.5, 0, null, null]);
  });
});
