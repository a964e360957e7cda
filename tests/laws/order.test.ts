import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { rankSites, scoreOf } from "@/lib/fit";
import { scenes } from "../scenes/random-scene";

const SEED = 20_260_118;
const worth = { fits: 0, gear: 1, ask: 2, unsettled: 3, no: 4 } as const;
type Input = Parameters<typeof scoreOf>[0];

describe("sites in order", () => {
  it("returns every site once: fits, gear, ask, unsettled, no, and the better score first", () => {
    fc.assert(fc.property(fc.array(scenes(), { minLength: 1, maxLength: 8 }), (list) => {
      const { rig, policy } = list[0]!;
      const sites = list.map((s, i) => ({ ...s.site, id: `site-${i}` }));
      const results = rankSites(sites, rig, policy);
      expect(results.map((r) => r.site).sort()).toEqual(sites.map((s) => s.id).sort());
      results.slice(1).forEach((r, i) => {
        const before = results[i]!;
        expect(worth[before.verdict]).toBeLessThanOrEqual(worth[r.verdict]);
        if (before.verdict === r.verdict) expect(before.score).toBeGreaterThanOrEqual(r.score);
      });
    }), { seed: SEED, numRuns: 30 });
  });

  it("does not depend on the order the sites came in", () => {
    fc.assert(fc.property(fc.array(scenes(), { minLength: 2, maxLength: 5 }), (list) => {
      const { rig, policy } = list[0]!;
      const sites = list.map((s, i) => ({ ...s.site, id: `site-${i}` }));
      expect(rankSites([...sites].reverse(), rig, policy)).toEqual(rankSites(sites, rig, policy));
    }), { seed: SEED + 1, numRuns: 15 });
  });
});

describe("the score", () => {
  const mm = (max: number) => fc.double({ min: 0, max, noNaN: true });
  const run = fc.record({ route: fc.option(mm(30_000)), longest: fc.double({ min: 1, max: 30_000, noNaN: true }), own: fc.boolean() });
  const input: fc.Arbitrary<Input> = fc.record({
    room: fc.double({ min: -3000, max: 3000, noNaN: true }), comfort: mm(2000), runs: fc.array(run, { maxLength: 3 }),
    side: mm(500), along: mm(800), maxSide: mm(400), maxAlong: mm(800), loads: fc.nat(6), loadsServed: fc.nat(6),
    niceParts: fc.nat(5), nicePartsOut: fc.nat(5), wishes: fc.nat(4), wishesMet: fc.nat(4),
  }).map((i) => ({ ...i, loadsServed: Math.min(i.loads, i.loadsServed), nicePartsOut: Math.min(i.niceParts, i.nicePartsOut), wishesMet: Math.min(i.wishes, i.wishesMet) }));
  const by = mm(2000);

  const improvements: Record<string, (i: Input, d: number) => Input> = {
    "more room": (i, d) => ({ ...i, room: i.room + d }),
    "a shorter run": (i, d) => ({ ...i, runs: i.runs.map((r, k) => (k === 0 && r.route !== null ? { ...r, route: Math.max(0, r.route - d) } : r)) }),
    "a service that can be had": (i, d) => ({ ...i, runs: i.runs.map((r) => (r.route === null ? { ...r, route: d } : r)) }),
    "own gear instead of brought": (i) => ({ ...i, runs: i.runs.map((r) => ({ ...r, own: true })) }),
    "less lift sideways": (i, d) => ({ ...i, side: Math.max(0, i.side - d) }),
    "less lift lengthwise": (i, d) => ({ ...i, along: Math.max(0, i.along - d) }),
    "more loads served": (i) => ({ ...i, loadsServed: Math.min(i.loads, i.loadsServed + 1) }),
    "more nice parts out": (i) => ({ ...i, nicePartsOut: Math.min(i.niceParts, i.nicePartsOut + 1) }),
    "more wishes met": (i) => ({ ...i, wishesMet: Math.min(i.wishes, i.wishesMet + 1) }),
  };
  for (const [what, improve] of Object.entries(improvements)) {
    it(`is never lowered by ${what}`, () => {
      fc.assert(fc.property(input, by, (i, d) => {
        const before = scoreOf(i), after = scoreOf(improve(i, d));
        expect(after).toBeGreaterThanOrEqual(before);
        expect(before).toBeGreaterThanOrEqual(0);
        expect(after).toBeLessThanOrEqual(100);
      }), { seed: SEED + 2, numRuns: 400 });
    });
  }
});
