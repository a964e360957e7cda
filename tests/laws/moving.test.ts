import { describe, expect, it } from "vitest";
import type { FitResult } from "@/lib/fit";
import { GAP } from "../checker/claims";
import type { Scene } from "../scenes/random-scene";
import { mirrored, movedAlong } from "../scenes/transform";
import { answer, better, clearlyHolds, law, refuse, settled } from "./support";

describe("the answer does not depend on where the frame lies", () => {
  for (const d of [1000, -123_456]) {
    it(`moving the scene by ${d} along the pad's line moves the pose only`, () => {
      law(120, (s) => same(s, answer(s), answer(movedAlong(s, d)), `moved by ${d}`), 10);
    });
  }

  it("mirroring site and rig changes nothing", () => {
    law(250, (s) => same(s, answer(s), answer(mirrored(s)), "mirrored"), 11);
  });
});

/** Both answers may differ by what the search leaves open: 5 mm, and either verdict between -touch and 0. */
function same(scene: Scene, before: FitResult, after: FitResult, what: string): void {
  if (!settled(before) || !settled(after)) return;
  const disputed = (a: FitResult, b: FitResult) => better(a, b) && clearlyHolds(a);
  if (disputed(before, after) || disputed(after, before)) refuse(what, before, after);
  if (before.best.bound >= 0 || after.best.bound >= 0) {
    expect(Math.abs(before.best.room - after.best.room), "best.room").toBeLessThanOrEqual(GAP + 1e-6);
    expect(before.best.room, "best.room against the other bound").toBeLessThanOrEqual(after.best.bound + 1e-6);
    expect(after.best.room, "best.room against the other bound").toBeLessThanOrEqual(before.best.bound + 1e-6);
  }
  if (before.verdict !== after.verdict || before.leftIn.join() !== after.leftIn.join() || !clearlyHolds(before) || !clearlyHolds(after)) return;
  const room = (r: FitResult) => Math.min(r.room!, scene.policy.comfort);
  expect(Math.abs(room(before) - room(after)), `room, ${what}`).toBeLessThanOrEqual(GAP + 1e-6);
}
