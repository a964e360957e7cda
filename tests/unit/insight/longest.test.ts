import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { defaultPolicy, verdictOf } from "@/lib/fit";
import { askingFor, groundAlone, hasSlides, lengthSteps, longestFit, variantOf, type LengthVariant } from "@/lib/insight";
import { siteSchema, type Site } from "@/lib/park";
import { lengthClassesOf, overallLength, typicalKinds, typicalRig, type Rig, type RigKind } from "@/lib/rig";

const sites = (JSON.parse(readFileSync("seed/quillback-meadow/sites.json", "utf8")) as { sites: unknown[] }).sites.map((site) => siteSchema.parse(site));
const FOOT = 304.8, INCH = 25.4;

/** A bare site: a pad of gravel, open on all sides. */
function bareSite(length: number): Site {
  return siteSchema.parse({ id: "bare", entry: "back-in", pad: { outline: [[0, -4000], [length, -4000], [length, 4000], [0, 4000]] }, ground: { along: 0, across: 0 }, hookups: [] });
}

function takes(site: Site): (rig: Rig) => boolean {
  const ground = groundAlone(site);
  return (rig) => ["fits", "gear"].includes(verdictOf(ground, askingFor(rig, ground), defaultPolicy));
}

describe("longestFit", () => {
  it("finds a limit on the length to the inch", () => {
    const limit = 30 * FOOT + 7 * INCH;
    expect(longestFit("travel-trailer", "slides", (rig) => overallLength(rig) <= limit + 1, lengthSteps["ft-in"])).toEqual({
      kind: "travel-trailer", variant: "slides", longest: expect.closeTo(limit, 3), posted: expect.closeTo(30 * FOOT, 3), beyondAll: false,
    });
  });

  it("finds it in metric steps, too", () => {
    const { longest, posted } = longestFit("travel-trailer", "slides", (rig) => overallLength(rig) <= 9_280, lengthSteps.metric);
    expect([posted, longest]).toEqual([9_000, 9_250]);
  });

  it("takes the longest where a shorter one does not fit", () => {
    // From 20 to 24 ft, and again from 28 to 32: it is the longer one that counts.
    const odd = (rig: Rig) => { const feet = overallLength(rig) / FOOT; return (feet > 19.9 && feet < 24.01) || (feet > 27.9 && feet < 32.01); };
    expect(longestFit("travel-trailer", "slides", odd, lengthSteps["ft-in"]).longest).toBeCloseTo(32 * FOOT, 3);
  });

  it("says so where none fits, and where there is no limit to be found", () => {
    expect(longestFit("van", "no-slides", () => false, lengthSteps["ft-in"])).toMatchObject({ longest: null, posted: null, beyondAll: false });
    const { longest, beyondAll } = longestFit("van", "no-slides", () => true, lengthSteps["ft-in"]);
    expect(beyondAll).toBe(true);
    expect(longest).toBeGreaterThan(lengthClassesOf("van").at(-1)!);
  });

  it("looks at a bounded number of lengths", () => {
    for (const kind of typicalKinds) {
      let asked = 0;
      longestFit(kind, "slides", () => { asked++; return false; }, lengthSteps["ft-in"]);
      expect(asked).toBeLessThan(40);
    }
  });

  it("gives back whatever limit there is, for every kind (random limits)", () => {
    fc.assert(fc.property(fc.constantFrom(...typicalKinds), fc.double({ min: 0, max: 1, noNaN: true }), (kind, share) => {
      const classes = lengthClassesOf(kind);
      const limit = classes[0]! + share * (classes.at(-1)! - classes[0]!);
      const { longest, posted } = longestFit(kind, "slides", (rig) => overallLength(rig) <= limit + 1e-3, lengthSteps["ft-in"]);
      expect(longest).not.toBeNull();
      expect(longest!).toBeLessThanOrEqual(limit + 2e-3);
      expect(longest! + INCH).toBeGreaterThan(limit);
      expect(posted!).toBeLessThanOrEqual(longest!);
    }), { seed: 20261125, numRuns: 300 });
  });

  it("on the true model: the length found fits, the posted one fits, and an inch more does not", () => {
    const some = sites.filter((_, i) => i % 6 === 0);
    for (const site of some) {
      const fits = takes(site);
      for (const kind of ["travel-trailer", "class-a", "fifth-wheel"] as RigKind[]) {
        for (const variant of ["slides", "no-slides"] as LengthVariant[]) {
          const { longest, posted, beyondAll } = longestFit(kind, variant, fits, lengthSteps["ft-in"]);
          const at = (length: number) => fits(variantOf(typicalRig(kind, length), variant));
          const name = `${site.id} ${kind} ${variant}`;
          if (longest === null) {
            for (const length of lengthClassesOf(kind)) expect(at(length), `${name}: ${length}`).toBe(false);
            continue;
          }
          expect(at(longest), name).toBe(true);
          expect(at(posted!), name).toBe(true);
          if (!beyondAll) expect(at(longest + INCH), name).toBe(false);
        }
      }
    }
  });

  it("never lets a slide's absence shorten what fits on the demo park, posted to the foot", () => {
    for (const site of sites.filter((_, i) => i % 6 === 1)) {
      const fits = takes(site);
      const [withSlides, without] = (["slides", "no-slides"] as const).map((variant) => longestFit("travel-trailer", variant, fits, lengthSteps["ft-in"]).posted ?? 0);
      expect(without, site.id).toBeGreaterThanOrEqual(withSlides!);
    }
  });

  it("grows with the pad", () => {
    const found = [7_000, 9_000, 11_000].map((length) => longestFit("class-c", "no-slides", takes(bareSite(length)), lengthSteps["ft-in"]).longest ?? 0);
    expect(found).toEqual([...found].sort((a, b) => a - b));
    expect(found[2]).toBeGreaterThan(found[0]!);
  });
});

describe("what could be posted", () => {
  it("sets aside the posted limit and who the site is kept for, and nothing else", () => {
    const site = sites.find((s) => s.rules?.maxLength !== undefined)!;
    expect(groundAlone(site)).toEqual({ ...site, rules: { ...site.rules, maxLength: undefined, accessible: false } });
  });

  it("asks for no service the site has not", () => {
    expect(askingFor(typicalRig("travel-trailer", 8000), bareSite(10_000)).wants).toEqual([]);
  });

  it("strips the slides of the other side", () => {
    const rig = typicalRig("travel-trailer", 35 * FOOT);
    const sidesOf = (variant: LengthVariant) => variantOf(rig, variant).parts.filter((p) => p.kind === "slide").map((p) => p.side);
    expect(sidesOf("slides")).toEqual(["left", "right"]);
    expect(sidesOf("slides-left")).toEqual(["left"]);
    expect(sidesOf("slides-right")).toEqual(["right"]);
    expect(sidesOf("no-slides")).toEqual([]);
    expect(variantOf(rig, "no-slides").parts.map((p) => p.id)).toEqual(rig.parts.filter((p) => p.kind !== "slide").map((p) => p.id));
    expect(hasSlides("van")).toBe(false);
    expect(hasSlides("fifth-wheel")).toBe(true);
  });
});
