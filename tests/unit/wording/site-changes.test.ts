import { describe, expect, it } from "vitest";
import { compareSites, siteSchema, type SiteInput } from "@/lib/park";
import { changeRows, nameOfDifference } from "@/lib/wording";

const record: SiteInput = {
  id: "c07", label: "C-07", entry: "back-in",
  pad: { outline: [[0, -1800], [13700, -1800], [13700, 1800], [0, 1800]], surface: "gravel" },
  ground: { along: 1.5, across: -0.8 },
  obstacles: [{ id: "oak", kind: "tree", at: [9000, -3300], trunkRadius: 280, crownRadius: 2600, crownFrom: 3900, crownTo: 11000 }],
  hookups: [{ id: "ped", kind: "power", at: [11000, -2400], height: 900, receptacles: [30, 50], volts: 120 }],
  rules: { maxGuests: 6, pets: true },
};

const rows = (after: SiteInput, units: "ft-in" | "metric" = "metric", before = record) =>
  changeRows(compareSites(before, after), siteSchema.parse(before), siteSchema.parse(after), units).map(({ thing, field, before: was, after: is, note }) => [thing, field, was, is, note].filter(Boolean).join(" | ").replaceAll("\u00a0", " "));

describe("what changes of a site, in words", () => {
  it("names the thing and its number, and says how far it was moved and to which side", () => {
    const oak = { ...record.obstacles![0]!, at: [9300, -3200] as [number, number], crownFrom: 3500, trunkRadius: 300 };
    expect(rows({ ...record, obstacles: [oak] })).toEqual([
      "Oak | Where it stands | 9.00 m past the entry edge, 3.30 m right of the centerline. | 9.30 m past the entry edge, 3.20 m right of the centerline. | Moved 30 cm farther in and 10 cm to the left.",
      "Oak | Trunk across | 56 cm | 60 cm",
      "Oak | Limbs begin at | 3.90 m | 3.50 m",
    ]);
    expect(rows({ ...record, obstacles: [{ ...oak, at: [9000, -3300], trunkRadius: 280 }] }, "ft-in")).toEqual(["Oak | Limbs begin at | 12 ft 9 1/2 in | 11 ft 6 in"]);
  });

  it("tells pads by their size, slopes by which way they rise, and rules by their numbers", () => {
    const after = { ...record, pad: { ...record.pad, outline: [[0, -1800], [12000, -1800], [12000, 1800], [0, 1800]] as [number, number][] }, ground: { along: 2, across: -0.8 }, rules: { maxGuests: 4, pets: true, maxLength: 9000 } };
    expect(rows(after)).toEqual([
      "Pad | Outline | 13.70 m by 3.60 m, 4 corners | 12.00 m by 3.60 m, 4 corners | A corner moved by up to 1.70 m.",
      expect.stringMatching(/^Ground \| Along \| .*1\.5.* \| .*2/),
      "Rules | Guests | 6 | 4",
      "Rules | Longest rig | nothing on record | 9.00 m",
    ]);
  });

  it("counts measurements, and not the ids of those that went", () => {
    const one = { id: "m1", of: "ground.along", how: "level" as const, error: 0.1, on: "2026-05-02" };
    expect(rows({ ...record, survey: { measurements: [one], removed: ["m0", "g1"] } })).toEqual(["How it was measured | 0 on record | 1 on record | 1 added."]);
  });

  it("describes what came as one would find it, and says of what went that it is taken away", () => {
    const rock = { id: "rock", kind: "rock", at: [5000, 2000] as [number, number], radius: 400, from: 0, to: 500 };
    expect(rows({ ...record, obstacles: [...record.obstacles!, rock], hookups: [] })).toEqual([
      "Rock | not there | 5.00 m past the entry edge, 2.00 m left of the centerline. 80 cm across, 50 cm high.",
      expect.stringMatching(/^Power pedestal \| 11\.00 m past the entry edge.*30 A and 50 A at 120 V.* \| taken away$/),
    ]);
  });

  it("counts measurements in one line, and tells notes of the park’s own by their names", () => {
    const survey = (...ids: string[]) => ({ measurements: ids.map((id) => ({ id, of: "pad", how: "tape" as const, error: 20, on: id === "m2" ? "2026-11-26" : "2026-04-12" })) });
    const [before, after] = [{ ...record, survey: survey("m1", "m0") }, { ...record, survey: survey("m1", "m2", "m3"), remark: "shady" } as SiteInput];
    expect(rows(after, "metric", before)).toEqual(["Note “remark” | nothing on record | shady", "How it was measured | 2 on record | 3 on record | 2 added and 1 taken out."]);
  });

  it("says of what has no words of its own only that it changed", () => {
    expect(rows({ ...record, roadEdge: [[0, -3000], [100, 3000]] })).toEqual(["Road edge | nothing on record | changed"]);
    expect(rows({ ...record, hookups: [{ ...record.hookups![0]!, receptacles: [50] }] })).toEqual(["Power pedestal | Receptacles | 30 A and 50 A | 50 A"]);
    expect(nameOfDifference({ part: "obstacles", id: "gone", key: "obstacles.gone" }, null, null)).toBe("Gone");
  });
});
