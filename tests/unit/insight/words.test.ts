import { readFileSync } from "node:fs";
import { afterAll, describe, expect, it } from "vitest";
import { defaultPolicy, fitSite, policySchema } from "@/lib/fit";
import { hindrancesOf, kindsTallied, lengthSteps, cellOf, type FitMatrix } from "@/lib/insight";
import { closePool } from "@/lib/jobs/fit-pool";
import { longestRigs } from "@/lib/jobs/longest-rigs";
import { siteSchema } from "@/lib/park";
import { rigSchema, typicalKinds } from "@/lib/rig";
import { catalogueOf, siteThing } from "@/lib/wording";

function read(name: string): unknown {
  return JSON.parse(readFileSync(`seed/quillback-meadow/${name}`, "utf8"));
}

const sites = (read("sites.json") as { sites: unknown[] }).sites.map((site) => siteSchema.parse(site));
const rigs = (read("rigs.json") as { rigs: { rig: unknown }[] }).rigs.map(({ rig }) => rigSchema.parse(rig));
const { insight } = catalogueOf();

afterAll(() => closePool());

describe("what turns a rig away, in words", () => {
  it("names every hindrance of the demo park as a person would, and never by its key", () => {
    const said = new Set<string>();
    for (const site of sites) {
      for (const rig of rigs) {
        const result = fitSite(site, rig, defaultPolicy);
        if (result.verdict !== "no") continue;
        for (const by of hindrancesOf(result)) said.add(insight.hindrance(by, by.startsWith("thing:") ? siteThing(by.slice(6), site) : null));
      }
    }
    expect([...said].filter((text) => text.includes(":") || text === "")).toEqual([]);
    for (const expected of ["the posted length limit", "no sewer hookup", "the size of the pad", "the edge of the site"]) expect(said).toContain(expected);
    expect([...said].some((text) => /^the oak\b/.test(text))).toBe(true);
  });

  it("names kinds in the plural where sites count together", () => {
    const matrix: FitMatrix = { sites, rigs: rigs.slice(0, 12), cells: sites.map((site) => rigs.slice(0, 12).map((rig) => cellOf(fitSite(site, rig, defaultPolicy)))) };
    const said = new Set(kindsTallied(matrix).flat().flatMap(({ turnedAwayBy }) => turnedAwayBy.map((by) => insight.hindrance(by, null))));
    expect(said).toContain("trees");
    expect([...said].filter((text) => text.includes(":"))).toEqual([]);
  });

  it("tells each with its own words", () => {
    const told = (by: string) => insight.hindrance(by, null);
    expect(["rule:accessible:kept", "rule:accessible:lacking", "missing:water", "run:sewer", "inlet:sewer", "kind:fire-ring", "kind:bench", "hookup:power", "power", "fall", "slope", "vehicle"].map(told)).toEqual([
      "kept for guests who need an accessible site", "not an accessible site", "no drinking water", "the distance to the sewer hookup", "no sewer inlet on the rig",
      "fire rings", "benches", "power pedestals", "what the power pedestal offers", "the height of the sewer drain", "the slope of the pad", "no place for a vehicle",
    ]);
  });
});

describe("a line to post", () => {
  const { line } = insight.longest;

  it("tells lengths with and without slides", () => {
    expect(line("Travel trailers", "33 ft", "36 ft", true)).toBe("Travel trailers up to 33 ft with slides out, 36 ft without.");
    expect(line("Travel trailers", "33 ft", "33 ft", true)).toBe("Travel trailers up to 33 ft, slides in or out.");
    expect(line("Travel trailers", null, "24 ft", true)).toBe("Travel trailers up to 24 ft, without slides only.");
    expect(line("Travel trailers", null, null, true)).toBe("No travel trailers.");
    expect(line("Vans", null, "21 ft", false)).toBe("Vans up to 21 ft.");
    expect(line("Vans", null, null, false)).toBe("No vans.");
    expect(insight.longest.any("Vans")).toBe("Vans of any usual length.");
  });

  it("gives whole feet and tenths of a meter, of lengths that were tried", () => {
    expect(insight.longest.wholeLength(33 * 304.8, false)).toBe("33 ft");
    expect(insight.longest.wholeLength(9500, true)).toBe("9.5 m");
  });
});

describe("longestRigs", () => {
  it("answers for every kind, and from memory the second time", async () => {
    const site = sites.find((s) => s.id === "b01") ?? sites[20]!;
    const found = await longestRigs(site, defaultPolicy, lengthSteps["ft-in"]);
    expect([...new Set(found.map(({ kind }) => kind))]).toEqual([...typicalKinds]);
    expect(found.filter(({ kind }) => kind === "van").map(({ variant }) => variant)).toEqual(["no-slides"]);
    expect(found.filter(({ kind }) => kind === "fifth-wheel").map(({ variant }) => variant)).toEqual(["slides", "no-slides"]);
    expect(await longestRigs(siteSchema.parse(JSON.parse(JSON.stringify(site))), defaultPolicy, lengthSteps["ft-in"])).toBe(found);
  });

  it("does not take a stricter park's answer from a laxer one", async () => {
    const site = sites[0]!;
    const lax = await longestRigs(site, defaultPolicy, lengthSteps["ft-in"]);
    const strict = await longestRigs(site, policySchema.parse({ footing: 900 }), lengthSteps["ft-in"]);
    const total = (all: typeof lax) => all.reduce((sum, { longest }) => sum + (longest ?? 0), 0);
    expect(total(strict)).toBeLessThan(total(lax));
  });

  it("gives up for an asker who has gone", async () => {
    const asker = new AbortController();
    asker.abort();
    await expect(longestRigs(sites[5]!, defaultPolicy, lengthSteps.metric, { signal: asker.signal })).rejects.toMatchObject({ why: "asker" });
  });
});
