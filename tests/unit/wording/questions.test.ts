import { describe, expect, it } from "vitest";
import type { Question } from "@/lib/insight/questions";
import { questionInWords } from "@/lib/wording";
import { rig } from "./scene";

const outlet: Question["unknown"] = { field: "rig.inlets.2.u", min: 2400, max: 3600, typical: 3000 };
const turn = (site: string, turnsAt: number, below: "fits" | "gear" | "no", above: "fits" | "gear" | "no", together: string[] = []) => ({ site, field: outlet.field, turnsAt, below, above, together });

describe("a question in words", () => {
  it("says what to measure, what was taken, and how many sites it would win, rounded to the safe side", () => {
    // 2800 mm is 110.2 in: told as 9 ft 2 in, not more.
    const turns = ["a", "b", "c", "d"].map((id) => turn(id, 2800, "fits", "no"));
    expect(questionInWords({ unknown: outlet, turns, decides: 4, brings: 0 }, rig, "ft-in")).toEqual({
      measure: "Measure from the rear wall forward to your sewer outlet.",
      taken: "We took 9 ft 10 in.",
      effects: ["Under 9 ft 2 in, four more sites fit."],
    });
  });

  it("says where the first and the last site turn, and what may be lost", () => {
    const turns = [turn("a", 2900, "fits", "no"), turn("b", 2700, "gear", "no"), turn("c", 3204, "fits", "no"), turn("d", 3406, "fits", "no")];
    expect(questionInWords({ unknown: outlet, turns, decides: 4, brings: 0 }, rig, "metric").effects).toEqual([
      "Under 2.90 m sites begin to fit; under 2.70 m, two more sites fit.",
      "Over 3.20 m sites drop out; over 3.40 m, two fewer sites fit.",
    ]);
  });

  it("says where only what to bring turns, and where it takes other numbers as well", () => {
    expect(questionInWords({ unknown: outlet, turns: [turn("a", 2900, "fits", "gear")], decides: 1, brings: 0 }, rig, "metric").effects).toEqual(["It changes what you have to bring."]);
    expect(questionInWords({ unknown: outlet, turns: [turn("a", 2900, "fits", "no", ["rig.body.width"])], decides: 1, brings: 0 }, rig, "metric").effects).toEqual(["Under 2.90 m, one more site fits.", "That is so only if other numbers you have not measured run the same way."]);
  });
});
