import { describe, expect, it } from "vitest";
import { checkResult } from "../checker/check-result";
import { disagreements } from "../checker/disagree";
import { demoScenes } from "../scenes/demo-scenes";
import { answer } from "./support";

describe("the demo park's rigs on its sites", () => {
  it("get answers that hold what they claim", () => {
    for (const s of demoScenes(6)) expect(checkResult(s.site, s.rig, s.policy, answer(s)), `${s.rig.id} on ${s.site.id}`).toEqual([]);
  });

  it("get answers that no sampled pose contradicts", () => {
    for (const s of demoScenes(60)) expect(disagreements(s.site, s.rig, s.policy, answer(s), 400, true), `${s.rig.id} on ${s.site.id}`).toEqual([]);
  });
});
