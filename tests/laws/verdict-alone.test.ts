import { describe, expect, it } from "vitest";
import { fitSite, verdictOf } from "@/lib/fit";
import { demoScenes } from "../scenes/demo-scenes";
import { scene } from "../scenes/random-scene";

describe("the verdict alone", () => {
  it("is the verdict of the whole answer, over the demo park", () => {
    for (const { site, rig, policy } of demoScenes(2)) expect(verdictOf(site, rig, policy), `${rig.id} on ${site.id}`).toBe(fitSite(site, rig, policy).verdict);
  });

  it("is the verdict of the whole answer, over random scenes", () => {
    for (let seed = 1; seed <= 400; seed++) {
      const { site, rig, policy } = scene(seed);
      expect(verdictOf(site, rig, policy), `seed ${seed}`).toBe(fitSite(site, rig, policy).verdict);
    }
  });
});
