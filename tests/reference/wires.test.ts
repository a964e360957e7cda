import { describe, expect, it } from "vitest";
import { defaultPolicy, fitSite } from "@/lib/fit";
import { rigWith, siteWith } from "./scenes";

// Clearances of overhead conductors: from memory of NEC 551.79. Local code decides; both numbers are a park's to change.
describe("overhead wires (from memory of NEC 551.79; local code decides)", () => {
  const roof = 3200;
  /** A wire along the site, `beside` the left wall (0: overhead), at `height`. */
  const wired = (height: number, beside: number) => {
    const y = beside === 0 ? 0 : -1200 - beside;
    const wire = { id: "wire", kind: "wire", outline: [[-5000, y - 30], [15_000, y - 30], [15_000, y], [-5000, y]] as [number, number][], from: height, to: height + 30 };
    return fitSite(siteWith({ obstacles: [wire] }), rigWith({}), defaultPolicy);
  };

  it("stay 1.4 m above the roof by default", () => {
    expect(defaultPolicy).toMatchObject({ wireRoom: 1400, wireClearance: 900 });
    expect(wired(roof + 1400, 0).verdict).toBe("fits");
    expect(wired(roof + 1399, 0)).toMatchObject({ verdict: "no", pose: null });
  });

  it("or 0.9 m to the side of it", () => {
    expect(wired(roof + 1000, 900 + 20).verdict).toBe("fits");
    expect(wired(roof + 1000, 900 - 20).verdict).toBe("no");
  });
});
