import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { siteSchema } from "@/lib/park";
import { addPoint, addThing, addable, canAdd, movePoint, moveThing, removePoint, removeThing } from "@/lib/park/edit/change";
import { applyTo, copySite, copyable } from "@/lib/park/edit/copy";
import { faultsOf } from "@/lib/park/edit/faults";
import { edit, redo, settle, startHistory, undo, type History } from "@/lib/park/edit/history";
import { mirrorSite } from "@/lib/park/edit/mirror";
import { keyOf, pointAt, readAt, writeAt, type Draft } from "@/lib/park/edit/record";
import { GRID, snapField, snapPoint, stepOn, toGrid } from "@/lib/park/edit/snap";
import { dropContradicted, renameThing, settleSurvey, type Known } from "@/lib/park/edit/survey";
import { listOf, pointsOfThing, thingAt, thingsOf } from "@/lib/park/edit/things";

const SEED = 20_261_126;
const demo = (JSON.parse(readFileSync("seed/quillback-meadow/sites.json", "utf8")) as { sites: Draft[] }).sites;

const anySite = fc.constantFrom(...demo);
const mm = fc.integer({ min: -20_000, max: 20_000 });
const draw = fc.integer({ min: 0, max: 1_000_000 });

/** One change drawn by chance, of every sort that the editor knows. */
function change(draft: Draft, sort: number, pick: number, x: number, y: number): Draft {
  const things = thingsOf(draft), thing = things[pick % things.length]!;
  const index = pick % thing.handles.length;
  switch (sort % 8) {
    case 0: return movePoint(draft, thing.handles[index]!, [x, y]);
    case 1: return moveThing(draft, thing, [x, y]);
    case 2: return addPoint(draft, thing, index);
    case 3: return removePoint(draft, thing, index);
    case 4: return removeThing(draft, thing);
    case 5: return mirrorSite(draft);
    case 6: { const what = addable[pick % addable.length]!; return canAdd(draft, what) ? addThing(draft, what, [x, y]).draft : draft; }
    default: return writeAt(draft, ["rules", "maxLength"], Math.abs(x));
  }
}

function holds<T extends [unknown, ...unknown[]]>(arbitraries: { [K in keyof T]: fc.Arbitrary<T[K]> }, check: (...values: T) => void, numRuns = 300): void {
  fc.assert(fc.property(fc.tuple<T>(...arbitraries), (values) => check(...values)), { seed: SEED, numRuns });
}

describe("what was done can be undone", () => {
  it("undoing all of any sequence of changes gives the record that was opened, and doing all again the last one", () => {
    holds([anySite, fc.array(fc.tuple(draw, draw, mm, mm, fc.constantFrom(null, "a", "b")), { maxLength: 25 })], (site, changes) => {
      let history: History<Draft> = startHistory(site);
      for (const [sort, pick, x, y, mark] of changes) history = edit(history, change(history.present, sort, pick, x, y), mark);
      const last = history.present;
      const steps = history.past.length;
      for (let i = 0; i < steps; i++) history = undo(history);
      expect(history.present).toBe(site);
      expect(undo(history)).toBe(history);
      for (let i = 0; i < steps; i++) history = redo(history);
      expect(history.present).toBe(last);
    });
  });

  it("takes what bears one mark as one step until it is settled, and nothing changed as none", () => {
    const start = startHistory(1);
    const typed = edit(edit(start, 2, "field"), 3, "field");
    expect(typed.past).toEqual([1]);
    expect(edit(settle(typed), 4, "field").past).toEqual([1, 3]);
    expect(edit(typed, 3)).toBe(typed);
    expect(redo(edit(undo(typed), 9)).present, "after something else there is nothing to do again").toBe(9);
  });
});

