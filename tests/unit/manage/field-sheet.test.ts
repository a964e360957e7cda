import { describe, expect, it } from "vitest";
import { readChosen } from "@/app/manage/survey/sheet/chosen";
import { grid, gridHeight, onPaper, squareFor } from "@/app/manage/survey/sheet/grid-scale";
import { blankSheet, sheetOf } from "@/app/manage/survey/sheet/sheet-site";
import { letterCorners, letterOf } from "@/lib/survey";
import type { StaffContext } from "@/app/manage/context";
import { signedArea } from "@/lib/plane";
import { demoSites } from "../wording/scene";

const context = { park: { units: "ft-in" }, surveyed: demoSites.map((site) => ({ site, measuredOn: null })), loops: [] } as unknown as StaffContext;

describe("the letters of a pad's corners", () => {
  it("begin in front on the left, as one looks in from the road, and go around by the right", () => {
    const square = [[0, -2], [10, -2], [10, 2], [0, 2]] as const;
    const lettered = [{ letter: "A", at: [0, 2] }, { letter: "B", at: [0, -2] }, { letter: "C", at: [10, -2] }, { letter: "D", at: [10, 2] }];
    expect(letterCorners(square)).toEqual(lettered);
    // Wherever the record begins, and whichever way it goes around.
    expect(letterCorners([...square.slice(2), ...square.slice(0, 2)])).toEqual(lettered);
    expect(letterCorners([...square].reverse())).toEqual(lettered);
  });

  it("have A on the left of B and the pad beyond both, on every site of the demo park", () => {
    for (const { id, pad } of demoSites) {
      const corners = letterCorners(pad.outline), [a, b] = corners;
      expect(corners, id).toHaveLength(pad.outline.length);
      expect(a!.at[1], id).toBeGreaterThan(b!.at[1]);
      expect(signedArea(corners.map(({ at }) => at)), id).toBeCloseTo(Math.abs(signedArea(pad.outline)), 3);
      // The origin is the middle of the entry edge.
      expect(Math.hypot((a!.at[0] + b!.at[0]) / 2, (a!.at[1] + b!.at[1]) / 2), id).toBeLessThan(300);
    }
  });

  it("go on after Z", () => {
    expect([0, 25, 26, 27, 51, 52].map(letterOf)).toEqual(["A", "Z", "AA", "AB", "AZ", "BA"]);
  });
});

describe("a sheet", () => {
  it("names everything on record, none of its numbers, and has empty lines for what is new", () => {
    for (const site of demoSites) {
      const sheet = sheetOf(site);
      expect(sheet.obstacles.slice(0, site.obstacles.length).map((line) => line?.obstacle)).toEqual(site.obstacles);
      expect(sheet.obstacles.filter((line) => line === null).length, site.id).toBeGreaterThanOrEqual(3);
      expect(sheet.hookups.filter((line) => line === null).length, site.id).toBeGreaterThanOrEqual(2);
      expect(sheet.letters.length, site.id).toBeGreaterThanOrEqual(site.pad.outline.length + 1);
    }
    expect(blankSheet.obstacles.every((line) => line === null)).toBe(true);
  });

  it("is of a site, of all the sites of a loop, or blank, as the address says; what is not there is said", () => {
    expect(readChosen({}, context)).toMatchObject({ of: "", unknown: false, paper: "letter", units: "ft-in", sheets: [{ id: null }] });
    expect(readChosen({ of: "site:c07", paper: "a4" }, context)).toMatchObject({ of: "site:c07", paper: "a4", sheets: [{ id: "c07", loop: "C" }] });
    const loop = readChosen({ of: "loop:C", units: "metric" }, context);
    expect(loop.sheets.map(({ id }) => id)).toEqual(demoSites.filter((site) => site.loop === "C").map(({ id }) => id));
    expect(loop).toMatchObject({ paper: "a4", units: "metric" });
    expect(readChosen({ of: "site:nowhere", paper: "napkin" }, context)).toMatchObject({ of: "", unknown: true, paper: "letter", sheets: [{ id: null }] });
  });
});

describe("the sketch", () => {
  it("has the pad and the lot of every site on the paper", () => {
    for (const units of ["ft-in", "metric"] as const) {
      for (const site of demoSites) {
        const { extent, obstacles } = sheetOf(site), height = gridHeight(obstacles.length), square = squareFor(extent, height, units);
        for (const [x, y] of extent!.map((at) => onPaper(at, square, height))) {
          expect(x >= 0 && x <= grid.width && y >= 0 && y <= height, `${site.id} at ${x}, ${y}`).toBe(true);
        }
      }
    }
  });

  it("gives way to a longer table, so that both stay on one page", () => {
    expect(gridHeight(8)).toBe(92);
    expect(gridHeight(8) - gridHeight(11)).toBeGreaterThanOrEqual(3 * 7.2);
    expect(gridHeight(100)).toBe(56);
    expect(gridHeight(11) % grid.square).toBe(0);
  });
});
