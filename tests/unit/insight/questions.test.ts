import { describe, expect, it } from "vitest";
import { defaultPolicy, rankSites, verdictOf, withNumbers, type Unknown } from "@/lib/fit";
import { effectsOf, questionsFrom, turnsAt, withAsks, type Turn } from "@/lib/insight/questions";
import { siteSchema, type Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { typicalRig, usualLengthOf } from "@/lib/rig/typical";
import { demoSites } from "../wording/scene";

const FOOT = 304.8;
const verdict = (site: Site, rig: Rig) => verdictOf(site, rig, defaultPolicy);
const unknown = (field: string, typical: number, spread: number): Unknown => ({ field, min: typical - spread, max: typical + spread, typical });

/** A wide pad with a wire across it at a height, and nothing else. */
const underWire = (from: number) => siteSchema.parse({
  id: "w", entry: "back-in", pad: { outline: [[0, -3000], [15000, -3000], [15000, 3000], [0, 3000]] }, ground: { along: 0, across: 0 },
  obstacles: [{ id: "wire", kind: "wire", outline: [[0, -3000], [15000, -3000], [15000, 3000], [0, 3000]], from, to: from + 50 }],
});

describe("what to measure", () => {
  const van = typicalRig("van", 20 * FOOT);

  it("is the height, under a wire, and the answer turns where the wire's room is used up", () => {
    const bare = { ...van, wants: [] };
    const height = unknown("rig.body.height", bare.body.height, 200);
    // top + wireRoom > from bars it; touching does not.
    const turns = turnsAt(underWire(bare.body.height + defaultPolicy.wireRoom + 100), bare, [height, unknown("rig.body.width", bare.body.width, 50)], verdict);
    expect(turns).toHaveLength(1);
    expect(turns[0]).toMatchObject({ field: "rig.body.height", below: "fits", above: "no", together: [] });
    expect(Math.abs(turns[0]!.turnsAt - (bare.body.height + 100))).toBeLessThanOrEqual(5);
  });

  it("is nothing where no number in its range turns the answer", () => {
    expect(turnsAt(underWire(9000), { ...van, wants: [] }, [unknown("rig.body.height", van.body.height, 200)], verdict)).toEqual([]);
  });

  it("names two numbers that turn it only together", () => {
    const narrow = siteSchema.parse({
      id: "n", entry: "back-in", pad: { outline: [[0, -2000], [15000, -2000], [15000, 2000], [0, 2000]] }, ground: { along: 0, across: 0 },
      lot: { outline: [[0, -1380], [15000, -1380], [15000, 1380], [0, 1380]] },
    });
    const rig: Rig = { ...van, wants: [], parts: [{ id: "s", kind: "slide", side: "left", span: [1000, 2000], depth: 600, from: 800, to: 2000, need: "must" }], body: { ...van.body, width: 2060 } };
    // 2060 + 600 = 2660 of 2760: 60 more of either goes in, 120 of both does not.
    const turns = turnsAt(narrow, rig, [unknown("rig.body.width", 2060, 60), unknown("rig.parts.0.depth", 600, 60)], verdict);
    expect(turns).toHaveLength(1);
    expect(turns[0]).toMatchObject({ field: "rig.parts.0.depth", below: "fits", above: "no", together: ["rig.body.width"] });
  });

  it("holds on the demo park: on either side of each turn the verdict is the one told", () => {
    const rig = typicalRig("travel-trailer", 31 * FOOT);
    const unknowns = [unknown("rig.body.height", rig.body.height, 200), unknown("rig.parts.0.depth", rig.parts[0]!.depth, 150), unknown("rig.inlets.2.u", rig.inlets[2]!.u!, 600), unknown("rig.gear.sewerHose", 3050, 3000)];
    const asked = { ...rig, wants: [...rig.wants, "sewer" as const] };
    const turns = demoSites.flatMap((site) => turnsAt(site, asked, unknowns, verdict));
    expect(turns.length).toBeGreaterThan(10);
    for (const { site: id, field, turnsAt: value, below, above, together } of turns.filter((t) => t.together.length === 0)) {
      const site = demoSites.find((s) => s.id === id)!;
      const at = (v: number) => verdict(site, withNumbers(asked, [[field, v]]));
      expect([at(value - 6), at(value + 6)], `${field} on ${id} at ${value}`).toEqual([below, above]);
      expect(together).toEqual([]);
    }
    const questions = questionsFrom(turns, unknowns);
    expect(questions.map((q) => q.decides)).toEqual(questions.map((q) => q.decides).sort((a, b) => b - a));
  });
});

describe("the order of questions", () => {
  it("puts what decides whether a rig can stand before what it has to bring", () => {
    const lift = unknown("rig.gear.liftAlong", 100, 100), width = unknown("rig.body.width", 2400, 50), floor = unknown("rig.body.floor", 300, 100);
    const turn = (site: string, field: string, below: Turn["below"], above: Turn["above"]): Turn => ({ site, field, turnsAt: 1, below, above, together: [] });
    const turns = [turn("a", lift.field, "gear", "fits"), turn("b", lift.field, "gear", "fits"), turn("c", width.field, "fits", "no"), turn("b", width.field, "fits", "gear")];
    expect(questionsFrom(turns, [lift, floor, width]).map(({ unknown: { field }, decides, brings }) => [field, decides, brings])).toEqual([[width.field, 1, 1], [lift.field, 0, 2]]);
  });

  it("never asks about what cannot decide: a part that may stay in, a line for a service that is not wanted", () => {
    const rig = { ...typicalRig("travel-trailer", 31 * FOOT), wants: ["power" as const] };
    const awning = rig.parts.findIndex(({ need }) => need === "nice"), outlet = rig.inlets.findIndex(({ kind }) => kind === "sewer");
    let asked = 0;
    const count = (site: Site, other: Rig) => { asked++; return verdict(site, other); };
    expect(turnsAt(demoSites[0]!, rig, [unknown(`rig.parts.${awning}.depth`, 2400, 300), unknown(`rig.inlets.${outlet}.u`, 3000, 600), unknown("rig.gear.sewerHose", 3000, 1500)], count)).toEqual([]);
    expect(asked).toBe(0);
  });
});

describe("what is left out of the search", () => {
  it("changes nothing: each number of the typical rigs, looked at at both ends by itself, turns the same sites", () => {
    for (const kind of ["class-c", "travel-trailer", "folding-trailer"] as const) {
      const rig: Rig = { ...typicalRig(kind, usualLengthOf(kind)), wants: ["power", "water"] };
      const unknowns = [
        unknown("rig.body.height", rig.body.height, 200), unknown("rig.body.width", rig.body.width, 50), unknown("rig.gear.waterHose", 7620, 3000), unknown("rig.gear.liftAlong", 100, 100),
        ...rig.parts.map((part, i) => unknown(`rig.parts.${i}.depth`, part.depth, 150)).filter((_, i) => rig.parts[i]!.need === "must"),
      ];
      for (const site of demoSites.filter((_, i) => i % 3 === 0)) {
        const now = verdict(site, rig);
        const plainly = unknowns.flatMap(({ field, min, max }) => [min, max].filter((end) => verdict(site, withNumbers(rig, [[field, end]])) !== now).map(() => field));
        const alone = turnsAt(site, rig, unknowns, verdict).filter(({ together }) => together.length === 0).map(({ field }) => field);
        expect(alone.sort(), `${kind} on ${site.id}`).toEqual(plainly.sort());
      }
    }
  });
});

describe("the effects of a measurement", () => {
  const height = unknown("rig.body.height", 3300, 300);
  const turn = (site: string, turnsAtValue: number, below: Turn["below"], above: Turn["above"]): Turn => ({ site, field: height.field, turnsAt: turnsAtValue, below, above, together: [] });

  it("tell how many more fit below and how many fewer above, from the first to the last that turns", () => {
    const turns = [turn("a", 3250, "fits", "no"), turn("b", 3100, "gear", "no"), turn("c", 3400, "fits", "no")];
    expect(effectsOf({ unknown: height, turns, decides: 3, brings: 0 })).toEqual([
      { change: "more", side: "below", first: 3250, last: 3100, sites: ["a", "b"] },
      { change: "fewer", side: "above", first: 3400, last: 3400, sites: ["c"] },
    ]);
  });

  it("are none where only what to bring turns", () => {
    expect(effectsOf({ unknown: height, turns: [turn("a", 3250, "fits", "gear")], decides: 1, brings: 0 })).toEqual([]);
  });
});

describe("results with what they hang on", () => {
  const rig = typicalRig("travel-trailer", 31 * FOOT);
  const results = rankSites(demoSites, rig);
  const [first, second] = results;

  it("ask where standing there at all is open, and only name the number where it changes what to bring", () => {
    const turns = new Map<string, Turn[]>([
      [first!.site, [{ site: first!.site, field: "rig.body.height", turnsAt: 3300, below: "fits", above: "no", together: [] }]],
      [second!.site, [{ site: second!.site, field: "rig.body.height", turnsAt: 3300, below: "fits", above: "gear", together: [] }]],
    ]);
    const asked = withAsks(results, turns);
    expect(asked.find(({ site }) => site === first!.site)).toEqual({ ...first, verdict: "ask", asks: [{ field: "rig.body.height", turnsAt: 3300, below: "fits", above: "no" }] });
    expect(asked.find(({ site }) => site === second!.site)).toMatchObject({ verdict: second!.verdict, asks: [{ field: "rig.body.height" }] });
    expect(asked.map(({ verdict }) => verdict).indexOf("ask")).toBe(asked.filter(({ verdict }) => verdict === "fits" || verdict === "gear").length);
    expect(withAsks(results, new Map())).toEqual(results);
  });
});
