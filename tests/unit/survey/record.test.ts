import { describe, expect, it } from "vitest";
import { siteSchema, type MeasurementInput, type SiteInput } from "@/lib/park";
import { dueOn, measurementOf, placesOf, progressOf, progressOfLoop, unknownsOf, usualAgain } from "@/lib/survey";

const record: SiteInput = {
  id: "f04", entry: "back-in", pad: { outline: [[0, -2000], [12_000, -2000], [12_000, 2000], [0, 2000]] }, ground: { along: 1, across: 0 },
  obstacles: [
    { id: "oak", kind: "tree", at: [3000, -6000], trunkRadius: 280, crownRadius: 2000, crownFrom: 3900, crownTo: 9000 },
    { id: "rock", kind: "rock", at: [3000, -9000], radius: 300, from: 0, to: 400 },
  ],
  hookups: [{ id: "tap", kind: "water", at: [9000, 3000], height: 700 }],
};
const measure = (of: string, more: Partial<MeasurementInput> = {}): MeasurementInput => ({ id: of, of, how: "tape", error: 10, on: "2026-05-04", ...more });
const site = (...measurements: MeasurementInput[]) => siteSchema.parse({ ...record, survey: { measurements } });
const offset = (base: [string, string], along: number, across: number) => ({ how: "offsets" as const, readings: { offset: { base, along, across } } });

describe("the places of a record", () => {
  it("are known as well as their measurement says, exactly where nothing is said", () => {
    const { known } = placesOf(site(measure("hookups.tap.at", { error: 30 }), measure("pad", { error: 15 })));
    expect(known.get("hookups.tap.at")).toMatchObject({ at: [9000, 3000], spread: { xx: 900, xy: 0, yy: 900 } });
    expect(known.get("pad.2")?.spread.xx).toBe(225);
    expect(known.get("obstacles.oak.at")?.spread).toEqual({ xx: 0, xy: 0, yy: 0 });
  });

  it("are known by their readings, with the error of what they were measured from", () => {
    const tapes = [{ from: "pad.0", distance: 5000, error: 3 }, { from: [6000, -2000] as [number, number], distance: 5000, error: 3 }];
    const spread = (padError: number) => placesOf(site(measure("obstacles.oak.at", { readings: { tapes, side: "right" } }), measure("pad", { error: padError }))).known.get("obstacles.oak.at")!.spread;
    expect(spread(4).xx + spread(4).yy).toBeGreaterThan(spread(0).xx + spread(0).yy);
    expect(placesOf(site(measure("obstacles.oak.at", { readings: { tapes, side: "right" } }))).worked.get("obstacles.oak.at")).toMatchObject({ ok: true, value: { at: [expect.closeTo(3000, 5), expect.closeTo(-6000, 5)] } });
  });

  it("hang on each other in whatever order they are listed, and each link adds its own error", () => {
    const rock = measure("obstacles.rock.at", offset(["obstacles.oak.at", "pad.0"], -3000, 0));
    const oak = measure("obstacles.oak.at", offset(["origin", "pad.1"], 3000, -6000));
    for (const list of [[rock, oak], [oak, rock]]) {
      const { known, worked } = placesOf(site(...list));
      expect([...worked.values()].every(({ ok }) => ok)).toBe(true);
      const [near, far] = ["obstacles.oak.at", "obstacles.rock.at"].map((name) => known.get(name)!.spread);
      expect(far!.xx + far!.yy).toBeGreaterThan(near!.xx + near!.yy);
    }
  });

  it("that share a badly known point are well known to each other: a third measured from both sees little of it", () => {
    // Both from the tap, 30 mm off for all we know; a base between them turns by nothing where both are off alike.
    const from = (id: string, along: number) => measure(id, { how: "offsets", readings: { offset: { base: ["hookups.tap.at", [20_000, 3000]], along, across: 0 } } });
    const tap = measure("hookups.tap.at", { error: 300 });
    const { known, worked } = placesOf(site(tap, from("obstacles.oak.at", 0), measure("obstacles.rock.at", offset(["obstacles.oak.at", "hookups.tap.at"], 0, 0))));
    expect([...worked.keys()]).toContain("obstacles.oak.at");
    // The rock stands where the oak does, so it is off as the oak is: 300 mm and the readings' own, not 300 twice over.
    expect(Math.sqrt(known.get("obstacles.oak.at")!.spread.xx)).toBeCloseTo(Math.hypot(300, 10), 0);
  });

  it("that wait for each other in a circle, or hang on what is gone, fall back on their own error and say so", () => {
    const circle = placesOf(site(measure("obstacles.oak.at", { ...offset(["obstacles.rock.at", "origin"], 1, 1), error: 50 }), measure("obstacles.rock.at", { ...offset(["obstacles.oak.at", "origin"], 1, 1), error: 60 })));
    expect(circle.worked.get("obstacles.oak.at")).toMatchObject({ ok: false, faults: [{ code: "chain:circle" }] });
    expect(circle.known.get("obstacles.rock.at")!.spread.xx).toBe(3600);
    const gone = placesOf(site(measure("obstacles.oak.at", offset(["obstacles.elm.at", "origin"], 1, 1))));
    expect(gone.worked.get("obstacles.oak.at")).toMatchObject({ ok: false, faults: [{ code: "chain:unknown", again: ["obstacles.elm.at"] }] });
  });
});