describe("moving", () => {
  it("puts a point exactly where it is told, and leaves everything else as it was", () => {
    holds([anySite, draw, mm, mm], (site, pick, x, y) => {
      const handles = thingsOf(site).flatMap(({ handles }) => handles);
      const path = handles[pick % handles.length]!;
      const moved = movePoint(site, path, [x, y]);
      expect(pointAt(moved, path)).toEqual([x, y]);
      for (const other of handles) if (keyOf(other) !== keyOf(path)) expect(pointAt(moved, other)).toEqual(pointAt(site, other));
      expect(movePoint(moved, path, pointAt(site, path)!)).toEqual(site);
    });
  });

  it("moves all of a thing by so much, and back again", () => {
    holds([anySite, draw, mm, mm], (site, pick, x, y) => {
      const things = thingsOf(site), thing = things[pick % things.length]!;
      const moved = moveThing(site, thing, [x, y]);
      expect(pointsOfThing(moved, thing)).toEqual(pointsOfThing(site, thing).map(([px, py]) => [px + x, py + y]));
      expect(moveThing(moved, thing, [-x, -y])).toEqual(site);
    });
  });

  it("adds a corner half-way and takes it out again, never below what a thing needs", () => {
    holds([anySite, draw], (site, pick) => {
      const things = thingsOf(site).filter(({ free }) => free), thing = things[pick % things.length]!;
      const index = pick % thing.handles.length;
      const more = addPoint(site, thing, index), wider = thingAt(more, thing.path)!;
      expect(wider.handles.length).toBe(thing.handles.length + 1);
      expect(removePoint(more, wider, index + 1)).toEqual(site);
      let least = site;
      for (let i = 0; i < 100; i++) least = removePoint(least, thingAt(least, thing.path)!, 0);
      expect((readAt(least, listOf(thing)) as unknown[]).length).toBe(thing.fewest);
    });
  });

  it("puts in things that are sound, under ids of their own", () => {
    for (const site of demo) {
      for (const what of addable) {
        if (!canAdd(site, what)) continue;
        const once = addThing(site, what, [4000, 9000]);
        expect(faultsOf(once.draft), `${what} on ${site.id}`).toEqual([]);
        expect(thingAt(once.draft, once.path)?.path).toEqual(once.path);
        if (canAdd(once.draft, what)) expect(faultsOf(addThing(once.draft, what, [5000, 9000]).draft), `two of ${what}`).toEqual([]);
      }
    }
  });
});

describe("the ground", () => {
  it("keeps its slopes when its spot heights are taken out, and its heights lie on the slopes when they are put in", () => {
    const sloped: Draft = { ...demo[0]!, ground: { along: 1.25, across: -2 } };
    const spots = addThing(sloped, "spot-heights", [0, 0]).draft;
    const back = removeThing(spots, thingsOf(spots).find(({ kind }) => kind === "spot-heights")!);
    expect(Math.abs(back.ground.along! - 1.25) + Math.abs(back.ground.across! + 2)).toBeLessThan(0.05);
    const line: Draft = { ...sloped, ground: { heights: [[0, 0, 0], [1, 0, 0], [2, 0, 0]] } };
    expect(removeThing(line, thingsOf(line).find(({ kind }) => kind === "spot-heights")!).ground).toEqual({ along: 0, across: 0 });
  });
});

describe("snapping", () => {
  it("changes nothing of what was snapped already", () => {
    holds([anySite, draw, mm, mm, fc.constantFrom("ft-in" as const, "metric" as const), fc.integer({ min: 0, max: 600 })], (site, pick, x, y, units, reach) => {
      const handles = thingsOf(site).flatMap(({ handles }) => handles);
      const field = snapField(site, [handles[pick % handles.length]!], units);
      const once = snapPoint([x, y], field, reach);
      expect(snapPoint(once.at, { ...field, corners: [], edges: [] }, 0).at.every(Number.isInteger)).toBe(true);
      if (once.to === "corner" || once.to === "grid") expect(snapPoint(once.at, once.to === "grid" ? { ...field, corners: [], edges: [] } : field, once.to === "grid" ? 0 : reach).at).toEqual(once.at);
      if (once.to === "axis") expect(snapPoint(once.at, { ...field, corners: [], edges: [] }, reach).at).toEqual(once.at);
      if (once.to === "edge") {
        const again = snapPoint(once.at, { ...field, corners: [] }, Math.max(reach, 1));
        expect(Math.hypot(again.at[0] - once.at[0], again.at[1] - once.at[1])).toBeLessThanOrEqual(1.5);
      }
    }, 2000);
  });

  it("draws to a corner before an edge, to an edge before the lines, and to nothing that is moved along", () => {
    const site: Draft = { ...demo[0]!, pad: { outline: [[0, -1800], [12_000, -1800], [12_000, 1800], [0, 1800]] }, lot: null, roadEdge: null, obstacles: [], parking: null };
    const field = snapField(site, [["hookups", 0, "at"]], "metric");
    expect(snapPoint([11_950, -1750], field, 100)).toEqual({ at: [12_000, -1800], to: "corner" });
    expect(snapPoint([7333, -1750], field, 100)).toEqual({ at: [7333, -1800], to: "edge" });
    expect(snapPoint([7333, 40], field, 100)).toEqual({ at: [7350, 0], to: "axis" });
    expect(snapPoint([7333, 777], field, 100)).toEqual({ at: [7350, 800], to: "grid" });
    expect(snapPoint([11_950, -1750], snapField(site, [["pad", "outline", 1]], "metric"), 100).to).toBe("grid");
  });

  it("steps from line to line of the grid without gathering what rounding leaves", () => {
    for (const units of ["ft-in", "metric"] as const) {
      let at = 7;
      at = stepOn(at, 1, GRID[units]);
      const first = at;
      for (let i = 0; i < 1000; i++) at = stepOn(at, 1, GRID[units]);
      expect(at).toBe(toGrid(first + 1000 * GRID[units], GRID[units]));
      for (let i = 0; i < 1000; i++) at = stepOn(at, -1, GRID[units]);
      expect(at).toBe(first);
    }
  });
});

