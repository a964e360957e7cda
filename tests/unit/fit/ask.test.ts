import { describe, expect, it } from "vitest";
import { rankSites, type FitResult } from "@/lib/fit";
import { parseFitRequest } from "@/lib/fit/request";
import { answerOf } from "@/lib/wording";
import { rigWith, siteWith } from "../../reference/scenes";

/** As a caller would send it: the record as data, with something unknown put in. */
function asked(site: object, rig: object): { result: FitResult; texts: readonly string[] } {
  const parsed = parseFitRequest(JSON.parse(JSON.stringify({ sites: [site], rig })));
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.faults));
  const { sites = [], rig: read, policy } = parsed.request;
  const results = rankSites(sites, read, policy, { unknowns: parsed.unknowns });
  return { result: results[0]!, texts: answerOf(results, sites, read, "metric").results[0]!.asks.map((a) => a.text) };
}

const oak = { id: "oak", kind: "tree", at: [6000, 2500], trunkRadius: 1, crownRadius: 3000, crownFrom: 3500, crownTo: 9000 };
const withHeight = (height: unknown) => { const rig = rigWith({}); return { ...rig, body: { ...rig.body, height } }; };

describe("a number that is not known", () => {
  it("is not asked about where it decides nothing", () => {
    const { result } = asked(siteWith({}), withHeight(null));
    expect([result.verdict, result.asks]).toEqual(["fits", []]);
  });

  it("is asked about where it decides, with the value at which the answer turns", () => {
    const { result, texts } = asked({ ...siteWith({}), obstacles: [oak] }, withHeight({ min: 3000, max: 3800 }));
    expect(result.verdict).toBe("ask");
    // Limbs at 3,500 want 300 of room: the rig may be 3,200 high, touching being no overlap.
    expect(result.asks).toEqual([{ field: "rig.body.height", turnsAt: 3200, below: "fits", above: "no" }]);
    expect(texts[0]).toMatch(/^Measure from the ground to the highest thing on the roof\. Under 3\.\d+.m it fits; above, it does not fit\.$/);
  });

  it("may be the site's: where the lowest limb was never measured", () => {
    const { result, texts } = asked({ ...siteWith({}), obstacles: [{ ...oak, crownFrom: null }] }, rigWith({}));
    expect(result.asks).toEqual([{ field: "site.obstacles.0.crownFrom", turnsAt: 3500, below: "no", above: "fits" }]);
    expect(texts[0]).toContain("from the ground to its lowest limb");
  });

  it("may be a typical value with a spread, and the range itself may settle it", () => {
    expect(asked({ ...siteWith({}), obstacles: [oak] }, withHeight({ typical: 3100, spread: 90 })).result.verdict).toBe("fits");
    expect(asked({ ...siteWith({}), obstacles: [oak] }, withHeight({ typical: 3300, spread: 90 })).result.verdict).toBe("no");
    expect(asked({ ...siteWith({}), obstacles: [oak] }, withHeight({ typical: 3100, spread: 200 })).result.verdict).toBe("ask");
  });

  it("is looked at between its ends too: an inlet may be out of reach on either side of the tap", () => {
    const tap = { id: "tap", kind: "water", at: [6000, -2200], height: 500 };
    const rig = rigWith({ wants: ["water"], gear: { waterHose: 2700 }, inlets: [{ kind: "water", side: "left", u: 4000, height: 500 }] });
    const { result } = asked({ ...siteWith({}), hookups: [tap] }, { ...rig, inlets: [{ ...rig.inlets[0], u: { min: 0, max: 9000 } }] });
    expect(result.verdict).toBe("ask");
    expect(result.asks[0]).toMatchObject({ field: "rig.inlets.0.u", below: "gear", above: "fits" });
  });

  it("with others takes the worst of all combinations where the verdict is the same, and its pose", () => {
    const rig = rigWith({});
    const { result } = asked(siteWith({}), { ...rig, body: { ...rig.body, height: { min: 3000, max: 3500 }, width: { min: 2300, max: 2500 } } });
    expect([result.verdict, result.pose === null]).toEqual(["fits", false]);
  });

  it("is refused where the range is upside down or not of numbers, in the same answer as other faults", () => {
    const parsed = parseFitRequest({ sites: [{ ...siteWith({}), entry: "sideways" }], rig: withHeight({ min: 4000, max: 3000 }) });
    expect(parsed.ok ? [] : parsed.faults.map((f) => f.path)).toEqual(["rig.body.height", "sites.0.entry"]);
  });

  it("still means nothing where null has a plain meaning", () => {
    const { result } = asked({ ...siteWith({}), lot: null, roadEdge: null }, { ...rigWith({}), tow: null });
    expect([result.verdict, result.asks]).toEqual(["fits", []]);
  });
});
