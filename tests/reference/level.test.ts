import { describe, expect, it } from "vitest";
import { defaultPolicy, fitSite } from "@/lib/fit";
import { inchesFromMm, mmFromInches, percentFromDegrees } from "@/lib/measure";
import { rigWith, siteWith } from "./scenes";

// Trigonometry: 100 tan(angle).
describe("degrees and per cent", () => {
  for (const [degrees, percent] of [[0.5, 0.873], [1, 1.746], [3, 5.241]] as const) {
    it(`${degrees} degrees is ${percent} per cent`, () => expect(percentFromDegrees(degrees)).toBeCloseTo(percent, 3));
  }
});

// Common practice: owners level to within half a bubble, half a degree to one degree, side to side before front to back.
describe("what needs no levelling (common practice: half a degree to one)", () => {
  const across = (degrees: number) => fitSite(siteWith({ ground: { along: 0, across: percentFromDegrees(degrees) } }), rigWith({ gear: { liftSide: 0 } }), defaultPolicy);
  const along = (degrees: number) => fitSite(siteWith({ ground: { along: percentFromDegrees(degrees), across: 0 } }), rigWith({}), defaultPolicy);

  it("is half a degree, either way", () => {
    expect(across(0.5)).toMatchObject({ verdict: "fits", level: { side: 0, along: 0, ok: "own" } });
    expect(along(-0.5)).toMatchObject({ verdict: "fits", level: { side: 0, along: 0, ok: "own" } });
  });

  it("is not a whole degree: 1.746 per cent over tyres 2 m apart asks for 35 mm", () => {
    expect(across(1).level.side).toBeCloseTo(34.9, 1);
    expect(across(1)).toMatchObject({ verdict: "gear", bring: [{ code: "lift-side" }] });
    // a trailer pivots on its axle: 5.6 m from there to the tongue jack
    expect(along(1).level.along).toBeCloseTo(97.7, 1);
  });
});

// The international inch (1959, exact). Widths and heights of the road: 102 in, 23 CFR 658.15 (read); 13 ft 6 in (from memory).
describe("feet and inches", () => {
  it("reads the legal width and the common height", () => {
    expect(mmFromInches(102)).toBeCloseTo(2590.8, 9);
    expect(mmFromInches(13 * 12 + 6)).toBeCloseTo(4114.8, 9);
    expect(inchesFromMm(304.8)).toBeCloseTo(12, 9);
  });
});
