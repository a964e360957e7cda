import { describe, expect, it } from "vitest";
import { defaultPolicy, fitSite, type FitResult } from "@/lib/fit";
import type { RigInput } from "@/lib/rig";
import { FOOT, leftOf, rigWith, siteWith } from "./scenes";

type Ampere = 50 | 30 | 20 | 15;
type Load = { id: string; va: number; need: "must" | "nice" };
const amps = (id: string, a: number, need: "must" | "nice" = "must"): Load => ({ id, va: 120 * a, need });

function plugged(plug: Ampere, receptacles: Ampere[], loads: Load[], adapters: string[] = []): FitResult {
  const rig = rigWith({
    inlets: [{ kind: "power", side: "left", u: 3000, height: 700 }], wants: ["power"], electric: { plug, loads }, gear: { powerCord: 9100, adapters },
  });
  return fitSite(siteWith({ hookups: [{ id: "ped", kind: "power", at: leftOf(3000, 2000), height: 900, receptacles, volts: 120 }] }), rig, defaultPolicy);
}

// NEC Article 551, per site: 50 A 120/240 V 12 000 VA (2017 on), 30 A 3 600 VA, 20 A 2 400 VA (read).
describe("what a receptacle supplies (NEC Article 551, 2017 on, read)", () => {
  for (const [rating, va] of [[50, 12_000], [30, 3_600], [20, 2_400]] as const) {
    it(`is ${va} VA at ${rating} A`, () => {
      expect(plugged(rating, [rating], []).power).toMatchObject({ receptacle: rating, through: null, supplyVa: va });
    });
  }

  it("is that of the smaller one through an adapter", () => {
    expect(plugged(50, [30], [], ["50-to-30"]).power).toMatchObject({ through: "50-to-30", supplyVa: 3_600 });
    expect(plugged(30, [50], [], ["30-to-50"]).power).toMatchObject({ through: "30-to-50", supplyVa: 3_600 });
  });
});

// NEC 210.19 and 210.20 (read): a continuous load counts at 125 per cent, so 80 per cent of a circuit may be loaded for hours.
describe("continuous load: 80 per cent of the circuit (NEC 210.19, 210.20, 125 per cent rule, read)", () => {
  it("is 24 A on 30 A", () => {
    expect(plugged(30, [30], [amps("a", 24)]).verdict).toBe("fits");
    expect(plugged(30, [30], [amps("a", 24.1)]).verdict).toBe("no");
  });

  it("is 40 A on each leg of 50 A", () => {
    expect(plugged(50, [50], [amps("a", 2 * 40)]).verdict).toBe("fits");
    expect(plugged(50, [50], [amps("a", 2 * 40.1)]).verdict).toBe("no");
  });
});

// Running amperes at 120 V from owners' lists (read; they spread, the owner's label wins): air conditioner of 13 500 BTU/h
// 13 to 14.5 A, microwave 12.8, converter 5 to 8. Common practice: two air conditioners do not run together on 30 A.
describe("two air conditioners of 13 500 BTU/h (owners' lists, read; common practice)", () => {
  for (const each of [13, 14.5]) {
    it(`at ${each} A each do not run together on 30 A, and do on 50 A`, () => {
      expect(plugged(30, [30], [amps("air-1", each), amps("air-2", each)]).verdict).toBe("no");
      const shed = plugged(30, [30], [amps("air-1", each), amps("air-2", each, "nice")]);
      expect(shed).toMatchObject({ verdict: "fits", power: { runs: ["air-1"], shed: ["air-2"] } });
      expect(plugged(50, [50], [amps("air-1", each), amps("air-2", each)]).verdict).toBe("fits");
    });
  }

  it("nor does one beside a microwave", () => {
    expect(plugged(30, [30], [amps("air-1", 13), amps("microwave", 12.8, "nice")]).power!.shed).toEqual(["microwave"]);
  });
});

// NEC 551.46 (read): point of entrance within 15 ft of the rear takes a cord of 25 ft; further forward, add the excess:
// a 40 ft coach with its inlet 37 ft from the rear needs 37 - 15 + 25 = 47 ft.
describe("the length of a power cord (NEC 551.46, read)", () => {
  const coach = (inlet: number, cord: number): FitResult => {
    const tyres: RigInput["supports"] = [[3000, 1000], [3000, -1000], [10_000, 1000], [10_000, -1000]].map((at) => ({ kind: "tyre", at: at as [number, number] }));
    const rig = rigWith({
      kind: "class-a", hitch: null, body: { length: 40 * FOOT, width: 2400, height: 3600, floor: 300 }, supports: tyres,
      inlets: [{ kind: "power", side: "left", u: inlet * FOOT, height: 600 }], wants: ["power"], electric: { plug: 50, loads: [] }, gear: { powerCord: cord * FOOT },
    });
    // the pad lets it move 10 mm each way, its rear at x = 0, its left wall at y = 1200; the pedestal stands behind, where
    // 25 ft just reach an inlet at 15 ft
    const outline: [number, number][] = [[2840, -1160], [10_160, -1160], [10_160, 1160], [2840, 1160]];
    const along = 25 * FOOT - 600 - 700 - 30;
    const ped = { id: "ped", kind: "power" as const, at: [15 * FOOT - along, 1260] as [number, number], height: 700, receptacles: [50 as const], volts: 120 };
    return fitSite(siteWith({ entry: "pull-through", pad: { outline }, hookups: [ped] }), rig, { ...defaultPolicy, longest: { ...defaultPolicy.longest, power: 20_000 } });
  };

  it("is enough at 25 ft for an inlet 15 ft from the rear, and at 47 ft for one at 37 ft", () => {
    expect(coach(15, 25).verdict).toBe("fits");
    expect(coach(37, 47).verdict).toBe("fits");
  });

  it("falls short with 46 ft", () => {
    expect(coach(37, 46).verdict).toBe("gear");
  });
});
