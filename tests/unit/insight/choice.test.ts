import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { addressOf, loopsIn, readChoice } from "@/app/manage/fits/choice";
import { siteSchema, type Site } from "@/lib/park";

const sites = (JSON.parse(readFileSync("seed/quillback-meadow/sites.json", "utf8")) as { sites: unknown[] }).sites.map((site) => siteSchema.parse(site));
const park = { sites, keptRigs: 27, parkUnits: "ft-in" } as const;

describe("readChoice", () => {
  it("shows the park's own rigs in its own order where nothing is said", () => {
    expect(readChoice({}, park)).toEqual({ rigs: "park", sites: "listed", across: "listed", loop: null, units: "ft-in" });
  });

  it("shows typical rigs where the park keeps none", () => {
    expect(readChoice({}, { ...park, keptRigs: 0 }).rigs).toBe("all");
  });

  it("takes what it cannot read as not said", () => {
    expect(readChoice({ rigs: "spaceship", sites: "sideways", across: ["turned-away", "x"], loop: "Z", units: "cubits" }, park)).toEqual({ rigs: "park", sites: "listed", across: "turned-away", loop: null, units: "ft-in" });
  });

  it("reads back every choice it writes", () => {
    for (const rigs of ["park", "all", "fifth-wheel"] as const) {
      for (const loop of [null, ...loopsIn(sites)]) {
        const choice = { rigs, sites: "turned-away", across: "listed", loop, units: "metric" } as const;
        const params = Object.fromEntries(new URL(addressOf(choice), "http://park.test").searchParams);
        expect(readChoice(params, park)).toEqual(choice);
      }
    }
  });

  it("shows one loop of a park so large that its page would be slow, unless all are asked for", () => {
    const large: Site[] = Array.from({ length: 600 }, (_, i) => ({ ...sites[i % sites.length]!, id: `s${i}` }));
    expect(readChoice({}, { ...park, sites: large }).loop).toBe("A");
    expect(readChoice({ loop: "*" }, { ...park, sites: large }).loop).toBeNull();
    expect(readChoice({ loop: "C" }, { ...park, sites: large }).loop).toBe("C");
  });
});
