import { describe, expect, it } from "vitest";
import { fitSite, headingsFor, layOut, rankSites } from "@/lib/fit";
import { policyWith, rigWith, siteWith } from "../../reference/scenes";

const wide: [number, number][] = [[0, -3000], [14_000, -3000], [14_000, 3000], [0, 3000]];

describe("the headings a rig may take", () => {
  it("are tail-in for a trailer on a back-in, both for a motorized rig", () => {
    expect(headingsFor(siteWith({}), rigWith({}))).toEqual(["tail-in"]);
    expect(headingsFor(siteWith({}), rigWith({ kind: "class-c", hitch: null }))).toEqual(["tail-in", "nose-in"]);
  });

  it("are nose-in on a pull-through, and tail-in where it may be entered from either end", () => {
    expect(headingsFor(siteWith({ entry: "pull-through" }), rigWith({}))).toEqual(["nose-in"]);
    expect(headingsFor(siteWith({ entry: "pull-through", enterFrom: "either" }), rigWith({}))).toEqual(["nose-in", "tail-in"]);
    expect(headingsFor(siteWith({ enterFrom: "either" }), rigWith({}))).toEqual(["tail-in"]);
  });
});

describe("a pad that is just wide enough", () => {
  // Tyres 2,000 apart and 150 of footing on each side: 2,300.
  const padOf = (width: number) => siteWith({ pad: { outline: [[0, -width / 2], [14_000, -width / 2], [14_000, width / 2], [0, width / 2]] } });
  const verdictAt = (width: number) => fitSite(padOf(width), rigWith({}), policyWith());

  it("fits at 2,300, touching being no fault", () => {
    const { verdict, room } = verdictAt(2300);
    expect([verdict, Math.abs(room!) < 1e-6]).toEqual(["fits", true]);
  });

  it("fits at 2,290, 5 mm short on each side, and is tight", () => {
    const { verdict, tight, room } = verdictAt(2290);
    expect([verdict, tight]).toEqual(["fits", true]);
    expect(room).toBeGreaterThanOrEqual(-5);
  });

  it("does not fit at 2,288, and says what is missing", () => {
    const { verdict, pose, best, reasons } = verdictAt(2288);
    expect([verdict, pose, best.bound < 0]).toEqual(["no", null, true]);
    expect(reasons[0]).toMatchObject({ code: "stand", parts: ["supports", "pad"] });
    expect(reasons[0]!.short).toBeCloseTo(12, 6);
  });
});

describe("the pose", () => {
  it("keeps comfortable room before a short run, then takes the short run", () => {
    const hookup = { id: "tap", kind: "water" as const, at: [9000, -2900] as [number, number], height: 500 };
    const site = siteWith({ pad: { outline: wide }, hookups: [hookup] });
    const rig = rigWith({ inlets: [{ kind: "water", side: "left", u: 2000, height: 500 }], wants: ["water"], gear: { waterHose: 15_000 } });
    const { pose, room, needs } = fitSite(site, rig, policyWith());
    expect(room).toBeGreaterThan(594);
    // Beside the tap lengthwise; across, as near as the room of 600 (within 5) to the pad's edge lets the jacks come.
    expect(Math.abs(pose!.x - 2000 - 9000)).toBeLessThan(60);
    expect(needs[0]!.route).toBeLessThan(500 + 500 + (3000 - 150 - 595 - 1000 + 1000 - 1200) + 700);
  });

  it("is the same for the same question, and every site is answered, best first", () => {
    const sites = [siteWith({ id: "small", pad: { outline: [[0, -900], [3000, -900], [3000, 900], [0, 900]] } }), siteWith({ id: "wide", pad: { outline: wide } }), siteWith({ id: "snug" })];
    const results = rankSites(sites, rigWith({}), policyWith());
    expect(results.map((r) => r.site)).toEqual(["wide", "snug", "small"]);
    expect(rankSites(sites, rigWith({}), policyWith())).toEqual(results);
  });

  it("is given up as unsettled where the budget runs out, never answered wrongly", () => {
    const { verdict, pose, reasons } = fitSite(siteWith({ pad: { outline: [[0, -1145], [14_000, -1400], [14_000, 880], [0, 1146]] } }), rigWith({}), policyWith(), { budget: 3 });
    expect([verdict, pose, reasons[0]!.code]).toEqual(["unsettled", null, "budget"]);
  });
});

