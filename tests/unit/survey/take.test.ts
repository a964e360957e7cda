import { describe, expect, it } from "vitest";
import { siteSchema, type SiteInput } from "@/lib/park";
import { takeReading, takeStep, takeSteps, type Reading, type Step, type SurveyNote } from "@/lib/survey";
import { readStep, stepsSchema } from "@/lib/survey/step-schema";

const record: SiteInput = {
  id: "s", entry: "back-in", pad: { outline: [[0, -2000], [12_000, -2000], [12_000, 2000], [0, 2000]] }, ground: { along: 0, across: 0 },
  obstacles: [{ id: "oak", kind: "tree", at: [9000, -3300], trunkRadius: 280, crownRadius: 2600, crownFrom: 3900, crownTo: 11_000 }],
  hookups: [{ id: "ped", kind: "power", at: [11_000, -2400], height: 900, receptacles: [30], volts: 120, postRadius: 150, postHeight: 1300 }],
};
const on = "2026-05-02", known = { id: "m1", on, by: "AB" };
const take = (reading: Partial<Reading> & Pick<Reading, "of" | "how">) => {
  const taken = takeReading(record, { ...known, ...reading });
  if (!taken.ok) throw new Error(JSON.stringify(taken.faults));
  siteSchema.parse(taken.value.record);
  return taken.value;
};

