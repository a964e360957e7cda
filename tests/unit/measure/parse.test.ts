import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parseLength, type BareUnit } from "@/lib/measure";

function read(text: string, bare: BareUnit = "ft"): number | string {
  const parsed = parseLength(text, bare);
  return parsed.ok ? parsed.mm : parsed.fault;
}

const FT = 304.8, IN = 25.4;
const tenth = (mm: number) => Math.round(mm * 10) / 10;

describe("parseLength reads what people type", () => {
  const cases: [string, number][] = [
    [`24' 6"`, 24 * FT + 6 * IN], [`24'6"`, 24 * FT + 6 * IN], [`24'6`, 24 * FT + 6 * IN], [`24' 6`, 24 * FT + 6 * IN], [`24'-6"`, 24 * FT + 6 * IN],
    [`24' 6''`, 24 * FT + 6 * IN], ["24′ 6″", 24 * FT + 6 * IN], ["24’ 6”", 24 * FT + 6 * IN], ["24` 6", 24 * FT + 6 * IN],
    ["24 ft 6 in", 24 * FT + 6 * IN], ["24ft6in", 24 * FT + 6 * IN], ["24 feet, 6 inches", 24 * FT + 6 * IN], ["24 FT. 6 IN.", 24 * FT + 6 * IN],
    ["24 foot", 24 * FT], ["24'", 24 * FT], ["24.5 ft", 24.5 * FT], [`24'6 1/2"`, 24 * FT + 6.5 * IN], [`24' 6½"`, 24 * FT + 6.5 * IN],
    ["24 ft 6-1/2 in", 24 * FT + 6.5 * IN], ["24 ft 6.5 in", 24 * FT + 6.5 * IN], ["294 in", 294 * IN], [`1/2"`, 0.5 * IN], ["¾ in", 0.75 * IN],
    ["24 1/2 ft", 24.5 * FT], ["7.5 m", 7500], ["7,5 m", 7500], ["7.5m", 7500], ["750 cm", 7500], ["7500 mm", 7500], ["7 m 50 cm", 7500], ["7 metres", 7000],
    ["7 meters 5 cm", 7050], ["  24' 6\"  ", 24 * FT + 6 * IN], ["24\u00a0ft\u202f6\u2009in", 24 * FT + 6 * IN], ["0", 0], ["0 in", 0], [".5 m", 500],
  ];
  for (const [text, mm] of cases) {
    it(JSON.stringify(text), () => expect(read(text)).toBe(tenth(mm)));
  }

  it("takes a number without a unit in the reader's unit", () => {
    expect(read("24.5", "ft")).toBe(tenth(24.5 * FT));
    expect(read("24 1/2", "ft")).toBe(tenth(24.5 * FT));
    expect(read("4", "in")).toBe(tenth(4 * IN));
    expect(read("7.5", "m")).toBe(7500);
    expect(read("7,5", "m")).toBe(7500);
    expect(read("12", "cm")).toBe(120);
  });
});

describe("parseLength says what is wrong", () => {
  const cases: [string, string][] = [
    ["", "empty"], ["   ", "empty"], ["long", "unreadable"], ["24 x", "unreadable"], ["24 6", "unreadable"], ["24-6", "unreadable"], ["ft", "unreadable"], ["1/0 in", "unreadable"],
    ["24 ft 6 in 3", "unreadable"], ["1e3", "unreadable"], ["Infinity", "unreadable"], ["NaN", "unreadable"], ["24 furlongs", "unreadable"], ["7 m 50", "unreadable"], ["24''6'", "order"],
    ["-3 ft", "negative"], ["−3 ft", "negative"], ["24 ft 10 cm", "mixed"], ["6 in 24 ft", "order"], ["6 in 6 in", "order"], ["24.5 ft 6 in", "part-fraction"],
    ["5 ft 14 in", "carry"], ["5 ft 12 in", "carry"], ["7 m 100 cm", "carry"], ["1,200", "comma"], ["12,000 mm", "comma"], ["2000 ft", "too-long"],
  ];
  for (const [text, fault] of cases) {
    it(`${JSON.stringify(text)}: ${fault}`, () => expect(read(text)).toBe(fault));
  }

  it("gives the text back for the message", () => {
    expect(parseLength("about 30", "ft")).toEqual({ ok: false, fault: "unreadable", text: "about 30" });
  });

  it("never throws and never gives a negative or endless length, whatever is typed", () => {
    const keys = fc.string({ unit: fc.constantFrom(..."0123456789'\"′″ ftinmc.,/-½") });
    fc.assert(fc.property(fc.oneof(keys, fc.string()), fc.constantFrom<BareUnit>("ft", "in", "m", "cm"), (text, bare) => {
      const parsed = parseLength(text, bare);
      if (parsed.ok) expect(parsed.mm >= 0 && parsed.mm <= 500_000).toBe(true);
    }), { seed: 41, numRuns: 3000 });
  });
});
