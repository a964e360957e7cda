import { describe, expect, it } from "vitest";
import { defaultPolicy, fitSite, type FitResult } from "@/lib/fit";
import { siteSchema } from "@/lib/park/schema";
import { rigSchema } from "@/lib/rig/schema";
import { checkResult } from "../../checker/check-result";
import { disagreements } from "../../checker/disagree";

const site = siteSchema.parse({
  id: "s", entry: "back-in", pad: { outline: [[0, -2000], [13000, -2000], [13000, 2000], [0, 2000]] }, ground: { along: 0, across: 1 },
  obstacles: [{ id: "rock", kind: "rock", at: [9000, 2600], radius: 400, from: 0, to: 900 }],
  hookups: [{ id: "ped", kind: "power", at: [4500, -2400], height: 900, receptacles: [30], volts: 120, postRadius: 150, postHeight: 1300 }],
});
const rig = rigSchema.parse({
  id: "r", kind: "travel-trailer", body: { length: 8000, width: 2400, height: 3200, floor: 400 }, hitch: { length: 1000, width: 600, from: 300, to: 900 },
  supports: [{ kind: "tyre", at: [3500, 1000] }, { kind: "tyre", at: [3500, -1000] }, { kind: "jack", at: [8600, 0] }],
  parts: [{ id: "door", kind: "entry", side: "right", span: [5000, 5800], depth: 700, from: 0, to: 2000, need: "nice" }],
  inlets: [{ kind: "power", side: "left", u: 1000, height: 700 }], wants: ["power"], gear: { powerCord: 7600, liftSide: 50 },
  electric: { plug: 50, loads: [{ id: "air", va: 1500, need: "nice" }] },
});
const good = fitSite(site, rig, defaultPolicy);

/** Each of these is a lie that the checker has to notice. */
const lies: Record<string, (r: FitResult) => FitResult> = {
  "a pose moved by a hand": (r) => ({ ...r, pose: { ...r.pose!, y: r.pose!.y + 100 } }),
  "a heading that is not allowed": (r) => ({ ...r, pose: { ...r.pose!, heading: "nose-in" } }),
  "more room than there is": (r) => ({ ...r, room: r.room! + 1 }),
  "a tight flag": (r) => ({ ...r, tight: !r.tight }),
  "a better verdict": (r) => ({ ...r, verdict: "fits" }),
  "a shorter run": (r) => ({ ...r, needs: r.needs.map((n) => ({ ...n, route: n.route! - 1 })) }),
  "own gear that it has not": (r) => ({ ...r, needs: r.needs.map((n) => ({ ...n, ok: "own" })) }),
  "nothing to bring": (r) => ({ ...r, bring: [] }),
  "another supply": (r) => ({ ...r, power: { ...r.power!, supplyVa: 12_000 } }),
  "a load that is shed": (r) => ({ ...r, power: { ...r.power!, runs: [], shed: ["air"] } }),
  "less lift": (r) => ({ ...r, level: { ...r.level, side: 0 } }),
  "a vehicle": (r) => ({ ...r, vehicle: "in line" }),
  "a bound below the room": (r) => ({ ...r, best: { room: r.best.room, bound: r.best.room - 1 } }),
  "an open gap": (r) => ({ ...r, best: { room: r.best.bound - 6, bound: r.best.bound } }),
  "a score beyond 100": (r) => ({ ...r, score: 101 }),
  "a line drawn elsewhere": (r) => ({ ...r, needs: r.needs.map((n) => ({ ...n, line: [...n.line].reverse() })) }),
  "a limit that does not limit": (r) => ({ ...r, limit: { ...r.limit!, slack: r.limit!.slack + 1 } }),
};

describe("the checker", () => {
  it("accepts a true answer", () => {
    expect(good.verdict).toBe("gear");
    expect(checkResult(site, rig, defaultPolicy, good)).toEqual([]);
    expect(disagreements(site, rig, defaultPolicy, good, 300, true)).toEqual([]);
  });

  for (const [what, lie] of Object.entries(lies)) {
    it(`notices ${what}`, () => expect(checkResult(site, rig, defaultPolicy, lie(good))).not.toEqual([]));
  }

  it("sweeps up a no where something holds, a part left in for nothing, and a bound that is passed", () => {
    const refused: FitResult = { ...good, verdict: "no", pose: null, room: null };
    expect(disagreements(site, rig, defaultPolicy, refused, 300, false)).not.toEqual([]);
    expect(disagreements(site, rig, defaultPolicy, { ...good, leftIn: ["door"] }, 300, false)).not.toEqual([]);
    const low = { room: good.best.room - 100, bound: good.best.bound - 100 };
    expect(disagreements(site, rig, defaultPolicy, { ...good, best: low }, 300, true)).not.toEqual([]);
  });
});
