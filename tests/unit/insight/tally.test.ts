import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { defaultPolicy, fitSite } from "@/lib/fit";
import { byMostTakenIn, byMostTurnedAway, cellOf, tallyOf, tallyRigs, tallySites, type FitCell, type FitMatrix } from "@/lib/insight";
import { siteSchema } from "@/lib/park";
import { rigSchema } from "@/lib/rig";

function read(name: string): unknown {
  return JSON.parse(readFileSync(`seed/quillback-meadow/${name}`, "utf8"));
}

const sites = (read("sites.json") as { sites: unknown[] }).sites.map((site) => siteSchema.parse(site));
const rigs = (read("rigs.json") as { rigs: { rig: unknown }[] }).rigs.map(({ rig }) => rigSchema.parse(rig));
const matrix: FitMatrix = { sites, rigs, cells: sites.map((site) => rigs.map((rig) => cellOf(fitSite(site, rig, defaultPolicy)))) };

const cell = (verdict: FitCell["verdict"], ...turnedAwayBy: string[]): FitCell => ({ verdict, tight: false, reason: null, needs: [], level: { ok: "own" }, bring: [], turnedAwayBy });

describe("tallyOf", () => {
  it("counts what turns away, alone and with others, the most first", () => {
    const { all, verdicts, turnedAwayBy } = tallyOf([cell("fits"), cell("gear"), cell("no", "thing:oak"), cell("no", "thing:oak", "pad"), cell("no", "pad"), cell("no", "thing:oak")]);
    expect(all).toBe(6);
    expect(verdicts).toEqual({ fits: 1, gear: 1, ask: 0, unsettled: 0, no: 4 });
    expect(turnedAwayBy).toEqual([{ by: "thing:oak", count: 3, alone: 2 }, { by: "pad", count: 2, alone: 1 }]);
  });

  it("has nothing to say of nothing", () => {
    expect(tallyOf([])).toEqual({ all: 0, verdicts: { fits: 0, gear: 0, ask: 0, unsettled: 0, no: 0 }, turnedAwayBy: [] });
  });
});

describe("the demo park's matrix", () => {
  it("says of every refusal what turns the rig away, and of nothing else", () => {
    for (const [s, row] of matrix.cells.entries()) {
      for (const [r, { verdict, turnedAwayBy, reason }] of row.entries()) {
        expect(turnedAwayBy.length > 0, `${sites[s]!.id} ${rigs[r]!.id}`).toBe(verdict === "no");
        if (verdict === "no") expect(reason).not.toBeNull();
        expect(new Set(turnedAwayBy).size).toBe(turnedAwayBy.length);
      }
    }
  });

  it("names things that are on the site", () => {
    for (const [s, row] of matrix.cells.entries()) {
      const there = new Set([...sites[s]!.obstacles, ...sites[s]!.hookups].map(({ id }) => `thing:${id}`));
      for (const by of row.flatMap(({ turnedAwayBy }) => turnedAwayBy)) if (by.startsWith("thing:")) expect(there).toContain(by);
    }
  });

  it("comes to the same total by sites and by rigs", () => {
    const total = (tallies: ReturnType<typeof tallySites>) => tallies.reduce((sum, { verdicts }) => sum + verdicts.no, 0);
    expect(total(tallySites(matrix))).toBe(total(tallyRigs(matrix)));
    expect(total(tallySites(matrix))).toBe(matrix.cells.flat().filter(({ verdict }) => verdict === "no").length);
  });

  it("counts a rig's trees together, and no single tree", () => {
    const all = tallyRigs(matrix).flatMap(({ turnedAwayBy }) => turnedAwayBy.map(({ by }) => by));
    expect(all).toContain("kind:tree");
    expect(all.filter((by) => by.startsWith("thing:"))).toEqual([]);
  });

  it("orders by how many are turned away and by how many are taken in", () => {
    const tallies = tallySites(matrix);
    const no = byMostTurnedAway(tallies).map((i) => tallies[i]!.verdicts.no);
    expect(no).toEqual([...no].sort((a, b) => b - a));
    const taken = byMostTakenIn(tallies).map((i) => tallies[i]!.verdicts.fits + tallies[i]!.verdicts.gear);
    expect(taken).toEqual([...taken].sort((a, b) => b - a));
    expect([...byMostTurnedAway(tallies)].sort((a, b) => a - b)).toEqual(tallies.map((_, i) => i));
  });
});
