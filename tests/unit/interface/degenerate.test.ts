import { describe, expect, it } from "vitest";
import { fitSite, rankSites, type FitResult } from "@/lib/fit";
import { parseFitRequest, type FitRequestInput } from "@/lib/fit/request";
import type { SiteInput } from "@/lib/park";
import type { RigInput } from "@/lib/rig";

/** A plain site and rig that fit, in which one thing at a time is made impossible, or merely odd. */
const site: SiteInput = {
  id: "a1", entry: "back-in", pad: { outline: [[0, -1800], [14_000, -1800], [14_000, 1800], [0, 1800]] }, ground: { along: 0, across: 0 }, obstacles: [],
  hookups: [{ id: "ped", kind: "power", at: [11_000, -2400], height: 900, receptacles: [30], postRadius: 150, postHeight: 1300 }],
};
const rig: RigInput = {
  id: "rig", kind: "travel-trailer", body: { length: 9400, width: 2440, height: 3400, floor: 400 }, hitch: { length: 1100, width: 600, from: 300, to: 900 },
  supports: [{ kind: "tyre", at: [3900, 1000] }, { kind: "tyre", at: [3900, -1000] }, { kind: "jack", at: [10_100, 0] }],
  parts: [{ id: "lounge", kind: "slide", side: "left", span: [4200, 7700], depth: 1000, from: 800, to: 2900, need: "must" }],
  inlets: [{ kind: "power", side: "left", u: 1500, height: 700 }], wants: ["power"], gear: { powerCord: 9100 }, electric: { plug: 30, loads: [] },
};
const withSite = (change: Partial<SiteInput>): FitRequestInput => ({ sites: [{ ...site, ...change }], rig });
const withPad = (outline: [number, number][]) => withSite({ pad: { outline } });
const withRig = (change: Partial<RigInput>): FitRequestInput => ({ sites: [site], rig: { ...rig, ...change } });
const withBody = (change: Partial<RigInput["body"]>) => withRig({ body: { ...rig.body, ...change } });
const rock = (id: string, at: [number, number], radius = 100) => ({ id, kind: "rock", at, radius, from: 0, to: 500 });

const refused: Record<string, readonly [request: FitRequestInput, path: string, message: RegExp]> = {
  "a pad without area": [withPad([[0, 0], [9000, 0], [18_000, 0]]), "sites.0.pad.outline", /simple outline/],
  "a pad that crosses itself": [withPad([[0, -1800], [9000, 1800], [9000, -1800], [0, 1800]]), "sites.0.pad.outline", /edges 0 and 2 cross or touch/],
  "a corner given twice": [withPad([[0, -1800], [9000, -1800], [9000, -1800], [0, 1800]]), "sites.0.pad.outline", /corners 1 and 2 are the same point/],
  "an outline closed by its first corner": [withPad([[0, -1800], [9000, -1800], [9000, 1800], [0, -1800]]), "sites.0.pad.outline", /corners 3 and 0 are the same point/],
  "a pad in metres": [withPad([[0, -1.8], [13.7, -1.8], [13.7, 1.8], [0, 1.8]]), "sites.0.pad.outline", /the pad is 13\.7 mm: were metres or feet meant/],
  "a pad in feet": [withPad([[0, -6], [450, -6], [450, 6], [0, 6]]), "sites.0.pad.outline", /is 450 mm: were feet or inches or centimetres meant/],
  "a coordinate out of this world": [withPad([[0, 0], [1e9, 0], [1e9, 5000]]), "sites.0.pad.outline.1.0", /is 1000000000 mm, more than 500 m from the origin/],
  "an obstacle nowhere": [withSite({ obstacles: [rock("r", [NaN, 0])] }), "sites.0.obstacles.0.at.0", /got NaN/],
  "an obstacle without end": [withSite({ obstacles: [rock("r", [0, 0], Infinity)] }), "sites.0.obstacles.0.radius", /got Infinity/],
  "spot heights on one line": [withSite({ ground: { heights: [[0, 0, 0], [1000, 1000, 5], [9000, 9000, 0]] } }), "sites.0.ground.heights", /one line/],
  "a posted length in metres": [withSite({ rules: { maxLength: 12.2 } }), "sites.0.rules.maxLength", /is 12\.2 mm: were metres or feet meant/],
  "a length of NaN": [withBody({ length: NaN }), "rig.body.length", /got NaN/],
  "an endless length": [withBody({ length: Infinity }), "rig.body.length", /got Infinity/],
  "a length of 1e308": [withBody({ length: 1e308 }), "rig.body.length", /must be between 1000 and 30000 mm/],
  "a negative length": [withBody({ length: -9400 }), "rig.body.length", /is -9400 mm: must be more than 0/],
  "a length in metres": [withBody({ length: 9.4 }), "rig.body.length", /is 9\.4 mm: were metres or feet meant/],
  "a length in feet": [withBody({ length: 31 }), "rig.body.length", /is 31 mm: were feet meant/],
  "millimetres taken for feet": [withBody({ length: 9400 * 304.8 }), "rig.body.length", /is 2865120 mm, that is 9400 feet: were millimetres meant/],
  "a width in feet": [withBody({ width: 8 }), "rig.body.width", /is 8 mm: were metres or feet meant/],
  "a height in metres": [withBody({ height: 3.4, floor: 0.4 }), "rig.body.height", /is 3\.4 mm: were metres or feet meant/],
  "a car in metres": [withRig({ tow: { length: 5.9, width: 2030, height: 1950, stays: "on-site" } }), "rig.tow.length", /is 5\.9 mm: were metres or feet meant/],
  "a slide past the end of the wall": [withRig({ parts: [{ ...rig.parts![0]!, span: [20_000, 24_000] }] }), "rig.parts.0.span", /lies wholly off that wall, which reaches from 0 to 10500/],
  "an inlet off the body": [withRig({ inlets: [{ kind: "power", side: "left", u: -4000, height: 700 }] }), "rig.inlets.0.u", /is -4000, more than 1000 mm off that wall/],
  "an inlet off the rear wall": [withRig({ inlets: [{ kind: "power", side: "rear", v: 9000, height: 700 }] }), "rig.inlets.0.v", /is 9000, more than 1000 mm off that wall/],
  "a range that ends in another unit": [{ sites: [site], rig: { ...rig, body: { ...rig.body, length: { min: 9.4, max: 9600 } as unknown as number } } }, "rig.body.length", /must be|is 9\.4 mm/],
  "a range without end": [{ sites: [site], rig: { ...rig, gear: { powerCord: { typical: 9100, spread: 1e300 } as unknown as number } } }, "rig.gear.powerCord", /negative|500 m/],
};

