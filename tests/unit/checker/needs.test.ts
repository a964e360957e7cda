import { describe, expect, it } from "vitest";
import { defaultPolicy, policySchema } from "@/lib/fit/policy";
import { siteSchema, type SiteInput } from "@/lib/park/schema";
import { rigSchema, type RigInput } from "@/lib/rig/schema";
import { groundPlane, liftAsked } from "../../checker/ground";
import { headingsAllowed, rulesBroken } from "../../checker/needs";
import { loadsServed, pairsOf, suppliesOf } from "../../checker/services";
import { inLineSlack, stallsFor } from "../../checker/vehicle";

const site = (more: Partial<SiteInput> = {}) => siteSchema.parse({
  id: "s", entry: "back-in", pad: { outline: [[0, -2000], [14000, -2000], [14000, 2000], [0, 2000]] }, ground: { along: 0, across: 0 }, ...more,
});
const rig = (more: Partial<RigInput> = {}) => rigSchema.parse({
  id: "r", kind: "travel-trailer", body: { length: 6000, width: 2400, height: 3000, floor: 400 }, hitch: { length: 1000, width: 600, from: 300, to: 900 },
  supports: [{ kind: "tyre", at: [2500, 1000] }, { kind: "tyre", at: [2500, -1000] }, { kind: "jack", at: [6800, 0] }],
  inlets: [{ kind: "power", side: "left", u: 1000, height: 700 }, { kind: "sewer", side: "left", u: 2000, height: 450 }],
  gear: { powerCord: 7600, sewerHose: 4600 }, electric: { plug: 50, loads: [] }, ...more,
});
const pose = { x: 13000, y: 0, heading: "tail-in" as const };

describe("needs at a pose, by hand", () => {
  const ped = { id: "ped", kind: "power" as const, at: [9000, -4200] as [number, number], height: 900, receptacles: [30, 50] as (30 | 50)[] };

  it("adds drop, path and climb", () => {
    // inlet at (12000, -1200): 3000 along, 3000 across
    const [pair] = pairsOf(site({ hookups: [ped] }), rig(), defaultPolicy, pose, "power");
    expect(pair!.route).toBeCloseTo(700 + Math.hypot(3000, 3000) + 900, 9);
    expect(pair!.own).toBeCloseTo(7600 - pair!.route, 9);
    expect(pair!.gear).toBeCloseTo(15000 - pair!.route, 9);
  });

  it("goes around the body where the park wants it, and straight under it otherwise", () => {
    const across = { ...ped, at: [12000, 1800] as [number, number] };
    const straight = pairsOf(site({ hookups: [across] }), rig(), defaultPolicy, pose, "power")[0]!;
    expect(straight).toMatchObject({ path: 3000, under: true });
    const around = pairsOf(site({ hookups: [across] }), rig(), policySchema.parse({ underBody: ["water"] }), pose, "power")[0]!;
    // 1000 to the rear corner (13000, -1200), 2400 across the rear, then to the post
    expect(around.path).toBeCloseTo(1000 + 2400 + Math.hypot(1000, 600), 9);
    expect(around.under).toBe(false);
  });

  it("measures a drain's fall on sloping ground and down a bank", () => {
    const drain = { id: "drain", kind: "sewer" as const, at: [11000, -4200] as [number, number], height: 60 };
    const slope = { along: 0, across: 2 };
    // the outlet stands at y = -1200 (ground -24), the drain at y = -4200 (ground -84)
    const plain = pairsOf(site({ hookups: [drain], ground: slope }), rig(), defaultPolicy, pose, "sewer")[0]!;
    expect(plain.fall!.drop).toBeCloseTo(450 - 24 + 84 - 60, 9);
    expect(plain.fall!.needed).toBeCloseTo(3000 / 48, 9);
    expect(plain.route).toBeCloseTo(Math.hypot(3000, 390), 9);
    const bank = pairsOf(site({ hookups: [{ ...drain, groundZ: -300 }], ground: slope }), rig(), defaultPolicy, pose, "sewer")[0]!;
    expect(bank.fall!.drop).toBeCloseTo(450 - 24 + 300 - 60, 9);
  });

  it("takes its own plug, or one adapter; the smaller rating and its legs count", () => {
    const hookup = site({ hookups: [ped] }).hookups[0]!;
    const ways = suppliesOf(rig({ gear: { adapters: ["50-to-30"] } }), defaultPolicy, hookup);
    expect(ways).toEqual([
      { hookup: "ped", receptacle: 30, through: "50-to-30", owned: true, supplyVa: 3600, usableVa: 2880 },
      { hookup: "ped", receptacle: 50, through: null, owned: true, supplyVa: 12000, usableVa: 9600 },
    ]);
    const small = rig({ electric: { plug: 30, loads: [{ id: "a", va: 2881, need: "must" }] } });
    expect(suppliesOf(small, defaultPolicy, hookup)).toEqual([]);
  });

  it("sheds nice loads in listed order", () => {
    const loads = [{ id: "a", va: 1500, need: "nice" as const }, { id: "b", va: 1000, need: "must" as const }, { id: "c", va: 1000, need: "nice" as const }, { id: "d", va: 300, need: "nice" as const }];
    expect(loadsServed(rig({ electric: { plug: 30, loads } }), 2880)).toEqual({ runs: ["a", "b", "d"], shed: ["c"] });
  });
});

