import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parseLength } from "@/lib/measure";
import { formatLength, formatOnDrawing, formatPressure, unbroken, type Rounding } from "@/lib/wording";

const FT = 304.8, IN = 25.4;
const lengths = fc.double({ min: 0, max: 100_000, noNaN: true });

describe("formatLength", () => {
  it("writes feet, inches and halves", () => {
    expect(formatLength(2 * FT + 7.5 * IN, "ft-in", "down")).toBe("2 ft 7 1/2 in");
    expect(formatLength(24 * FT + 6 * IN, "ft-in", "up")).toBe("24 ft 6 in");
    expect(formatLength(24 * FT, "ft-in", "up")).toBe("24 ft");
    expect(formatLength(24 * FT + 0.5 * IN, "ft-in", "up")).toBe("24 ft 1/2 in");
    expect(formatLength(9 * IN, "ft-in", "up")).toBe("9 in");
    expect(formatLength(0.5 * IN, "ft-in", "up")).toBe("1/2 in");
    expect(formatLength(0, "ft-in", "up")).toBe("0 in");
    expect(formatLength(-0.0001, "ft-in", "up")).toBe("0 in");
    expect(formatLength(-100, "ft-in", "down")).toBe("−4 in");
  });

  it("writes centimetres below a metre and metres above", () => {
    expect(formatLength(140, "metric", "up")).toBe("14 cm");
    expect(formatLength(141, "metric", "up")).toBe("15 cm");
    expect(formatLength(149, "metric", "down")).toBe("14 cm");
    expect(formatLength(999, "metric", "up")).toBe("1.00 m");
    expect(formatLength(2351, "metric", "up")).toBe("2.36 m");
    expect(formatLength(0, "metric", "down")).toBe("0 cm");
    expect(formatLength(-31, "metric", "down")).toBe("−4 cm");
  });

  it("does not round up what arithmetic has made a hair too long", () => {
    expect(formatLength(7467.6 + 1e-9, "ft-in", "up")).toBe("24 ft 6 in");
    expect(formatLength(7467.6 - 1e-9, "ft-in", "down")).toBe("24 ft 6 in");
  });

  it("writes with primes on a drawing", () => {
    expect(formatOnDrawing(2 * FT + 7.5 * IN, "ft-in", "down")).toBe("2′7½″");
  });

  it("never rounds in the guest's favour", () => {
    fc.assert(fc.property(lengths, fc.constantFrom("ft-in" as const, "metric" as const), (mm, units) => {
      const read = (rounding: Rounding) => {
        const parsed = parseLength(formatLength(mm, units, rounding), "ft");
        return parsed.ok ? parsed.mm : NaN;
      };
      const slip = 0.06; // a tenth of a millimetre of rounding in the parser, and the noise the formatter forgives
      expect(read("up")).toBeGreaterThanOrEqual(mm - slip);
      expect(read("up")).toBeLessThan(mm + 12.7 + slip);
      expect(read("down")).toBeLessThanOrEqual(mm + slip);
      expect(read("down")).toBeGreaterThan(mm - 12.7 - slip);
    }), { seed: 42, numRuns: 3000 });
  });

  it("reads back as the step it was rounded to, so that a form can show it and read it again", () => {
    fc.assert(fc.property(fc.integer({ min: 0, max: 20_000 }), (steps) => {
      for (const [units, step] of [["ft-in", 12.7], ["metric", 10]] as const) {
        const parsed = parseLength(formatLength(steps * step, units, "up"), units === "metric" ? "m" : "ft");
        expect(parsed.ok && Math.abs(parsed.mm - steps * step) < 0.06).toBe(true);
        const drawn = parseLength(formatOnDrawing(steps * step, units, "nearest"), "ft");
        expect(drawn.ok && Math.abs(drawn.mm - steps * step) < 0.06).toBe(true);
      }
    }), { seed: 43, numRuns: 2000 });
  });

  it("refuses what is not a number", () => {
    expect(() => formatLength(NaN, "ft-in", "up")).toThrow(/NaN/);
  });
});

describe("formatPressure", () => {
  it("rounds what is too much up", () => {
    expect(formatPressure(68, "metric", "up")).toBe("68 kPa");
    expect(formatPressure(68, "ft-in", "up")).toBe("10 psi");
    expect(formatPressure(552, "ft-in", "nearest")).toBe("80 psi"); // UPC 608.2
  });
});

describe("unbroken", () => {
  it("holds a number to its unit and its fraction, and leaves words free to wrap", () => {
    const joined = (text: string) => unbroken(text).replaceAll("\u00a0", "~");
    expect(joined("Closest: the awning, 9 ft 10 1/2 in (at least 6 in).")).toBe("Closest: the awning, 9~ft~10~1/2~in (at least 6~in).");
    expect(joined("2 ft 1/2 in")).toBe("2~ft~1/2~in");
    expect(joined("1/2 in more, 3.30 m, 30 A, 1,250 VA, 42 ft 4 in in from the edge")).toBe("1/2~in more, 3.30~m, 30~A, 1,250~VA, 42~ft~4~in in from the edge");
    expect(joined("5 meters of 6 inches and 2 more")).toBe("5 meters of 6 inches and 2 more");
  });
});