describe("what cannot be a site or a rig", () => {
  it.each(Object.entries(refused))("refuses %s, naming the field", (_what, [request, path, message]) => {
    const parsed = parseFitRequest(request);
    const faults = parsed.ok ? [] : parsed.faults.filter((f) => f.path === path);
    expect(faults.map((f) => f.message).join("\n"), JSON.stringify(parsed.ok ? [] : parsed.faults)).toMatch(message);
  });

  it("asks about every number in the wrong unit at once", () => {
    const parsed = parseFitRequest(withBody({ length: 9.4, width: 2.44, height: 3.4, floor: 0.4 }));
    expect(parsed.ok ? [] : parsed.faults.map((f) => f.path)).toEqual(["rig.body.length", "rig.body.width", "rig.body.height"]);
  });

  it("refuses more unknown numbers than anyone would look into", () => {
    const obstacles = Array.from({ length: 101 }, (_, i) => ({ ...rock(`r${i}`, [i * 100, 5000]), radius: { min: 50, max: 400 } as unknown as number }));
    const parsed = parseFitRequest(withSite({ obstacles }));
    expect(parsed.ok ? [] : parsed.faults).toEqual([{ path: "sites.0", message: "has 101 numbers that are not known: at most 100" }]);
  });
});

const odd: Record<string, readonly [request: FitRequestInput, verdict: FitResult["verdict"]]> = {
  "corners on a straight edge": [withPad([[0, -1800], [5000, -1800], [14_000, -1800], [14_000, 1800], [0, 1800]]), "fits"],
  "a pad one millimetre wide": [withPad([[0, 0], [14_000, 0], [14_000, 1], [0, 1]]), "no"],
  "a needle of a pad": [withPad([[0, 0], [14_000, 0], [14_000, 1e-6]]), "no"],
  "a pad half a kilometre off": [{ ...withPad([[480_000, 480_000], [494_000, 480_000], [494_000, 484_000], [480_000, 484_000]]), rig: { ...rig, wants: [] } }, "fits"],
  "a pad as large as a field": [withPad([[0, -150_000], [300_000, -150_000], [300_000, 150_000], [0, 150_000]]), "fits"],
  "an obstacle of no size": [withSite({ obstacles: [{ ...rock("r", [7000, 0], 0), to: 0 }] }), "fits"],
  "a thousand obstacles in one place": [withSite({ obstacles: Array.from({ length: 1000 }, (_, i) => rock(`r${i}`, [7000, 4000])) }), "fits"],
  "spot heights nearly on one line": [withSite({ ground: { heights: [[0, 0, 0], [10_000, 0, 5], [5000, 0.001, 900]] } }), "no"],
  "a rig larger than the lot": [{ ...withSite({ lot: { outline: [[0, -2000], [8000, -2000], [8000, 2000], [0, 2000]] } }) }, "no"],
  "the longest rig that is read": [withBody({ length: 30_000 }), "no"],
  "a slide of no depth": [withRig({ parts: [{ ...rig.parts![0]!, depth: 0 }] }), "fits"],
  "a slide partly past the end": [withRig({ parts: [{ ...rig.parts![0]!, span: [-200, 3000] }] }), "fits"],
  "an inlet on the bumper": [withRig({ inlets: [{ kind: "power", side: "left", u: -150, height: 700 }] }), "fits"],
  "one tyre": [withRig({ supports: [{ kind: "tyre", at: [4000, 0] }] }), "fits"],
};

