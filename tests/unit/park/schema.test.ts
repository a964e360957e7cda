import { describe, expect, it } from "vitest";
import { siteSchema } from "@/lib/park";
import { rigSchema } from "@/lib/rig";

const paths = (result: { error?: { issues: { path: PropertyKey[]; message: string }[] } }) => result.error?.issues.map((i) => i.path.join(".")) ?? [];
const pad = { outline: [[0, -1800], [9000, -1800], [9000, 1800], [0, 1800]] };
const level = { along: 0, across: 0 };

describe("a site that is wrong", () => {
  it("is answered with every fault at once, each with its field", () => {
    const result = siteSchema.safeParse({
      id: "", entry: "sideways", pad: { outline: [[0, 0], [10, 10], [0, 10], [10, 0]] }, ground: { along: "steep", across: 0 },
      obstacles: [{ id: "oak", kind: "tree", at: [1, 2] }, { id: "oak", kind: "rock", from: 500, to: 100 }],
      hookups: [{ id: "ped", kind: "power", at: [0, 0], height: 900, postRadius: 100 }, { id: "gas", kind: "gas", at: [0, 0], height: 0 }],
    });
    expect(paths(result)).toEqual(expect.arrayContaining([
      "id", "entry", "pad.outline", "ground.along", "obstacles.0.trunkRadius", "obstacles.0.crownTo", "obstacles.1.outline", "obstacles.1.to", "obstacles.1.id",
      "hookups.0.receptacles", "hookups.0.postHeight", "hookups.1.kind",
    ]));
  });

  it("cannot have NaN, a slope steeper than 100 per cent, spot heights on one line, or a road of one point", () => {
    expect(paths(siteSchema.safeParse({ id: "a", entry: "back-in", pad, ground: { along: NaN, across: 101 } }))).toEqual(expect.arrayContaining(["ground.along", "ground.across"]));
    expect(paths(siteSchema.safeParse({ id: "a", entry: "back-in", pad, ground: { heights: [[0, 0, 0], [1, 1, 5], [2, 2, 9]] } }))).toEqual(["ground.heights"]);
    expect(paths(siteSchema.safeParse({ id: "a", entry: "back-in", pad, ground: level, roadEdge: [[0, 0], [0, 0]] }))).toEqual(["roadEdge"]);
  });

  it("may leave out or write null for whatever has a plain meaning", () => {
    const site = siteSchema.parse({ id: "a", entry: "back-in", pad, ground: level, lot: null, roadEdge: null, exitEdge: null, place: null, parking: null, loop: null, rules: { maxLength: null } });
    expect(site).toMatchObject({ obstacles: [], hookups: [] });
    expect(site.lot).toBeUndefined();
  });
});

describe("a way in", () => {
  const site = (approach: unknown, more: object = {}) => siteSchema.safeParse({ id: "a", entry: "back-in", pad, ground: level, approach, ...more });

  it("may be left out or null, and has plain defaults", () => {
    expect(site(null).data?.approach).toBeUndefined();
    expect(site({ road: { centreline: [[-4000, 9000], [-4000, -9000]], width: 5000 } }).data?.approach).toEqual({
      road: { centreline: [[-4000, 9000], [-4000, -9000]], width: 5000, traffic: "both" }, driveable: [], heightLimits: [], gradeBreaks: [],
    });
  });

  it("is answered with every fault at once, each with its field", () => {
    const result = site({
      road: { centreline: [[0, 0], [0, 0]], width: 5, traffic: "north" }, exitRoad: { centreline: [[9, 9]], width: 4000 }, driveable: [[[0, 0], [1, 1]]],
      heightLimits: [{ id: "oak", kind: "limb", across: [[0, 0], [0, 0]], height: -1 }], gradeBreaks: [{ at: 0, change: 300 }],
    }, { obstacles: [{ id: "oak", kind: "rock", at: [0, 0], radius: 100, from: 0, to: 300 }] });
    expect(paths(result)).toEqual(expect.arrayContaining([
      "approach.road.centreline.1", "approach.road.width", "approach.road.traffic", "approach.exitRoad.centreline", "approach.exitRoad", "approach.driveable.0",
      "approach.heightLimits.0.across", "approach.heightLimits.0.height", "approach.heightLimits.0.id", "approach.gradeBreaks.0.change",
    ]));
  });

  it("may have heights that nobody measured", () => {
    expect(site({ road: { centreline: [[-4000, 9000], [-4000, -9000]], width: 5000 }, heightLimits: [{ id: "line", kind: "wire", across: [[-1000, 3000], [-1000, -3000]], height: null }] }).data?.approach?.heightLimits[0]?.height).toBeUndefined();
  });
});

describe("a rig that is wrong", () => {
  it("is answered with every fault at once, each with its field", () => {
    const result = rigSchema.safeParse({
      id: "rig", kind: "bus", body: { length: -1, width: 2400, height: 300, floor: 400 }, supports: [{ kind: "jack", at: [0, 0] }], wants: ["power"],
      parts: [{ id: "body", kind: "slide", side: "left", span: [5, 1], depth: 100, from: 900, to: 100, need: "must" }],
      inlets: [{ kind: "water", side: "left", height: 500 }, { kind: "water", side: "rear", height: 500 }], gear: { adapters: ["50-30"] },
    });
    expect(paths(result)).toEqual(expect.arrayContaining([
      "kind", "body.length", "body.floor", "supports", "electric", "parts.0.id", "parts.0.span", "parts.0.to", "inlets.0.u", "inlets.1.v", "gear.adapters.0",
    ]));
  });
});
