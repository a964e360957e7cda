import { describe, expect, it } from "vitest";
import { defaultPolicy, fitSite } from "@/lib/fit";
import type { SiteInput } from "@/lib/park";
import { leftOf, rigWith, siteWith } from "./scenes";

function watered(hookup: Partial<NonNullable<SiteInput["hookups"]>[number]>, regulator: boolean) {
  const rig = rigWith({ inlets: [{ kind: "water", side: "left", u: 3000, height: 700 }], wants: ["water"], gear: { waterHose: 7600, regulator } });
  const tap = { id: "tap", kind: "water" as const, at: leftOf(3000, 2000), height: 600, ...hookup };
  return fitSite(siteWith({ hookups: [tap] }), rig, defaultPolicy);
}

// UPC 608.2 (read): static pressure over 80 psi wants a regulator. 1 psi = 6.894757 kPa.
describe("water pressure: over 80 psi wants a regulator (UPC 608.2, read)", () => {
  it("draws the line at 80 psi, 552 kPa", () => {
    expect(Math.round(80 * 6.894757)).toBe(defaultPolicy.maxPressure);
    expect(watered({ pressure: 552 }, false).verdict).toBe("fits");
    const above = watered({ pressure: 553 }, false);
    expect(above.verdict).toBe("gear");
    expect(above.bring).toEqual([{ code: "regulator", amount: null, what: null }]);
    expect(watered({ pressure: 690 }, true).verdict).toBe("fits");
  });
});

// Common practice: water that rinses tanks is never drunk.
describe("a tap for rinsing tanks (common practice)", () => {
  it("is never drinking water, whatever the gear", () => {
    expect(watered({ kind: "rinse-water" }, true).verdict).toBe("no");
    expect(watered({ kind: "rinse-water" }, true).bring).toEqual([]);
  });
});