describe("mirroring, copying and giving to others", () => {
  it("twice mirrored is the same record, once is sound and keeps every distance from the line", () => {
    for (const site of demo) {
      expect(mirrorSite(mirrorSite(site))).toEqual(site);
      const mirrored = mirrorSite(site);
      expect(siteSchema.safeParse(mirrored).success).toBe(true);
      expect(thingsOf(mirrored).map((t) => pointsOfThing(mirrored, t).map(([x, y]) => [x, y === 0 ? 0 : -y]))).toEqual(thingsOf(site).map((t) => pointsOfThing(site, t)));
    }
  });

  it("turns the way of the traffic, the slope across and what was read with a side", () => {
    const site: Draft = {
      ...demo[0]!, ground: { along: 1, across: 2 },
      approach: { road: { centreline: [[-2000, -9000], [-2000, 9000]], width: 5000, traffic: "toward-left" }, driveable: [], heightLimits: [], gradeBreaks: [] },
      survey: { measurements: [{ id: "m1", of: "obstacles.birch.at", how: "tape", error: 20, on: "2026-05-01", readings: { tapes: [{ from: [0, -1800], distance: 5000 }, { from: "pad.1", distance: 6000 }], side: "left" } }] },
    };
    const mirrored = mirrorSite(site);
    expect([mirrored.approach!.road.traffic, mirrored.ground.across]).toEqual(["toward-right", -2]);
    expect(mirrored.survey!.measurements![0]!.readings).toEqual({ tapes: [{ from: [0, 1800], distance: 5000 }, { from: "pad.1", distance: 6000 }], side: "right" });
    expect(mirrorSite(mirrored)).toEqual(site);
  });

  it("copies everything but where it lies and when it was measured", () => {
    const copy = copySite(demo[3]!, { id: "z99", label: "Z-99", loop: "Z", mirrored: false });
    expect([copy.id, copy.label, copy.loop, copy.place, "measuredOn" in copy]).toEqual(["z99", "Z-99", "Z", undefined, false]);
    expect(copy.obstacles).toEqual(demo[3]!.obstacles);
    expect(faultsOf(copy)).toEqual([]);
  });

  it("gives another site the chosen things and nothing else, and giving twice is giving once", () => {
    holds([anySite, anySite, fc.subarray([...copyable])], (target, source, parts) => {
      const given = applyTo(target, source, parts);
      expect(applyTo(given, source, parts)).toEqual(given);
      expect([given.id, given.label, given.place]).toEqual([target.id, target.label, target.place]);
      for (const part of ["lot", "ground", "obstacles", "rules", "parking"] as const) expect(given[part] ?? null).toEqual((parts.includes(part) ? source : target)[part] ?? null);
      if (parts.includes("pad")) expect(given.pad.outline).toEqual(source.pad.outline);
    });
  });
});

