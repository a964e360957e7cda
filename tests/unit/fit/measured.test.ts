import { describe, expect, it } from "vitest";
import { defaultPolicy, fitSite, rankSites } from "@/lib/fit";
import { siteSchema, type MeasurementInput } from "@/lib/park";
import { rigSchema } from "@/lib/rig";

/** A motorhome 8 m long and 2.4 m wide that needs nothing: on its pad it has 4 m to spare lengthwise, and what stands beside decides. */
const rig = rigSchema.parse({
  id: "motorhome", kind: "class-c", body: { length: 8000, width: 2400, height: 3200, floor: 300 }, hitch: null,
  supports: [{ kind: "tyre", at: [1500, 1000] }, { kind: "tyre", at: [1500, -1000] }, { kind: "tyre", at: [6500, 1000] }, { kind: "tyre", at: [6500, -1000] }],
  parts: [], inlets: [], wants: [], gear: { powerCord: 7600, waterHose: 7600, sewerHose: 3000, liftSide: 60, liftAlong: 200 },
});
const bare = { id: "a1", entry: "back-in", pad: { outline: [[0, -1300], [12_000, -1300], [12_000, 1300], [0, 1300]] }, ground: { along: 0, across: 0 } } as const;
const measured = (of: string, error: number, how: MeasurementInput["how"] = "pole"): MeasurementInput => ({ id: of, of, how, error, on: "2026-05-04" });
const site = (more: object, ...measurements: MeasurementInput[]) => siteSchema.parse({ ...bare, ...more, survey: { measurements } });
/** A limb over the whole pad: with 300 mm of room it lets 3200 pass from 3500 on. */
const limb = (crownFrom: number) => ({ obstacles: [{ id: "oak", kind: "tree", at: [6000, 9000], trunkRadius: 200, crownRadius: 20_000, crownFrom, crownTo: 12_000 }] });

describe("a limb measured with an error", () => {
  it("that could hang too low makes a fit one to ask about, and says at which height it turns", () => {
    const result = fitSite(site(limb(3540), measured("obstacles.oak.crownFrom", 25)), rig);
    expect(result.verdict).toBe("ask");
    expect(result.asks).toEqual([{ field: "site.obstacles.0.crownFrom", turnsAt: 3500, below: "no", above: "fits" }]);
    expect(result.pose).not.toBeNull();
  });

  it("that could hang high enough makes a refusal one to ask about", () => {
    const result = fitSite(site(limb(3460), measured("obstacles.oak.crownFrom", 25)), rig);
    expect(result.verdict).toBe("ask");
    expect(result.asks).toEqual([{ field: "site.obstacles.0.crownFrom", turnsAt: 3500, below: "no", above: "fits" }]);
    expect(result.conflicts).toEqual([]);
  });

  it("beyond two standard errors changes nothing, nor does a measurement said to be exact, nor one of another thing", () => {
    for (const one of [measured("obstacles.oak.crownFrom", 19), measured("obstacles.oak.crownFrom", 0), measured("obstacles.oak.crownTo", 500)]) {
      expect(fitSite(site(limb(3540), one), rig)).toEqual(fitSite(site(limb(3540)), rig));
    }
    expect(fitSite(site(limb(3460), measured("obstacles.oak.crownFrom", 19)), rig)).toEqual(fitSite(site(limb(3460)), rig));
  });

  it("counts by its latest measurement", () => {
    const twice = [measured("obstacles.oak.crownFrom", 25), { ...measured("obstacles.oak.crownFrom", 10), id: "again", on: "2026-06-01" }];
    expect(fitSite(site(limb(3540), ...twice), rig).verdict).toBe("fits");
  });
});

describe("other numbers measured with an error", () => {
  const between = (gap: number) => ({ obstacles: [1, -1].map((side) => ({ id: side > 0 ? "left" : "right", kind: "rock", at: [6000, side * (gap / 2 + 500)], radius: 500, from: 0, to: 1000 })) });

  it("two rocks the rig just passes between: where either stands decides", () => {
    const result = fitSite(site(between(2720), measured("obstacles.left.at", 20, "tape"), measured("obstacles.right.at", 5, "tape")), rig);
    expect(result.verdict).toBe("ask");
    expect(result.asks.map(({ field }) => field)).toEqual(["site.obstacles.0.at.1"]);
  });

  it("a slope: only what to bring hangs on it, so that the verdict stays and the number is named", () => {
    const result = fitSite(site({ ground: { along: 0, across: 2.9 } }, measured("ground", 0.2, "inclinometer")), rig);
    expect(result.verdict).toBe("fits");
    expect(result.asks).toEqual([{ field: "site.ground.across", turnsAt: expect.closeTo(3, 2), below: "fits", above: "gear" }]);
  });

  it("a slope given by spot heights is asked for as a slope", () => {
    const heights = [[0, -1000, -29], [0, 1000, 29], [9000, -1000, -29], [9000, 1000, 29]];
    expect(fitSite(site({ ground: { heights } }, measured("ground", 0.2, "spot-heights")), rig).asks).toEqual([{ field: "site.ground.across", turnsAt: expect.closeTo(3, 2), below: "fits", above: "gear" }]);
  });

  it("a pad that hardly holds the tires", () => {
    const pad = { outline: [[0, -1200], [5400, -1200], [5400, 1200], [0, 1200]] }, roadEdge = [[-6000, -3000], [-6000, 3000]];
    const result = fitSite(site({ pad, roadEdge }, measured("pad", 90, "tape")), rig);
    expect(result.verdict).toBe("ask");
    expect(result.asks.every(({ field }) => field.startsWith("site.pad.outline."))).toBe(true);
  });

  it("a rule stands against the rig whatever was measured", () => {
    const refused = site({ ...limb(3460), rules: { maxLength: 7000 } }, measured("obstacles.oak.crownFrom", 25));
    expect(fitSite(refused, rig)).toMatchObject({ verdict: "no", asks: [] });
  });

  it("take their place in the order of a ranking", () => {
    const sure = site({ id: "sure" }), open = site({ ...limb(3540), id: "open" }, measured("obstacles.oak.crownFrom", 25)), shut = site({ ...limb(3000), id: "shut" });
    expect(rankSites([shut, open, sure], rig, defaultPolicy).map((result) => [result.site, result.verdict])).toEqual([["sure", "fits"], ["open", "ask"], ["shut", "no"]]);
  });
});
