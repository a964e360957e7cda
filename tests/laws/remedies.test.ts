import { describe, expect, it } from "vitest";
import { fitSite } from "@/lib/fit";
import { applyChange, type Case } from "@/lib/fit/refusal/changes";
import { answer, law } from "./support";

/** Amounts are told to 10 mm and a pose may fall short by the touch of 5 at either end: a third of less says nothing, mm. */
const CLEARLY = 90;

describe("every remedy over random scenes", () => {
  it("turns the refusal, solved anew, and a third less of it does not", () => {
    law(150, (s) => {
      if (answer(s).verdict !== "no") return;
      const result = fitSite(s.site, s.rig, s.policy, { remedies: true });
      for (const { changes, verdict } of result.remedies) {
        const after = changes.reduce<Case>((it, change) => applyChange(change, it), s);
        expect(fitSite(after.site, after.rig, after.policy).verdict).toBe(verdict);
        expect(["fits", "gear"]).toContain(verdict);
        if (changes.length !== 1 || !("amount" in changes[0]!) || changes[0].code === "add-receptacle" || changes[0].code === "trim" || changes[0].code === "move") continue;
        if (changes[0].amount < CLEARLY) continue;
        const less = applyChange({ ...changes[0], amount: (changes[0].amount * 2) / 3 }, s);
        expect(fitSite(less.site, less.rig, less.policy).verdict, JSON.stringify(changes)).toBe("no");
      }
    }, 60);
  });
});