describe("the survey of what was edited", () => {
  const on = "2026-11-26";
  const known: Known = { how: "from-plan", error: (of, value) => (of.endsWith("pressure") || of.startsWith("ground") ? null : value === null ? 100 : value / 10), on, by: "KL" };
  const site: Draft = {
    ...demo[0]!,
    survey: { measurements: [
      { id: "m1", of: "obstacles.birch.at", how: "tape", error: 20, on: "2026-05-01", again: "2027-05-01", readings: { tapes: [{ from: "hookups.ped.at", distance: 5000 }] } },
      { id: "m2", of: "obstacles.hemlock.crownFrom", how: "pole", error: 50, on: "2026-05-01" },
    ] },
  };
  const birch = thingsOf(site).find((t) => t.kind === "obstacle" && readAt(site, [...t.path, "id"]) === "birch")!;

  it("says of a number that was changed how it is known now, and leaves the others", () => {
    const settled = settleSurvey(site, moveThing(site, birch, [100, 0]), known);
    expect(settled.survey!.measurements).toEqual([{ id: "m1", of: "obstacles.birch.at", how: "from-plan", error: 100, on, by: "KL" }, site.survey!.measurements![1]]);
    expect(settleSurvey(site, site, known)).toEqual(site);
    expect(settleSurvey(site, mirrorSite(site), known)).toEqual(mirrorSite(site));
  });

  it("drops what told of a thing that is gone, and follows one that got another id", () => {
    expect(settleSurvey(site, removeThing(site, birch), known).survey!.measurements!.map(({ id }) => id)).toEqual(["m2"]);
    const renamed = renameThing(site, birch.path, "white-birch");
    expect(renamed.survey!.measurements![0]!.of).toBe("obstacles.white-birch.at");
    expect(settleSurvey(site, renamed, known)).toEqual(renamed);
    const ped = renameThing(site, ["hookups", 0], "post");
    expect(ped.survey!.measurements![0]!.readings!.tapes![0]!.from).toBe("hookups.post.at");
    expect(renameThing(site, birch.path, "hemlock").survey, "an id that is taken takes nothing along").toEqual(site.survey);
  });

  const said = (draft: Draft) => (draft.survey?.measurements ?? []).map(({ id, of, how, error }) => [id, of, how, error]);

  it("says of numbers that had no measurement how they are known, where they were changed or are new, and of no other", () => {
    const typed = writeAt(writeAt(site, [...birch.path, "crownFrom"], 2700), ["ground", "along"], 4);
    const added = settleSurvey(site, typed, known);
    expect(said(added).slice(2)).toEqual([["obstacles.birch.crownFrom", "obstacles.birch.crownFrom", "from-plan", 270]]);
    expect(added.survey!.measurements![2]).toEqual({ id: "obstacles.birch.crownFrom", of: "obstacles.birch.crownFrom", how: "from-plan", error: 270, on, by: "KL" });
    expect(settleSurvey(added, added, known), "said once, it stays").toEqual(added);
    const rock = { id: "boulder", kind: "rock", at: [1000, -4000] as [number, number], radius: 400, from: 0, to: 500 };
    expect(said(settleSurvey(site, { ...site, obstacles: [...site.obstacles!, rock] }, known)).slice(2).map(([, of, , error]) => [of, error]), "on the ground it begins, which nobody measures").toEqual([["obstacles.boulder.at", 100], ["obstacles.boulder.radius", 40], ["obstacles.boulder.to", 50]]);
    expect(said(settleSurvey(site, renameThing(typed, birch.path, "white-birch"), known)).map(([, of]) => of), "of a thing that got another id only what was typed").toEqual(["obstacles.white-birch.at", "obstacles.hemlock.crownFrom", "obstacles.white-birch.crownFrom"]);
    const named = settleSurvey(site, renameThing({ ...site, obstacles: [...site.obstacles!, rock] }, ["obstacles", site.obstacles!.length], "b".repeat(80)), known);
    expect([siteSchema.safeParse(named).success, said(named).length], "of things with the longest names too").toEqual([true, 5]);
    const { survey: _survey, ...without } = site;
    expect(said(settleSurvey(without, writeAt(without, [...birch.path, "crownFrom"], 2700), known))).toEqual([["obstacles.birch.crownFrom", "obstacles.birch.crownFrom", "from-plan", 270]]);
    expect(settleSurvey(without, mirrorSite(without), known)).toEqual(mirrorSite(without));
  });

  it("lets a measurement go where nobody says how the new number is known, and says nothing of others", () => {
    const moved = moveThing(site, birch, [100, 0]);
    expect(settleSurvey(site, moved, null).survey!.measurements).toEqual([site.survey!.measurements![1]]);
    expect(settleSurvey(site, writeAt(site, [...birch.path, "crownFrom"], 2700), null).survey).toEqual(site.survey);
    expect(settleSurvey(site, writeAt(site, ["pad", "surface"], "paved"), null).survey).toEqual(site.survey);
  });

  it("keeps a measurement of the pad where only its surface was changed, and of one slope as long as the spot heights are the same", () => {
    const heights: Draft = { ...site, ground: { heights: [[0, 0, 0], [9000, 0, 90], [0, 3000, 30]] }, survey: { measurements: [{ id: "p", of: "pad", how: "tape", error: 20, on }, { id: "g", of: "ground.along", how: "level", error: 0.2, on }] } };
    expect(settleSurvey(heights, writeAt(heights, ["pad", "surface"], "paved"), known).survey).toEqual(heights.survey);
    expect(settleSurvey(heights, writeAt(heights, ["ground", "heights", 1, 2], 95), null).survey!.measurements!.map(({ id }) => id)).toEqual(["p"]);
  });

  it("drops a measurement that reads another number than the record has, unless the record had both before", () => {
    const read = (crownFrom: number, length: number): Draft => ({ ...writeAt(site, [...thingsOf(site).find((t) => readAt(site, [...t.path, "id"]) === "hemlock")!.path, "crownFrom"], crownFrom), survey: { measurements: [{ id: "m", of: "obstacles.hemlock.crownFrom", how: "pole", error: 25, on, readings: { length } }] } });
    expect(dropContradicted(null, read(3000, 3000.4)).survey!.measurements).toHaveLength(1);
    expect(dropContradicted(null, read(4500, 3000)).survey!.measurements).toEqual([]);
    expect(dropContradicted(read(3000, 3000), read(4500, 3000)).survey!.measurements).toEqual([]);
    expect(dropContradicted(read(4500, 3000), read(4500, 3000)).survey!.measurements).toHaveLength(1);
  });
});