describe("what is odd, and yet a site or a rig", () => {
  it.each(Object.entries(odd))("answers for %s", (_what, [request, verdict]) => {
    const parsed = parseFitRequest(request);
    if (!parsed.ok) return expect(parsed.faults).toEqual([]);
    const [answer] = rankSites(parsed.request.sites!, parsed.request.rig, parsed.request.policy);
    expect(answer!.verdict).toBe(verdict);
  });

  it("looks for a way around the body also from an inlet that stands out from it", () => {
    const parsed = parseFitRequest({ ...withRig({ inlets: [{ kind: "power", side: "left", u: -150, height: 700 }] }), policy: { underBody: [] } });
    if (!parsed.ok) return expect(parsed.faults).toEqual([]);
    expect(fitSite(parsed.request.sites![0]!, parsed.request.rig, parsed.request.policy).verdict).toBe("fits");
  });
});

/** Seconds that even a busy machine has time for. The engine takes a tenth of a second or less. */
const SOON = 10_000;

describe("much at once", () => {
  const along = (i: number) => (i * 137.5) % 16_000;
  const kinds: Record<string, (i: number) => NonNullable<SiteInput["obstacles"]>[number]> = {
    "rocks beside the pad": (i) => rock(`r${i}`, [along(i), (i % 2 ? 1 : -1) * (2400 + ((i * 61) % 2000))]),
    "rocks all over the pad": (i) => rock(`r${i}`, [along(i), ((i * 61) % 6000) - 3000]),
    "trees": (i) => ({ id: `t${i}`, kind: "tree", at: [along(i), (i % 2 ? 1 : -1) * (2600 + ((i * 61) % 3000))], trunkRadius: 100, crownRadius: 2000, crownFrom: 4200, crownTo: 9000 }),
    "tables askew": (i) => ({ id: `t${i}`, kind: "table", outline: turned(along(i), (i % 2 ? 1 : -1) * (3600 + ((i * 61) % 3000))), from: 0, to: 760 }),
  };
  it.each(Object.entries(kinds))("answers for a thousand %s", (_what, make) => {
    const parsed = parseFitRequest(withSite({ obstacles: Array.from({ length: 1000 }, (_, i) => make(i)) }));
    if (!parsed.ok) return expect(parsed.faults).toEqual([]);
    const [answer] = rankSites(parsed.request.sites!, parsed.request.rig, parsed.request.policy);
    expect(["fits", "no"]).toContain(answer!.verdict);
    expect(answer!.verdict === "no" ? answer!.conflicts.length : 1).toBeGreaterThan(0);
  }, SOON);

  it("gives up looking for what would turn a refusal where a thousand things could be carried off", () => {
    const obstacles = Array.from({ length: 1000 }, (_, i) => ({ ...rock(`r${i}`, [along(i), ((i * 61) % 6000) - 3000]), removable: true }));
    const parsed = parseFitRequest(withSite({ obstacles }));
    if (!parsed.ok) return expect(parsed.faults).toEqual([]);
    const [answer] = rankSites(parsed.request.sites!, parsed.request.rig, parsed.request.policy, { remedies: true });
    expect(answer!.verdict).toBe("no");
  }, 3 * SOON);

  it("reads and answers outlines of five hundred corners, in and out", () => {
    const star = (id: string, x: number, y: number) => ({ id, kind: "pond", outline: spiky(500, 2000, 3000, x, y), from: 0, to: 500 });
    const parsed = parseFitRequest({ ...withPad(spiky(500, 9000, 11_000, 6000, 0)), sites: [{ ...site, pad: { outline: spiky(500, 9000, 11_000, 6000, 0) }, obstacles: Array.from({ length: 20 }, (_, i) => star(`s${i}`, i * 1000, 9000)) }] });
    if (!parsed.ok) return expect(parsed.faults).toEqual([]);
    expect(rankSites(parsed.request.sites!, parsed.request.rig, parsed.request.policy)[0]!.verdict).toBe("fits");
  }, SOON);
});

function turned(x: number, y: number): [number, number][] {
  return [[x, y], [x + 1500, y + 300], [x + 1300, y + 1200], [x - 100, y + 900]];
}

/** A star with so many corners, by turns far out and near. */
function spiky(corners: number, near: number, far: number, cx: number, cy: number): [number, number][] {
  return Array.from({ length: corners }, (_, k) => {
    const angle = (2 * Math.PI * k) / corners, r = k % 2 ? near : far;
    return [Math.round(cx + r * Math.cos(angle)), Math.round(cy + r * Math.sin(angle))];
  });
}
