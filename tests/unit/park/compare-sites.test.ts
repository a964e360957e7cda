import { describe, expect, it } from "vitest";
import { compareSites, mergeSites, type SiteInput } from "@/lib/park";

const record: SiteInput = {
  id: "c07", label: "C-07", entry: "back-in",
  pad: { outline: [[0, -1800], [13700, -1800], [13700, 1800], [0, 1800]], surface: "gravel" },
  ground: { along: 1.5, across: -0.8 },
  obstacles: [{ id: "oak", kind: "tree", at: [9000, -3300], trunkRadius: 280, crownRadius: 2600, crownFrom: 3900, crownTo: 11000 }],
  hookups: [{ id: "ped", kind: "power", at: [11000, -2400], height: 900, receptacles: [30, 50], volts: 120 }],
  rules: { maxGuests: 6, pets: true },
  survey: { measurements: [{ id: "m1", of: "pad", how: "tape", error: 20, on: "2026-04-12" }] },
};

describe("compareSites", () => {
  it("says by how much a thing was moved and which of its heights changed", () => {
    const after = { ...record, obstacles: [{ ...record.obstacles![0]!, at: [9300, -3200] as [number, number], crownFrom: 3500 }] };
    expect(compareSites(record, after)).toEqual([expect.objectContaining({
      key: "obstacles.oak", part: "obstacles", id: "oak", how: "changed",
      fields: [
        { kind: "place", field: "at", before: [9000, -3300], after: [9300, -3200], moved: { into: 300, left: 100 } },
        { kind: "length", field: "crownFrom", before: 3900, after: 3500 },
      ],
    })]);
  });

  it("gives outlines by what a person can picture", () => {
    const after = { ...record, pad: { ...record.pad, outline: [[0, -1800], [14000, -1800], [14000, 1800], [0, 1800]] as [number, number][] } };
    expect(compareSites(record, after)[0]!.fields).toEqual([{
      kind: "ring", field: "outline", moved: 300,
      before: { corners: 4, along: 13700, across: 3600, area: 13700 * 3600 }, after: { corners: 4, along: 14000, across: 3600, area: 14000 * 3600 },
    }]);
  });

  it("tells slopes from spot heights that say the same", () => {
    const heights: [number, number, number][] = [[0, 0, 0], [10000, 0, 150], [0, 1000, -8]];
    const [difference] = compareSites(record, { ...record, ground: { heights } });
    expect(difference!.fields.map(({ field }) => field)).toContain("heights");
    for (const field of difference!.fields) if (field.kind === "slope") expect(field.after).toBeCloseTo(field.before!, 9);
  });

  it("takes null, an empty list and nothing at all for one", () => {
    expect(compareSites(record, { ...record, lot: null, loop: undefined, parking: [] } as unknown as SiteInput)).toEqual([]);
  });

  it("keeps what the format does not know, and the order in which a site is walked", () => {
    const after = { ...record, remark: "seen", label: "C-7", hookups: [], rules: { maxGuests: 4, pets: true } } as SiteInput;
    expect(compareSites(record, after).map(({ key, how }) => `${key} ${how}`)).toEqual(["label changed", "hookups.ped removed", "rules.maxGuests changed", "other.remark added"]);
  });

  it("survives places and outlines that are none", () => {
    const after = { ...record, obstacles: [{ id: "oak", kind: "tree", at: ["x"] }] } as unknown as SiteInput;
    expect(compareSites(record, after)[0]!.fields.find(({ field }) => field === "at")).toMatchObject({ kind: "value" });
  });
});

describe("mergeSites", () => {
  const mine = { ...record, obstacles: [{ ...record.obstacles![0]!, crownFrom: 3500 }] };

  it("keeps a limb that I measured and a pedestal that they moved", () => {
    const theirs = { ...record, hookups: [{ ...record.hookups![0]!, height: 700 }] };
    const { record: both, conflicts } = mergeSites(record, mine, theirs);
    expect(conflicts).toEqual([]);
    expect(both.obstacles![0]!.crownFrom).toBe(3500);
    expect(both.hookups![0]!.height).toBe(700);
  });

  it("asks about a limb that both measured, and about one that I measured and they took out", () => {
    const other = { ...record, obstacles: [{ ...record.obstacles![0]!, crownFrom: 3700 }] };
    expect(mergeSites(record, mine, other).conflicts).toMatchObject([{ key: "obstacles.oak", mine: { crownFrom: 3500 }, theirs: { crownFrom: 3700 } }]);
    const gone = { ...record, obstacles: [] };
    const { conflicts, record: theirs } = mergeSites(record, mine, gone);
    expect(conflicts).toMatchObject([{ key: "obstacles.oak", theirs: undefined }]);
    expect(theirs.obstacles).toEqual([]);
    expect(mergeSites(record, mine, gone, new Map([["obstacles.oak", "mine"]])).record.obstacles).toEqual(mine.obstacles);
  });

  it("puts measurements together by their ids", () => {
    const measured = (id: string): SiteInput => ({ ...record, survey: { measurements: [...record.survey!.measurements!, { id, of: "ground", how: "level", error: 0.2, on: "2026-11-26" }] } });
    expect(mergeSites(record, measured("m2"), measured("m3")).record.survey!.measurements!.map(({ id }) => id)).toEqual(["m1", "m3", "m2"]);
  });
});
