import { describe, expect, it } from "vitest";
import { defaultPolicy } from "@/lib/fit/policy";
import { siteSchema, type SiteInput } from "@/lib/park/schema";
import { rigSchema, type RigInput } from "@/lib/rig/schema";
import { slacks } from "../../checker/slacks";

/** A box of a trailer, 6 m by 2.4 m, on a pad of 12 m by 4 m, standing in its middle with the hitch to the road. */
const site = (more: Partial<SiteInput> = {}) => siteSchema.parse({
  id: "s", entry: "back-in", pad: { outline: [[0, -2000], [12000, -2000], [12000, 2000], [0, 2000]] }, ground: { along: 0, across: 0 }, ...more,
});
const rig = (more: Partial<RigInput> = {}) => rigSchema.parse({
  id: "r", kind: "travel-trailer", body: { length: 6000, width: 2400, height: 3000, floor: 400 },
  hitch: { length: 1000, width: 600, from: 300, to: 900 },
  supports: [{ kind: "tyre", at: [2500, 1000] }, { kind: "tyre", at: [2500, -1000] }, { kind: "jack", at: [6800, 0] }], ...more,
});
const pose = { x: 9000, y: 0, heading: "tail-in" as const };
const at = (s: Partial<SiteInput>, r: Partial<RigInput> = {}, nice: string[] = []) =>
  Object.fromEntries(slacks(site(s), rig(r), defaultPolicy, pose, nice).map((x) => [x.id, x.slack]));