describe("the numbers that errors leave open", () => {
  it("reach two standard errors to either side, heights and sizes not below zero", () => {
    const numbers = unknownsOf(site(measure("obstacles.oak.crownFrom", { error: 50 }), measure("obstacles.rock.to", { error: 300 }), measure("ground", { error: 0.2 })));
    expect(numbers.map(({ field, min, typical, max }) => [field, min, typical, max])).toEqual([
      ["site.ground.along", 0.6, 1, 1.4], ["site.ground.across", -0.4, 0, 0.4], ["site.obstacles.0.crownFrom", 3800, 3900, 4000], ["site.obstacles.1.to", 0, 400, 1000],
    ]);
  });

  it("are none of things that are gone, said to be exact, or of the way in", () => {
    expect(unknownsOf(site(measure("obstacles.elm.at"), measure("obstacles.oak.at", { error: 0 }), measure("approach")))).toEqual([]);
  });

  it("are two for every corner of a pad", () => {
    expect(unknownsOf(site(measure("pad"))).map(({ field }) => field)).toContain("site.pad.outline.3.1");
    expect(unknownsOf(site(measure("pad")))).toHaveLength(8);
  });
});

describe("when to look again", () => {
  it("is said with the measurement, or else the usual time for what it is", () => {
    const one = site();
    const again = (of: string, more: Partial<MeasurementInput> = {}) => usualAgain({ of, how: "tape", on: "2026-05-04", ...more } as Parameters<typeof usualAgain>[0], one);
    expect([again("obstacles.oak.crownFrom"), again("obstacles.rock.at"), again("hookups.tap.at"), again("pad"), again("ground.along")]).toEqual(["2027-05-04", "2029-05-04", "2029-05-04", "2031-05-04", "2028-05-04"]);
    expect(again("pad", { how: "estimated" })).toBe("2027-05-04");
    expect(again("obstacles.oak.at", { on: "2028-02-29" })).toBe("2029-02-28");
  });

  it("lists what is due on the day itself, longest due first, by the latest measurement of each thing", () => {
    const one = site(
      measure("obstacles.oak.crownFrom", { id: "old", on: "2024-05-04" }), measure("obstacles.oak.crownFrom", { id: "new", on: "2026-05-04" }),
      measure("pad", { again: "2026-11-26" }), measure("hookups.tap.at", { on: "2022-01-01" }), measure("obstacles.elm.at", { on: "2020-01-01" }),
    );
    expect(dueOn([one], "2026-11-26").map(({ measurement: { id }, by, said }) => [id, by, said])).toEqual([["hookups.tap.at", "2025-01-01", false], ["pad", "2026-11-26", true]]);
    expect(dueOn([one], "2027-05-04").map(({ measurement: { id } }) => id)).toContain("new");
  });
});

describe("how far a survey has come", () => {
  it("tells measured from guessed and missing, and lists measurements of what is gone", () => {
    const { items, counts, strays } = progressOf(site(measure("pad"), measure("obstacles.oak.crownFrom", { how: "estimated", error: 500 }), measure("obstacles.elm.at"), measure("ground", { how: "level", error: 0.2 })));
    const stateOf = (of: string) => items.find((item) => item.of === of)?.state;
    expect(["pad", "ground.across", "obstacles.oak.crownFrom", "hookups.tap.at", "hookups.tap.pressure", "approach"].map(stateOf)).toEqual(["measured", "measured", "guessed", "guessed", "missing", "missing"]);
    expect(counts).toEqual({ measured: 3, guessed: items.length - 6, missing: 3 });
    expect(strays.map(({ of }) => of)).toEqual(["obstacles.elm.at"]);
    expect(progressOfLoop([site(measure("pad")), site()]).measured).toBe(1);
  });

  it("takes the later of a slope's own measurement and that of the ground", () => {
    const both = site(measure("ground", { on: "2026-05-04" }), measure("ground.along", { on: "2026-06-01" }));
    expect(measurementOf(both, "ground.along")?.id).toBe("ground.along");
    expect(measurementOf(both, "ground.across")?.id).toBe("ground");
  });
});