describe("nice parts", () => {
  const awning = { id: "awning", kind: "awning", side: "right" as const, span: [2000, 7000] as [number, number], depth: 2500, from: 2000, to: 3000, need: "nice" as const };
  const post = { id: "lamp", kind: "lamp", at: [5000, 3400] as [number, number], radius: 60, from: 0, to: 4000 };

  it("go out where there is room, and stay in where there is none, the verdict standing", () => {
    const out = fitSite(siteWith({ pad: { outline: wide } }), rigWith({ parts: [awning] }), policyWith());
    expect([out.verdict, out.leftIn]).toEqual(["fits", []]);
    const blocked = fitSite(siteWith({ obstacles: [post] }), rigWith({ parts: [awning] }), policyWith());
    expect([blocked.verdict, blocked.leftIn]).toEqual(["fits", ["awning"]]);
    expect(blocked.reasons).toContainEqual(expect.objectContaining({ code: "left-in", parts: ["awning", "lamp"] }));
  });

  it("that must go out decide the verdict", () => {
    const must = fitSite(siteWith({ obstacles: [post] }), rigWith({ parts: [{ ...awning, need: "must" }] }), policyWith());
    expect([must.verdict, must.reasons[0]!.code]).toEqual(["no", "clear:awning:lamp"]);
  });

  it("are kept in listed order where both cannot be had", () => {
    const rear = { id: "bed", kind: "bed", side: "rear" as const, span: [-900, 900] as [number, number], depth: 1200, from: 900, to: 2000, need: "nice" as const };
    const ramp = { id: "ramp", kind: "ramp", side: "front" as const, span: [-900, 900] as [number, number], depth: 2600, from: 0, to: 900, need: "nice" as const };
    // Behind the pad a wall, in front the road: 2,000 mm to share.
    const walled = siteWith({
      pad: { outline: [[0, -3000], [13_000, -3000], [13_000, 3000], [0, 3000]] }, roadEdge: [[0, -1], [0, 1]],
      obstacles: [{ id: "wall", kind: "wall", outline: [[12_500, -4000], [12_800, -4000], [12_800, 4000], [12_500, 4000]], from: 0, to: 3000 }],
    });
    const leftIn = (parts: (typeof rear | typeof ramp)[]) => fitSite(walled, rigWith({ parts }), policyWith()).leftIn;
    expect(leftIn([rear, ramp])).toEqual(["ramp"]);
    expect(leftIn([ramp, rear])).toEqual(["bed"]);
  });
});

describe("a hitched vehicle", () => {
  const tow = { length: 4500, width: 1900, height: 1800, stays: "hitched" as const };
  it("stands ahead of a trailer and follows behind a motorized rig", () => {
    const long: [number, number][] = [[-8000, -3000], [25_000, -3000], [25_000, 3000], [-8000, 3000]];
    const site = siteWith({ entry: "pull-through", pad: { outline: long }, roadEdge: [[-9000, -1], [-9000, 1]] });
    const carOf = (rig: ReturnType<typeof rigWith>) => {
      const result = fitSite(site, rig, policyWith());
      const car = layOut(site, rig, result)!.boxes.find((b) => b.id === "tow")!;
      return Math.min(...car.outline.map(([x]) => x)) - result.pose!.x;
    };
    expect(carOf(rigWith({ tow }))).toBeCloseTo(10_000, 6); // nose-in: forward is +x
    expect(carOf(rigWith({ kind: "class-a", hitch: null, tow }))).toBeCloseTo(-4500, 6);
  });
});