describe("hard constraints at a pose, by hand", () => {
  it("keeps supports a footing inside the pad", () => {
    // tyres at y = ±1000, the tongue jack at x = 2200: 1000 to the sides less 150
    expect(at({})).toMatchObject({ stand: 850 });
  });

  it("keeps everything behind a road edge, square or skew", () => {
    // the hitch ends at x = 9000 - 7000 = 2000
    expect(at({})).toMatchObject({ road: 2000 });
    // a road at 45 degrees through the origin: body corner (3000, -1200) against x + y = 0, hitch (2000, -300)
    const { road } = at({ roadEdge: [[1000, -1000], [-1000, 1000]] });
    expect(road).toBeCloseTo(Math.min(1700, 1800) / Math.SQRT2, 9);
  });

  it("holds the far road of a pull-through, and a nice part by its own id", () => {
    const s = { entry: "pull-through" as const, enterFrom: "either" as const, exitEdge: [[9500, -1], [9500, 1]] as [[number, number], [number, number]] };
    const part = { id: "bed", kind: "bed", side: "rear" as const, span: [-900, 900] as [number, number], depth: 800, from: 800, to: 1500, need: "nice" as const };
    expect(at(s)).toMatchObject({ road: 500 });
    expect(at(s, { parts: [part] }, ["bed"])).toMatchObject({ road: 500, "road:bed": -300 });
    expect(at(s, { parts: [{ ...part, need: "must" }] })).toMatchObject({ road: -300 });
  });

  it("places parts by side: left of a tail-in rig is to the right of someone looking in", () => {
    const slide = { id: "slide", kind: "slide", side: "left" as const, span: [1000, 3000] as [number, number], depth: 800, from: 800, to: 2500, need: "must" as const };
    const rock = { id: "rock", kind: "rock", at: [7000, -2500] as [number, number], radius: 300, from: 0, to: 1000 };
    // slide reaches to y = -2000: 500 to the centre, less 300 and 150
    expect(at({ obstacles: [rock] }, { parts: [slide] })).toMatchObject({ "clear:slide:rock": 50, "clear:body:rock": 850 });
    expect(at({ obstacles: [{ ...rock, at: [7000, 2500] }] }, { parts: [slide] })["clear:slide:rock"]).toBe(2500 + 1200 - 450);
  });

  it("counts touching heights as no overlap, and what levelling raises", () => {
    const shelter = { id: "shelter", kind: "shelter", outline: [[3000, 1300], [9000, 1300], [9000, 3000], [3000, 3000]] as [number, number][], from: 3075, to: 4000 };
    expect(at({ obstacles: [shelter] })).not.toHaveProperty("clear:body:shelter");
    expect(at({ obstacles: [{ ...shelter, from: 3074 }] })).toMatchObject({ "clear:body:shelter": -50 });
    // 1 per cent across a 2000 spread asks for 20
    expect(at({ obstacles: [shelter], ground: { along: 0, across: 1 } })).toMatchObject({ "clear:body:shelter": -50 });
  });

  it("counts a tree once, and its crown only where limbs come into reach", () => {
    const tree = { id: "oak", kind: "tree", at: [6000, 3000] as [number, number], trunkRadius: 300, crownRadius: 2500, crownFrom: 3300, crownTo: 9000 };
    expect(at({ obstacles: [tree] })).toMatchObject({ "clear:body:oak": 1800 - 300 - 150 });
    expect(at({ obstacles: [{ ...tree, crownFrom: 3299 }] })).toMatchObject({ "clear:body:oak": 1800 - 2500 - 150 });
  });

  it("keeps wires at their own room and clearance, an awning from a fire ring at any height", () => {
    const wire = { id: "wire", kind: "wire", outline: [[0, 2500], [12000, 2500], [12000, 2550], [0, 2550]] as [number, number][], from: 4399, to: 4450 };
    expect(at({ obstacles: [wire] })).toMatchObject({ "clear:body:wire": 1300 - 900 });
    expect(at({ obstacles: [{ ...wire, from: 4400 }] })).not.toHaveProperty("clear:body:wire");
    const awning = { id: "awning", kind: "awning", side: "right" as const, span: [1000, 5000] as [number, number], depth: 2000, from: 2000, to: 2800, need: "must" as const };
    const ring = { id: "fire", kind: "fire-ring", at: [6000, 6700] as [number, number], radius: 500, from: 0, to: 300 };
    expect(at({ obstacles: [ring] }, { parts: [awning] })).toMatchObject({ "clear:awning:fire": 0 });
  });

  it("lets tyres touch a wheel stop and nothing else that is low", () => {
    const low = { id: "low", kind: "wheel-stop", outline: [[7000, -900], [7200, -900], [7200, 900], [7000, 900]] as [number, number][], from: 0, to: 150 };
    expect(at({ obstacles: [low] })).not.toHaveProperty("clear:supports:low");
    // the tyres stand at x = 6500
    const rock = at({ obstacles: [{ ...low, kind: "rock" }] })["clear:supports:low"];
    expect(rock).toBeCloseTo(Math.hypot(500, 100) - 150, 9);
    expect(at({ obstacles: [{ ...low, kind: "branch", from: 475, to: 600 }] })).not.toHaveProperty("clear:supports:low");
  });

  it("lets no hookup lie under the body, and keeps posts at the clearance", () => {
    const drain = { id: "drain", kind: "sewer" as const, at: [6000, -1100] as [number, number], height: 0 };
    expect(at({ hookups: [drain] })).toMatchObject({ "clear:body:drain": -100 });
    const ped = { id: "ped", kind: "power" as const, at: [6000, -1800] as [number, number], height: 900, receptacles: [30 as const], postRadius: 150, postHeight: 1200 };
    expect(at({ hookups: [ped] })).toMatchObject({ "clear:body:ped": 300 });
    // a post lower than the floor less headroom is beside the body only in plan
    expect(at({ hookups: [{ ...ped, postHeight: 325 }] })).toMatchObject({ "clear:body:ped": 600 });
  });

  it("measures the lot for every part, and a hitched vehicle as one", () => {
    const lot = { outline: [[0, -3000], [9500, -3000], [9500, 3000], [0, 3000]] as [number, number][] };
    const tow = { length: 5000, width: 2000, height: 1900, stays: "hitched" as const, overlap: 1000 };
    // ahead of body and hitch, 1000 of it underneath: from x = 9000 - 6000 to 9000 - 11000
    expect(at({ lot }, { tow })).toMatchObject({ "lot:body": 500, "lot:hitch": 2000, "lot:tow": -2000, road: -2000 });
  });
});