describe("a reading goes into the record with its measurement", () => {
  it("gives a place by two tapes from the front corners: 3, 4 and 5", () => {
    const { record: next } = take({ of: "hookups.ped.at", how: "tape", readings: { tapes: [{ from: "pad.3", distance: 5000 }, { from: "pad.0", distance: 3000 }], side: "left" } });
    // From the left corner (0, 2000) and the right one (0, -2000), 4000 apart: 3 m straight in from the right one.
    expect(next.hookups![0]!.at).toEqual([3000, -2000]);
    expect(next.survey!.measurements).toMatchObject([{ id: "m1", of: "hookups.ped.at", how: "tape", on, by: "AB" }]);
    expect(next.survey!.measurements![0]!.error).toBeGreaterThan(10);
  });

  it("adds half the thickness where the tape was held to the face", () => {
    const { record: next } = take({ of: "hookups.ped.at", how: "tape", readings: { tapes: [{ from: "pad.3", distance: 4900, add: 100 }, { from: "pad.0", distance: 2900, add: 100 }], side: "left" } });
    expect(next.hookups![0]!.at).toEqual([3000, -2000]);
  });

  it("gives a trunk by its girth, a limb by pole and by angle, a slope by level, degrees and per cent", () => {
    expect(take({ of: "obstacles.oak.trunkRadius", how: "girth", readings: { girth: 2000 } }).record.obstacles![0]!.trunkRadius).toBe(318); // 2000 / 2π
    expect(take({ of: "obstacles.oak.crownFrom", how: "pole", readings: { length: 4120 } }).record.obstacles![0]!.crownFrom).toBe(4120);
    expect(take({ of: "obstacles.oak.crownFrom", how: "angle", readings: { angle: { distance: 10_000, top: 45, eye: 1600 } } }).record.obstacles![0]!.crownFrom).toBe(11_600); // eye + distance × tan 45°
    // Its top was never measured, and gives way.
    expect(take({ of: "obstacles.oak.crownFrom", how: "angle", readings: { angle: { distance: 10_000, top: 45, eye: 1600 } } }).record.obstacles![0]!.crownTo).toBe(11_600);
    expect(take({ of: "ground.along", how: "level", readings: { level: { along: { rise: -24, over: 1200 } } } }).record.ground).toEqual({ along: -2, across: 0 });
    expect(take({ of: "ground.across", how: "inclinometer", readings: { degrees: { across: 1 } } }).record.ground).toEqual({ along: 0, across: 1.75 }); // 100 tan 1°
    expect(take({ of: "ground.across", how: "inclinometer", readings: { percent: { across: 3.5 } } }).record.ground).toEqual({ along: 0, across: 3.5 });
  });

  it("fits a plane to spot heights, and keeps the other slope where one is measured anew after them", () => {
    const spots: [number, number, number][] = [[0, -2000, 0], [12_000, -2000, 120], [12_000, 2000, 120], [0, 2000, 0]];
    const { record: next } = take({ of: "ground", how: "spot-heights", readings: { spots } });
    expect(next.ground).toEqual({ heights: spots });
    const again = takeReading(next, { id: "m2", on, of: "ground.across", how: "inclinometer", readings: { percent: { across: 2 } } });
    expect(again.ok && again.value.record.ground).toEqual({ along: 1, across: 2 });
  });

  it("gives an outline by its sides and diagonals, its corners numbered as they were", () => {
    // Sides from corner B (the right front one) around: 13 m, 4 m, 13 m, 4 m, square.
    const diagonal = Math.hypot(13_000, 4000);
    const { record: next } = take({ of: "pad", how: "tape", readings: { ring: { sides: [13_000, 4000, 13_000, 4000], diagonals: [{ from: 0, to: 2, length: diagonal }, { from: 3, to: 1, length: diagonal }] } } });
    expect(next.pad.outline).toEqual([[0, -2000], [13_000, -2000], [13_000, 2000], [0, 2000]]);
    const other = takeReading({ ...record, pad: { outline: [[0, 2000], [0, -2000], [12_000, -2000], [12_000, 2000]] } }, { ...known, of: "pad", how: "tape", readings: { ring: { sides: [13_000, 4000, 13_000, 4000], diagonals: [{ from: 0, to: 2, length: diagonal }] } } });
    expect(other.ok && other.value.record.pad.outline).toEqual([[0, 2000], [0, -2000], [13_000, -2000], [13_000, 2000]]);
  });

  describe("what was measured from a thing that moves", () => {
    /** Straight in from the right front corner (0, -2000), so far; the left one is 4 m from that. */
    const oakAt = (x: number, id: string): Reading => ({ ...known, id, of: "obstacles.oak.at", how: "tape", readings: { tapes: [{ from: "pad.3", distance: Math.hypot(x, 4000) }, { from: "pad.0", distance: x }], side: "left" } });
    /** From the oak 2 m on, straight away from the corner. */
    const pedBehind: Reading = { ...known, id: "p1", of: "hookups.ped.at", how: "offsets", readings: { offset: { along: 2000, across: 0, base: ["obstacles.oak.at", [20_000, -2000]] } } };
    const walk = (from: SiteInput, ...readings: Reading[]) => readings.reduce<{ record: SiteInput; warnings: readonly SurveyNote[] }>(({ record: at }, reading) => {
      const next = takeReading(at, reading);
      if (!next.ok) throw new Error(JSON.stringify(next.faults));
      return { record: next.value.record, warnings: next.warnings };
    }, { record: from, warnings: [] });
    const pedOf = ({ hookups }: SiteInput) => hookups![0]!.at;

    it("moves along by its own readings, and is told", () => {
      const first = walk(record, oakAt(3000, "o1"), pedBehind);
      expect(pedOf(first.record)).toEqual([5000, -2000]);
      const { record: next, warnings } = walk(first.record, oakAt(3400, "o2"));
      expect([next.obstacles![0]!.at, pedOf(next)]).toEqual([[3400, -2000], [5400, -2000]]);
      expect(warnings).toEqual([{ code: "chain:moved", again: ["hookups.ped.at"], by: 400 }]);
    });

    it("however long the chain, and by a new outline of the pad as well", () => {
      const rock: SiteInput = { ...record, obstacles: [...record.obstacles!, { id: "rock", kind: "rock", at: [1, 1], radius: 300, from: 0, to: 400 }] };
      const fromPed: Reading = { ...known, id: "r1", of: "obstacles.rock.at", how: "offsets", readings: { offset: { along: 0, across: 1500, base: ["hookups.ped.at", [20_000, -2000]] } } };
      const chained = walk(rock, oakAt(3000, "o1"), pedBehind, fromPed, oakAt(3400, "o2"));
      expect(chained.record.obstacles!.find(({ id }) => id === "rock")!.at).toEqual([5400, -500]);
      expect(chained.warnings).toMatchObject([{ again: ["hookups.ped.at", "obstacles.rock.at"] }]);
      // The pad is 6 m wide, not 4: its corners lie 3 m from the middle. What was taped from them goes to where the tapes meet now.
      const sides = [12_000, 6000, 12_000, 6000], diagonals = [{ from: 0, to: 2, length: Math.hypot(12_000, 6000) }];
      const wide = walk(chained.record, { ...known, id: "pad2", of: "pad", how: "tape", readings: { ring: { sides, diagonals } } });
      expect(wide.record.pad.outline[0]).toEqual([0, -3000]);
      // In metres: (y - 3)² - (y + 3)² = (3.4² + 4²) - 3.4², so y = -16 / 12.
      const [x, y] = wide.record.obstacles![0]!.at!;
      expect(y).toBe(-1333);
      expect(Math.hypot(x, y + 3000)).toBeCloseTo(3400, -1);
      expect(wide.warnings.map(({ code }) => code)).toContain("chain:moved");
    });

    it("stays where somebody put it since, and where its tapes no longer meet, which is told", () => {
      const { record: first } = walk(record, oakAt(3000, "o1"), pedBehind);
      const dragged: SiteInput = { ...first, hookups: [{ ...first.hookups![0]!, at: [5500, -2500] }] };
      const kept = walk(dragged, oakAt(3400, "o2"));
      expect([pedOf(kept.record), kept.warnings]).toEqual([[5500, -2500], []]);
      const taped: Reading = { ...known, id: "p2", of: "hookups.ped.at", how: "tape", readings: { tapes: [{ from: "obstacles.oak.at", distance: 2000 }, { from: "pad.3", distance: 3606 }], side: "right" } };
      const near = walk(first, taped), off = walk(near.record, oakAt(9000, "o3"));
      expect(pedOf(off.record)).toEqual(pedOf(near.record));
      expect(off.warnings).toMatchObject([{ code: "chain:left", again: ["hookups.ped.at"] }]);
    });
  });

  it("refuses tapes that cannot meet, with what to measure again, and changes nothing", () => {
    expect(takeReading(record, { ...known, of: "hookups.ped.at", how: "tape", readings: { tapes: [{ from: "pad.3", distance: 1000 }, { from: "pad.0", distance: 1000 }], side: "left" } })).toMatchObject({ ok: false, faults: [{ code: "tapes:apart" }] });
  });
});

