import { describe, expect, it } from "vitest";
import { fitSite, type FitResult } from "@/lib/fit";
import { percentFromDegrees } from "@/lib/measure";
import { FOOT, INCH, leftOf, policyWith, rigWith, siteWith } from "./scenes";

/** A drain `run` straight out from the outlet. */
function drained(run: number, outlet: number, rim: number, across = 0): FitResult {
  const rig = rigWith({ inlets: [{ kind: "sewer", side: "left", u: 3000, height: outlet }], wants: ["sewer"], gear: { sewerHose: 8000 } });
  const site = siteWith({ hookups: [{ id: "drain", kind: "sewer", at: leftOf(3000, run), height: rim }], ground: { along: 0, across } });
  return fitSite(site, rig, policyWith({ levelWithin: 10 }));
}

// Fall of a drain: a quarter of an inch in a foot, 1:48. UPC 708.1 (from memory); municipal codes for trailer stands say the same (read).
describe("the fall of a drain: 1/4 inch in a foot (UPC 708.1, from memory; municipal trailer-stand codes, read)", () => {
  it("asks for 5 inches over 20 feet", () => {
    const rim = 100;
    const ample = drained(20 * FOOT - 15, rim + 5.2 * INCH, rim);
    expect(ample.verdict).toBe("fits");
    expect(ample.needs[0]!.fall!.needed).toBeGreaterThan(4.95 * INCH);
    expect(ample.needs[0]!.fall!.needed).toBeLessThan(5.02 * INCH);
    expect(drained(20 * FOOT - 15, rim + 4.7 * INCH, rim).verdict).toBe("no");
  });

  it("finds 14 inches where 2.5 are needed: outlet 18 in, rim 4 in, run 10 ft", () => {
    const { fall } = drained(10 * FOOT, 18 * INCH, 4 * INCH).needs[0]!;
    expect(fall!.drop / INCH).toBeCloseTo(14, 9);
    expect(fall!.needed / INCH).toBeCloseTo(2.5, 1);
  });

  it("is 2.083 per cent, 1.19 degrees, whether the ground gives it or the outlet", () => {
    expect(percentFromDegrees(1.19)).toBeCloseTo(100 / 48, 1);
    // outlet and rim equally high, 6 m apart; the ground falls toward the drain, which lies at lower y
    expect(drained(6000, 300, 300, 2.2).verdict).toBe("fits");
    expect(drained(6000, 300, 300, 1.95).verdict).toBe("no");
    expect(drained(6000, 300, 300, -2.2).verdict).toBe("no");
  });

  it("is no remedy that can be brought: no hose makes a drain lie lower", () => {
    const flat = drained(3000, 300, 300);
    expect(flat.verdict).toBe("no");
    expect(flat.bring).toEqual([]);
  });
});
