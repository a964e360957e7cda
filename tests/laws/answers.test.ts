import { describe, expect, it } from "vitest";
import { fitSite } from "@/lib/fit";
import { checkResult } from "../checker/check-result";
import { disagreements } from "../checker/disagree";
import { answer, law } from "./support";

describe("every answer over random scenes", () => {
  it("holds what it claims, by a checker written apart from the engine", () => {
    law(600, (s) => expect(checkResult(s.site, s.rig, s.policy, answer(s))).toEqual([]));
  });

  it("is not contradicted by any sampled pose", () => {
    law(100, (s) => expect(disagreements(s.site, s.rig, s.policy, answer(s), 250, true)).toEqual([]), 1);
  });

  it("is settled within the usual budget", () => {
    law(300, (s) => expect(answer(s).verdict).not.toBe("unsettled"), 2);
  });

  it("leaves the question open on a small budget, and never answers it wrongly", () => {
    law(120, (s) => {
      const full = answer(s);
      for (const budget of [1, 20, 200]) {
        const small = fitSite(s.site, s.rig, s.policy, { budget });
        // a broken rule settles the verdict before the search for the most room has closed its gap
        const faults = checkResult(s.site, s.rig, s.policy, small).filter((f) => !f.startsWith("best.bound"));
        expect(faults).toEqual([]);
        if (small.verdict !== "unsettled") expect(small.verdict).toBe(full.verdict);
      }
    }, 3);
  });

  it("is the same every time", () => {
    law(50, (s) => expect(answer(structuredClone(s))).toEqual(answer(s)), 4);
  });

  it("covers every verdict, and scenes near the edge", () => {
    const seen: Record<string, number> = { near: 0 };
    law(300, (s) => {
      const r = answer(s);
      seen[r.verdict] = (seen[r.verdict] ?? 0) + 1;
      if (Math.abs(r.best.bound) < 100) seen.near!++;
    });
    for (const kind of ["fits", "gear", "no", "near"]) expect(seen[kind], kind).toBeGreaterThan(30);
  });
});
