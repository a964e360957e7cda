import { describe, expect, it } from "vitest";
import { fitSite, verdictOf, withNumbers, type Policy, type Verdict } from "@/lib/fit";
import { outlineFault, type Point } from "@/lib/plane";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { unknownsOf } from "@/lib/survey";
import { demoScenes } from "../scenes/demo-scenes";
import { randomFrom } from "../scenes/random";
import { scene } from "../scenes/random-scene";
import { surveyed } from "../scenes/surveyed";

/** One answer looks at no more numbers than this: of sites with more, some that turn it may go unnamed. */
const MOST_NUMBERS = 40;

/** Every measured number at both ends of its range, one after the other: the fields that turn the verdict by themselves. */
function turningFields(site: Site, rig: Rig, policy: Policy, now: Verdict): Set<string> {
  const bare: Site = { ...site, survey: undefined };
  return new Set(unknownsOf(site).flatMap(({ field, min, max }) => [min, max].flatMap((end) => {
    if (bare.ground.heights && field.startsWith("site.ground.")) return [];
    const changed = withNumbers(bare, [[field, end]]);
    const outlines: readonly (readonly Point[] | undefined)[] = [changed.pad.outline, changed.lot?.outline, ...changed.obstacles.map(({ outline }) => outline)];
    if (outlines.some((outline) => outline && outlineFault(outline) !== null)) return [];
    const there = verdictOf(changed, rig, policy);
    return there !== now && there !== "unsettled" ? [field] : [];
  })));
}

function holds(site: Site, rig: Rig, policy: Policy): "same" | "asks" | "turns" {
  const plain = fitSite({ ...site, survey: undefined }, rig, policy), result = fitSite(site, rig, policy);
  if (plain.verdict === "unsettled") return "same";
  const turning = turningFields(site, rig, policy, plain.verdict), named = new Set(result.asks.map(({ field }) => field));
  const flat = [...named].filter((field) => !(site.ground.heights && field.startsWith("site.ground.")));
  if (turning.size === 0 && named.size === 0) {
    expect(result).toEqual(plain);
    return "same";
  }
  if (unknownsOf(site).length <= MOST_NUMBERS) expect(new Set(flat)).toEqual(turning);
  else for (const field of flat) expect(turning).toContain(field);
  expect(named.size).toBeGreaterThan(0);
  for (const { below, above } of result.asks) expect([below, above]).toContain(plain.verdict);
  const decides = result.asks.some(({ below, above }) => (below === "no") !== (above === "no"));
  expect(result.verdict).toBe(decides ? "ask" : plain.verdict);
  return decides ? "turns" : "asks";
}

describe("errors of measurement", () => {
  it("name every number that turns the verdict by itself and no other, over random scenes: what is passed over unsolved could not have", () => {
    const seen = { same: 0, asks: 0, turns: 0 };
    for (let seed = 1; seed <= 100; seed++) {
      const { site, rig, policy } = scene(seed);
      try {
        seen[holds(surveyed(site, randomFrom(seed)), rig, policy)]++;
      } catch (error) {
        throw new Error(`seed ${seed}`, { cause: error });
      }
    }
    expect(seen.turns).toBeGreaterThan(5);
    expect(seen.same).toBeGreaterThan(20);
    expect(seen.asks).toBeGreaterThan(1);
  });

  it("do so over the demo park", () => {
    let scenes = 0;
    for (const { site, rig, policy } of demoScenes(31)) {
      try {
        holds(surveyed(site, randomFrom(++scenes)), rig, policy);
      } catch (error) {
        throw new Error(`${rig.id} on ${site.id}`, { cause: error });
      }
    }
    expect(scenes).toBeGreaterThan(40);
  });
});