describe("what is wanted anyhow, by hand", () => {
  it("asks for lift beyond the tolerance only, by kind of rig", () => {
    expect(liftAsked(site({ ground: { along: 0.9, across: -0.9 } }), rig(), defaultPolicy)).toEqual({ side: 0, along: 0 });
    const sloping = site({ ground: { along: -2, across: 1 } });
    expect(liftAsked(sloping, rig(), defaultPolicy)).toEqual({ side: 20, along: 86 });
    const supports = [[1500, 900], [1500, -900], [5500, 900], [5500, -900]].map((at) => ({ kind: "tyre" as const, at: at as [number, number] }));
    expect(liftAsked(sloping, rig({ kind: "class-c", supports }), defaultPolicy)).toEqual({ side: 18, along: 80 });
  });

  it("lays the least-squares plane through spot heights", () => {
    const flat = groundPlane(site({ ground: { heights: [[0, 0, 10], [1000, 0, 30], [1000, 1000, 40], [0, 1000, 20]] } }));
    expect(flat.along).toBeCloseTo(2, 9);
    expect(flat.across).toBeCloseTo(1, 9);
    expect(flat.worstResidual).toBeCloseTo(0, 9);
    const bent = groundPlane(site({ ground: { heights: [[0, 0, 4], [1000, 0, 0], [1000, 1000, 4], [0, 1000, 0]] } }));
    expect(bent).toMatchObject({ along: 0, across: 0 });
    expect(bent.worstResidual).toBeCloseTo(2, 9);
  });

  it("knows which headings a rig may take", () => {
    expect(headingsAllowed(site(), rig())).toEqual(["tail-in"]);
    expect(headingsAllowed(site(), rig({ kind: "van" }))).toHaveLength(2);
    expect(headingsAllowed(site({ entry: "pull-through" }), rig())).toEqual(["nose-in"]);
    expect(headingsAllowed(site({ entry: "pull-through", enterFrom: "either" }), rig())).toHaveLength(2);
  });

  it("names broken rules", () => {
    const s = site({ rules: { maxLength: 6999, maxGuests: 2, maxVehicles: 0, pets: false, tents: 0, accessible: true } });
    const party = { adults: 2, children: 1, pets: 1, tents: 1, accessible: false };
    const tow = { length: 5000, width: 2000, height: 1900, stays: "on-site" as const };
    expect(rulesBroken(s, rig({ party, tow }), defaultPolicy)).toEqual(["rule:maxLength", "rule:maxGuests", "rule:maxVehicles", "rule:pets", "rule:tents", "rule:accessible"]);
    expect(rulesBroken(site(), rig({ party: { accessible: true } }), defaultPolicy)).toEqual(["rule:accessible"]);
  });

  it("stands a vehicle in line at the road end, or in a stall along its longer side", () => {
    const tow = { length: 5000, width: 2000, height: 1900, stays: "on-site" as const };
    // the hitch ends at x = 6000; 300 further, then 5000: from 700 to 5700
    expect(inLineSlack(site(), rig({ tow }), defaultPolicy, pose, [], "strict")).toBe(700);
    expect(inLineSlack(site(), rig({ tow }), defaultPolicy, { ...pose, x: 12299 }, [], "strict")).toBe(-1);
    const stall = (dx: number, dy: number) => ({ id: "p", outline: [[0, 3000], [dx, 3000], [dx, 3000 + dy], [0, 3000 + dy]] as [number, number][] });
    expect(stallsFor(site({ parking: [stall(2200, 5400)] }), rig({ tow }))).toEqual([{ id: "p", slack: 100 }]);
    expect(stallsFor(site({ parking: [stall(5400, 1900)] }), rig({ tow }))).toEqual([{ id: "p", slack: -50 }]);
  });
});
