import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { pageLimits, planImport, writeInventory, type Inventory, type Json } from "@/lib/exchange";
import { siteSchema } from "@/lib/park";

/** Whatever a park has, what is handed out of it is read back without a change, and makes the same park where there is none. */

const seed = 20_261_126, runs = 120;
const whole = fc.integer({ min: -200_000, max: 200_000 }), odd = fc.double({ min: -200_000, max: 200_000, noNaN: true, noDefaultInfinity: true }).map((n) => n + 0);
const coordinate = fc.oneof({ weight: 4, arbitrary: whole }, { weight: 1, arbitrary: odd }), length = coordinate.map(Math.abs);
/** Texts that people and other programs write, those that look like formulas, numbers and quotes among them. NUL is kept by no database. */
const texts = fc.oneof(fc.string({ minLength: 1, maxLength: 12, unit: "grapheme" }), fc.constantFrom("=1+1", "-5", "+x", "@a", "'", "''x", "a;b", 'say "so"', "a\nb", "\ta", "007", "C, by the creek", "１", "x ")).filter((text) => !text.includes("\0") && text.trim() !== "");
const maybe = <T>(of: fc.Arbitrary<T>) => fc.option(of, { nil: undefined });

/** A rectangle, so that it is an outline whatever its numbers; either way round. */
const outline = fc.tuple(coordinate, coordinate, fc.integer({ min: 1000, max: 30_000 }), fc.integer({ min: 500, max: 9000 }), fc.boolean()).map(([x, y, long, wide, turned]) => {
  const corners = [[x, y], [x + long, y], [x + long, y + wide], [x, y + wide]];
  return turned ? corners.reverse() : corners;
});
const obstacle = fc.oneof(
  fc.record({ kind: fc.constant("tree"), at: fc.tuple(coordinate, coordinate), trunkRadius: length, crownRadius: length, crownFrom: fc.constant(3000), crownTo: fc.constant(9000.5), removable: maybe(fc.boolean()) }),
  fc.record({ kind: texts, at: fc.tuple(coordinate, coordinate), radius: length, from: fc.constant(0), to: length }),
  fc.record({ kind: texts, outline, from: fc.constant(0), to: length, remark: maybe(texts) }),
);
const hookup = fc.record({ kind: fc.constantFrom("power", "water", "sewer"), at: fc.tuple(coordinate, coordinate), height: length, receptacles: fc.subarray([50, 30, 20, 15]), pressure: maybe(fc.integer({ min: 0, max: 900 })), groundZ: maybe(coordinate) });
const site = fc.record({
  label: maybe(texts), loop: maybe(texts), entry: fc.constantFrom("back-in", "pull-through"), pad: fc.record({ outline, surface: maybe(texts) }), lot: maybe(fc.record({ outline })),
  place: maybe(fc.record({ east: coordinate, north: coordinate, bearing: fc.integer({ min: 0, max: 359 }) })), ground: fc.record({ along: fc.double({ min: -20, max: 20, noNaN: true }), across: fc.constantFrom(0, -0.6, 1.25) }),
  rules: maybe(fc.record({ maxLength: fc.integer({ min: 1000, max: 20_000 }), pets: maybe(fc.boolean()), tents: maybe(fc.nat(9)) })), obstacles: fc.array(obstacle, { maxLength: 4 }), hookups: fc.array(hookup, { maxLength: 3 }), ownNote: maybe(texts),
});

const inventories = fc.array(site, { minLength: 1, maxLength: 4 }).map((made): Inventory => {
  const sites = made.map((one, i) => ({
    // As a database keeps it: nothing undefined, no minus zero.
    record: JSON.parse(JSON.stringify({ ...one, id: `s${i}`, obstacles: one.obstacles.map((thing, k) => ({ id: `o${k}`, ...thing })), hookups: one.hookups.map((thing, k) => ({ id: `h${k}`, ...thing })) })) as Json, version: 1,
  })).filter(({ record }) => siteSchema.safeParse(record).success);
  return { park: { slug: "p", name: "P", origin: { latitude: 43.6, longitude: -74.8, bearing: 21.7 } }, sites, rigs: [] };
}).filter(({ sites }) => sites.length > 0);

const files = (inventory: Inventory, format: "json" | "csv" | "geojson") => writeInventory(inventory, format)!.map(({ name, text }) => ({ name, bytes: new TextEncoder().encode(text) }));

describe("an inventory that goes out and comes in", () => {
  it.each(["json", "csv", "geojson"] as const)("changes nothing, as %s", (format) => {
    fc.assert(fc.property(inventories, fc.constantFrom("keep" as const, "remove" as const), (inventory, missing) => {
      const plan = planImport(files(inventory, format), inventory, missing, pageLimits);
      expect(plan.faults).toEqual([]);
      expect(plan.sites).toEqual([]);
    }), { seed, numRuns: runs });
  });

  it("makes the same park, byte for byte, as JSON", () => {
    fc.assert(fc.property(inventories, (inventory) => {
      const plan = planImport(files(inventory, "json"), { ...inventory, sites: [] }, "keep", pageLimits);
      expect(plan.faults).toEqual([]);
      const again = { ...inventory, sites: plan.sites.map(({ after }) => ({ record: after!, version: 1 })) };
      expect(files(again, "json")).toEqual(files(inventory, "json"));
    }), { seed, numRuns: runs });
  });

  it("says the same whatever order the fields of its records stand in", () => {
    const turned = (value: Json): Json => (Array.isArray(value) ? value.map(turned) : typeof value === "object" && value !== null ? Object.fromEntries(Object.entries(value).reverse().map(([name, held]) => [name, turned(held)])) : value);
    fc.assert(fc.property(inventories, (inventory) => {
      const other = { ...inventory, park: turned(inventory.park), sites: inventory.sites.map(({ record, version }) => ({ record: turned(record), version })) };
      expect(files(other, "json")).toEqual(files(inventory, "json"));
    }), { seed, numRuns: 40 });
  });
});
