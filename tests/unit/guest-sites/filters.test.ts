import { describe, expect, it } from "vitest";
import { addressOf, queryWithoutUnits, siteAddress, type Standpoint } from "@/app/(guest)/sites/address";
import { filterNames, isFiltered, leftWith, leftWithout, passes, readFilters, without, type FilterName, type Filters } from "@/app/(guest)/sites/filters";
import { demoSites } from "../wording/scene";
import { answered } from "./scene";

const entries = answered("demo-tt-31");
const on = (...only: FilterName[]): Filters => ({ only, loop: null });
const shown = (filters: Filters) => entries.filter((e) => passes(e, filters));

describe("filters in the address", () => {
  it("are read in one order, and what they cannot mean is passed over", () => {
    expect(readFilters({ only: ["sewer", "gold", "pets", "sewer"], loop: "B" }, demoSites)).toEqual({ only: ["pets", "sewer"], loop: "B" });
    expect(readFilters({ only: "accessible", loop: "Z" }, demoSites)).toEqual({ only: ["accessible"], loop: null });
    expect(isFiltered(readFilters({}, demoSites))).toBe(false);
  });

  it("come back as they went out", () => {
    for (const filters of [on(), on("fits", "50-amp"), { only: ["back-in"], loop: "D" } satisfies Filters]) {
      const params = new URL(addressOf("http://x/sites", { query: "kind=van&want=water&want=power", units: "metric", filters, picked: ["d08"], skipped: ["height"] })).searchParams;
      expect(readFilters({ only: params.getAll("only"), loop: params.get("loop") ?? undefined }, demoSites)).toEqual(filters);
      expect([params.getAll("want"), params.get("units"), params.getAll("site")]).toEqual([["water", "power"], "metric", ["d08"]]);
    }
  });

  it("leave the units out where a link is to change them, and escape a site's id", () => {
    const standpoint: Standpoint = { query: "kind=van", units: "metric", filters: on("sewer"), picked: [], skipped: [] };
    expect(queryWithoutUnits(standpoint)).toBe("kind=van&only=sewer");
    expect(siteAddress("a/1", standpoint)).toBe("/sites/a%2F1?kind=van&units=metric&only=sewer");
  });
});

describe("what passes", () => {
  it("is everything where nothing is filtered", () => {
    expect(shown(on())).toHaveLength(demoSites.length);
  });

  it.each([
    ["pets", (s: (typeof demoSites)[number]) => s.rules?.pets !== false],
    ["pull-through", (s: (typeof demoSites)[number]) => s.entry === "pull-through"],
    ["back-in", (s: (typeof demoSites)[number]) => s.entry === "back-in"],
    ["50-amp", (s: (typeof demoSites)[number]) => s.hookups.some((h) => h.receptacles?.includes(50))],
    ["sewer", (s: (typeof demoSites)[number]) => s.hookups.some((h) => h.kind === "sewer")],
    ["water", (s: (typeof demoSites)[number]) => s.hookups.some((h) => h.kind === "water")],
    ["accessible", (s: (typeof demoSites)[number]) => s.rules?.accessible === true],
  ] as const)("%s lets through the sites that have it, some of them and not all", (name, has) => {
    const ids = shown(on(name)).map((e) => e.site.id);
    expect(ids.sort()).toEqual(demoSites.filter(has).map((s) => s.id).sort());
    expect(ids.length).toBeGreaterThan(0);
    expect(ids.length).toBeLessThan(demoSites.length);
  });

  it("rinse water is no water tap", () => {
    expect(shown(on("water")).map((e) => e.site.id)).not.toContain("b15");
  });

  it("a fit is one with what the guest has or with extra gear", () => {
    const both = answered("demo-class-c-27").filter((e) => passes(e, on("fits")));
    expect(new Set(both.map((e) => e.result.verdict))).toEqual(new Set(["fits", "gear"]));
  });

  it("two ways in are either of them, everything else holds together", () => {
    expect(shown(on("pull-through", "back-in"))).toHaveLength(demoSites.length);
    expect(shown(on("accessible", "sewer")).map((e) => e.site.id).sort()).toEqual(["d01", "d02", "d12"]);
  });
});

describe("what is told of filters", () => {
  it("how many each leaves is what it would show", () => {
    for (const filters of [on(), on("sewer"), { only: ["pull-through"], loop: "B" } satisfies Filters]) {
      for (const name of filterNames) {
        const others = name === "pull-through" || name === "back-in" ? filters.only.filter((n) => n !== "pull-through" && n !== "back-in") : filters.only;
        expect(leftWith(entries, filters, name)).toBe(shown({ ...filters, only: [...others, name] }).length);
      }
    }
  });

  it("which one keeps the most out comes first, the loop among them", () => {
    const filters: Filters = { only: ["pull-through", "accessible"], loop: "B" };
    expect(shown(filters)).toEqual([]);
    expect(leftWithout(entries, filters)).toEqual([{ dropped: "accessible", left: 16 }, { dropped: "pull-through", left: 0 }, { dropped: "loop", left: 0 }]);
    expect(without(filters, "loop")).toEqual({ only: ["pull-through", "accessible"], loop: null });
    expect(without(filters, "accessible")).toEqual({ only: ["pull-through"], loop: "B" });
  });
});
