import fc from "fast-check";
import { policySchema, type Policy, type PolicyInput } from "@/lib/fit/policy";
import { siteSchema, type Site } from "@/lib/park/schema";
import { rigSchema, type Rig } from "@/lib/rig/schema";
import { between, chance, pick, randomFrom, some, type Random } from "./random";
import { randomRig } from "./random-rig";
import { randomSite } from "./random-site";
import { thinner } from "./thinner";

/** One question: does this rig fit this site under this policy? The seed makes it again. */
export interface Scene {
  readonly seed: number;
  readonly site: Site;
  readonly rig: Rig;
  readonly policy: Policy;
}

const MOST = 0x7fffffff;

/** The scene of a seed. A draw whose outlines cross themselves is drawn again from the same stream. */
export function scene(seed: number): Scene {
  const r = randomFrom(seed);
  for (let attempt = 0; attempt < 50; attempt++) {
    const rig = rigSchema.safeParse(randomRig(r));
    if (!rig.success) continue;
    const site = siteSchema.safeParse(randomSite(r, rig.data));
    if (site.success) return { seed, site: site.data, rig: rig.data, policy: policySchema.parse(randomPolicy(r)) };
  }
  throw new Error(`seed ${seed} gives no readable scene in 50 draws`);
}

/** Scenes for fast-check: drawn by seed, shrunk by leaving things out. */
export function scenes(): fc.Arbitrary<Scene> {
  return new SceneArbitrary();
}

class SceneArbitrary extends fc.Arbitrary<Scene> {
  override generate(mrng: fc.Random): fc.Value<Scene> {
    return new fc.Value(scene(mrng.nextInt(0, MOST)), undefined);
  }
  override canShrinkWithoutContext(value: unknown): value is Scene {
    return typeof value === "object" && value !== null && "rig" in value;
  }
  override shrink(value: Scene): fc.Stream<fc.Value<Scene>> {
    return fc.stream(thinner(value)[Symbol.iterator]()).map((s) => new fc.Value(s, undefined));
  }
}

function randomPolicy(r: Random): PolicyInput {
  if (chance(r, 0.4)) return {};
  return {
    underBody: chance(r, 0.5) ? some(r, ["power", "water", "sewer"], 0.5) : undefined,
    overflow: chance(r, 0.5),
    clearance: pick(r, [150, 150, 100, 300, 0, 3]),
    footing: pick(r, [150, 150, 100, 0]),
    roadSetback: pick(r, [0, 0, 300]),
    comfort: pick(r, [600, 600, 300, 1000, 0]),
    touch: pick(r, [5, 5, 5, 5, 0, 10]),
    keepAccessible: chance(r, 0.7),
    levelWithin: pick(r, [0.9, 0.9, 0.5]),
    longest: chance(r, 0.3) ? { power: between(r, 7000, 15000), sewer: between(r, 3500, 6100) } : undefined,
  };
}
