import { describe, expect, it } from "vitest";
import { readLength, readMeasured, readNumber, unitsOf } from "@/lib/exchange/numbers";

const [mm, cm, m, inch, ft] = unitsOf.length;

describe("a length in a cell", () => {
  it.each([
    ["34' 6\"", null, 10515.6], ["34-6", null, 10515.6], ["34-6", ft, 10515.6], ["34 ft 6 in", null, 10515.6], ["34.5", ft, 10515.6], ["414", inch, 10515.6], ["10.5 m", null, 10500], ["10.5 m", ft, 10500], ["1050", cm, 10500], ["10.5", m, 10500],
    ["10500", mm, 10500], ["10500.25", mm, 10500.25], ["10 1/2", ft, 3200.4], ["0", mm, 0], ["1e3", mm, 1000], ["13,700", mm, 13700],
  ])("%s under %o is %d mm", (text, unit, value) => expect(readLength(text, unit, false, false)).toEqual({ ok: true, value }));

  it.each([
    ["-1800", mm, -1800], ["−1800", mm, -1800], ["-6 ft 2 in", null, -1879.6], ["+5", m, 5000], ["-0", mm, 0],
  ])("%s as a coordinate is %d mm", (text, unit, value) => expect(readLength(text, unit, false, true)).toEqual({ ok: true, value }));

  it.each([
    ["-5", mm, "negative"], ["12", null, "no-unit"], ["forty", ft, "length"], ["34-6", m, "unit-mixed"], ["34-14", ft, "length"], ["600 m", null, "length"], ["5 ft 20 cm", null, "unit-mixed"], ["", mm, "length"], ["12..5", mm, "length"], ["=1+1", mm, "length"],
  ])("%s under %o is refused", (text, unit, code) => expect(readLength(text, unit, false, false)).toEqual({ ok: false, code }));

  it.each([["7,5", m, 7500], ["7,5 m", null, 7500], ["1.250,5", mm, 1250.5], ["10.5", m, 10500]])("with decimal commas %s is %d mm", (text, unit, value) => expect(readLength(text, unit, true, false)).toEqual({ ok: true, value }));

  it("is not guessed where it may be thousands or decimals", () => expect(readLength("1.250", mm, true, false)).toEqual({ ok: false, code: "ambiguous" }));
});

describe("other numbers in cells", () => {
  it.each([["12", 12], ["1,234.5", 1234.5], ["-0.8", -0.8], [".5", 0.5], ["12\u00A0500", 12500]])("%s", (text, value) => expect(readNumber(text, false)).toEqual({ ok: true, value }));
  it.each(["", "x", "1 2", "1,2,3", "NaN", "Infinity", "0x10", "1e999"])("%s is none", (text) => expect(readNumber(text, false)).toMatchObject({ ok: false, code: "number" }));
  it("take a unit of their own", () => {
    expect(readMeasured("60 psi", "pressure", null, false)).toEqual({ ok: true, value: 413.7 });
    expect(readMeasured("60", "pressure", unitsOf.pressure[1], false)).toEqual({ ok: true, value: 413.7 });
    expect(readMeasured("1.5 %", "slope", unitsOf.slope[0], false)).toEqual({ ok: true, value: 1.5 });
    expect(readMeasured("60 ft", "pressure", null, false)).toMatchObject({ ok: false, code: "number" });
  });
});