describe("a walk along a site", () => {
  const tapes = { tapes: [{ from: "pad.3" as const, distance: 5000 }, { from: "pad.0" as const, distance: 3000 }], side: "left" as const };
  const added: Step = { do: "add", kind: "tree", name: "Big Elm", place: { id: "a1", on, how: "tape", readings: tapes } };
  const after = (...steps: Step[]) => steps.reduce((at, step) => { const done = takeStep(at, step); if (!done.ok) throw new Error(done.why.code); return done.record; }, record);

  it("adds what the record does not have, its other numbers as guesses", () => {
    const elm = after(added).obstacles!.find(({ id }) => id === "big-elm")!;
    expect(elm).toMatchObject({ kind: "tree", at: [3000, -2000] });
    expect(after(added).survey!.measurements!.filter(({ how }) => how === "estimated").map(({ of }) => of)).toEqual(["trunkRadius", "crownRadius", "crownFrom", "crownTo"].map((field) => `obstacles.big-elm.${field}`));
    expect(takeStep(record, { ...added, name: "Oak" })).toMatchObject({ ok: false, why: { code: "taken" } });
  });

  it("takes each step once, however often it is sent", () => {
    const read: Step = { do: "read", reading: { id: "r1", of: "obstacles.oak.crownFrom", how: "pole", on, readings: { length: 4000 } } };
    const gone: Step = { do: "gone", list: "hookups", id: "ped" };
    expect(after(added, read, gone, added, read, gone)).toEqual(after(added, read, gone));
  });

  it("drops the measurements of what is gone, and takes no reading of it", () => {
    const read: Step = { do: "read", reading: { id: "r1", of: "hookups.ped.height", how: "pole", on, readings: { length: 800 } } };
    const left = after(read, { do: "gone", list: "hookups", id: "ped" });
    expect([left.hookups, left.survey]).toEqual([[], { measurements: [], removed: ["r1"] }]);
    expect(takeStep(left, { ...read, reading: { ...read.reading, id: "r2" } })).toMatchObject({ ok: false, why: { code: "no-such" } });
  });

  it("takes nothing again, and takes nothing off again, where something new came in a thing's place", () => {
    const read: Step = { do: "read", reading: { id: "r1", of: "obstacles.oak.crownFrom", how: "pole", on, readings: { length: 4000 } } };
    const gone: Step = { do: "gone", list: "obstacles", id: "oak", step: "g1" }, anew: Step = { ...added, name: "Oak" };
    const felled = after(read, gone), replaced = after(read, gone, anew);
    expect(felled.survey).toEqual({ measurements: [], removed: ["r1", "g1"] });
    expect(replaced.obstacles).toMatchObject([{ id: "oak", at: [3000, -2000], crownFrom: 3000 }]);
    const sent = (record: SiteInput, ...steps: Step[]) => steps.reduce((at, step) => { const done = takeStep(at, step); return done.ok ? done.record : at; }, record);
    expect(sent(replaced, gone)).toEqual(replaced);
    expect(sent(replaced, read, gone, anew)).toEqual(replaced);
    const again: Step = { ...gone, step: "g2" };
    expect(sent(replaced, again).obstacles).toEqual([]);
    expect(sent(sent(replaced, again), read, gone, anew)).toEqual(sent(replaced, again));
  });

  it("takes off one thing with its measurements, and none whose id begins alike", () => {
    const two: SiteInput = { ...record, obstacles: [...record.obstacles!, { ...record.obstacles![0]!, id: "oak.2", at: [2000, 4000] }] };
    const read: Step = { do: "read", reading: { id: "r1", of: "obstacles.oak.2.crownFrom", how: "pole", on, readings: { length: 4000 } } };
    const done = takeStep(two, read), left = done.ok && takeStep(done.record, { do: "gone", list: "obstacles", id: "oak", step: "g1" });
    if (!left || !left.ok) return expect.unreachable();
    expect(left.record.obstacles!.map(({ id }) => id)).toEqual(["oak.2"]);
    expect(left.record.survey!.measurements!.map(({ id }) => id)).toEqual(["r1"]);
  });

  it("refuses what contradicts a number that was measured", () => {
    const top: Step = { do: "read", reading: { id: "r1", of: "obstacles.oak.crownTo", how: "pole", on, readings: { length: 5000 } } };
    expect(takeStep(after(top), { do: "read", reading: { id: "r2", of: "obstacles.oak.crownFrom", how: "pole", on, readings: { length: 6000 } } })).toMatchObject({ ok: false, why: { code: "unsound" } });
  });

  it("is read as a phone sends it, and refused where it is no reading", () => {
    const gone: Step = { do: "gone", list: "hookups", id: "ped", step: "g1" };
    expect([readStep(added), readStep(gone), readStep({ do: "gone", list: "hookups", id: "ped" })]).toEqual([added, gone, { do: "gone", list: "hookups", id: "ped" }]);
    const read = (readings: unknown, more = {}) => ({ do: "read", reading: { id: "r", of: "obstacles.oak.crownFrom", how: "pole", on, readings, ...more } });
    expect(readStep(read({ length: 4000 }))).not.toBeNull();
    for (const wrong of [read({ girth: 4000 }), read({ length: "4 m" }), read({ length: 4000 }, { again: "20277-05-02" }), { do: "read", reading: { id: "r", of: "nothing", how: "pole", on } }, { do: "jump" }, null, 7]) expect(readStep(wrong), JSON.stringify(wrong)).toBeNull();
    expect([{ steps: "all" }, {}, null].map((sent) => stepsSchema.safeParse(sent).success)).toEqual([false, false, false]);
  });

  it("takes all that can be taken, whatever came with it", () => {
    const good = { do: "read", reading: { id: "r1", of: "obstacles.oak.crownFrom", how: "pole", on, readings: { length: 4000 } } }, bad = { ...good, reading: { ...good.reading, id: "r2", again: "20277-05-02" } };
    const { record: next, told } = takeSteps(record, [bad, good, { ...good, reading: { ...good.reading, id: "r3", of: "obstacles.elm.crownFrom" } }, added].map(readStep));
    expect([next.obstacles!.map(({ id, crownFrom }) => [id, crownFrom]), told]).toEqual([[["oak", 4000], ["big-elm", 3000]], [0, 2]]);
  });
});
