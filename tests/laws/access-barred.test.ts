import { describe, expect, it } from "vitest";
import { findAccess } from "@/lib/access";
import { defaultPolicy } from "@/lib/fit";
import { searchByShuffling } from "../checker/access-shuffle";
import { barelyScene } from "../scenes/barely-scenes";

/** Seeds are the scenes: a failure names its own. */
const scenes = Array.from({ length: 60 }, (_, seed) => ({ seed, ...barelyScene(seed) }));
const stateOf = ({ site, rig, poses }: (typeof scenes)[number]) => findAccess(site, rig, poses, defaultPolicy)!.state;
const states = new Map(scenes.map((scene) => [scene.seed, stateOf(scene)]));
/** A reading of room by points on outlines is good to so much, mm. */
const READING = 30;
const shuffled = (scene: (typeof scenes)[number], places: number) => searchByShuffling(scene.site, scene.rig, scene.poses[0]!, defaultPolicy, READING, places);

describe("that there can be no way", () => {
  it("is never said where a search that shuffles finds one", () => {
    const none = scenes.filter(({ seed }) => states.get(seed) === "no").slice(0, 8);
    expect(none.length).toBeGreaterThan(5);
    for (const scene of none) expect(shuffled(scene, 3000).reached, `seed ${scene.seed}: ${scene.why}, ${scene.spare} mm to spare`).toBe(false);
  });

  it("is never said where a straight way has room by its geometry, and always where a gate or a limit is short by more than a square's diagonal", () => {
    for (const { seed, why, spare } of scenes) {
      const known = why === "gate" || why === "low" || why === "strip";
      if (known && spare >= -defaultPolicy.touch) expect(states.get(seed), `seed ${seed}: ${why}, ${spare} mm to spare`).not.toBe("no");
      if (why === "low" && spare < -defaultPolicy.touch) expect(states.get(seed), `seed ${seed}: ${why}, ${spare} mm to spare`).toBe("no");
      if (why === "gate" && spare < -2 * Math.hypot(150, 150)) expect(states.get(seed), `seed ${seed}: ${why}, ${spare} mm to spare`).toBe("no");
    }
  });

  it("is not said of narrow roads and chicanes that only shuffling gets through: staff is to look", () => {
    const open = scenes.filter(({ seed, why }) => (why === "road" || why === "chicane") && states.get(seed) === "not-found").slice(0, 4);
    expect(open.filter((scene) => shuffled(scene, 1500).reached).length).toBeGreaterThan(0);
  });
});