describe("faults", () => {
  const fault = (draft: Draft) => faultsOf(draft).map(({ key, code }) => `${key} ${code}`);

  it("finds none in the demo park, and all of them at once in a bad record", () => {
    for (const site of demo) expect(faultsOf(site)).toEqual([]);
    const pad: [number, number][] = [[0, -1000], [9000, 1000], [9000, -1000], [0, 1000]];
    const bad: Draft = {
      ...demo[0]!,
      pad: { outline: pad },
      ground: { heights: [[0, 0, 0], [1000, 0, 5], [2000, 0, 9]] },
      obstacles: [{ id: "oak", kind: "tree", at: [0, 0], trunkRadius: -5, crownRadius: 100, crownFrom: 5000, crownTo: 4000 }, { id: "oak", kind: "rock", at: [1, 1], from: 0, to: 10 }],
      hookups: [{ id: "ped", kind: "power", at: [0, 0], height: 900, postRadius: 50 }],
      rules: { maxLength: 24, maxGuests: 2.5 },
    };
    expect(fault(bad).sort()).toEqual([
      "ground.heights one-line", "hookups.0.postHeight post-height", "hookups.0.receptacles receptacles", "obstacles.0.crownTo order", "obstacles.0.trunkRadius negative",
      "obstacles.1.id taken", "obstacles.1.radius missing", "pad.outline crossing", "rules.maxGuests count", "rules.maxLength posted-length",
    ]);
    expect(faultsOf(bad).find(({ key }) => key === "pad.outline")!.corners).toEqual([0, 2]);
  });

  it("tells an outline that is too small, folded, or without a third corner apart", () => {
    const withPad = (outline: [number, number][]): Draft => ({ ...demo[0]!, pad: { outline } });
    expect(fault(withPad([[0, 0], [500, 0], [500, 500]]))).toEqual(["pad.outline pad-size"]);
    expect(fault(withPad([[0, 0], [5000, 0]]))).toEqual(["pad.outline few"]);
    expect(fault(withPad([[0, 0], [5000, 0], [5000, 0], [0, 4000]]))).toEqual(["pad.outline same"]);
    expect(fault({ ...demo[0]!, roadEdge: [[0, 0], [0, 0]] })).toEqual(["roadEdge same"]);
  });
});
