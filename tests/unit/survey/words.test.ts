import { describe, expect, it } from "vitest";
import { siteSchema } from "@/lib/park";
import { surveyCodes } from "@/lib/survey";
import { askSentence, surveyNoteSentence } from "@/lib/wording";
import { rig, site } from "../wording/scene";

const measured = siteSchema.parse({ ...site, survey: { measurements: [] } });
const told = (field: string, turnsAt: number) => askSentence({ field, turnsAt, below: "fits", above: "no" }, measured, rig, "metric");

describe("what the park has to measure again", () => {
  it("is a place by its distance from the pad's front edge or center line, on the side where it lies", () => {
    expect(told("site.obstacles.0.at.0", 9000)).toBe("This site’s own measurement is too rough to tell. The park has to measure again from the pad’s front edge in to the oak. Under 9.00 m it fits; above, it does not fit.");
    // To the right y falls below zero: nearer the line is the greater number.
    expect(told("site.obstacles.0.at.1", -3300)).toContain("from the pad’s center line to the right to the oak. Under 3.30 m it does not fit; above, it fits.");
    expect(told("site.pad.outline.2.1", 1800)).toContain("from the pad’s center line to the left to corner 3 of the");
  });

  it("is a height, a slope, a pressure in its own unit", () => {
    expect(told("site.obstacles.0.crownFrom", 3900)).toContain("lowest limb. Under 3.90 m");
    expect(told("site.ground.across", -1.25)).toContain("side to side. Under -1.");
    expect(told("site.hookups.1.pressure", 552)).toContain("the water pressure at the ");
    expect(told("site.hookups.1.pressure", 552)).toContain("Under 552 kPa it fits");
    expect(told("site.hookups.2.groundZ", -300)).toContain("below the pad. Under 30 cm it does not fit; above, it fits.");
  });
});

describe("what is wrong with measurements", () => {
  it("has a sentence for every code, with what to do and no gap where a name or number belongs", () => {
    for (const code of surveyCodes) {
      const text = surveyNoteSentence({ code, again: ["0", "1"], by: 120 }, (name) => `tape ${name}`, "metric");
      expect(text, code).toMatch(/^[A-Z].*\.$/);
      expect(text, code).not.toMatch(/undefined|null| {2}| ,/);
    }
    expect(surveyNoteSentence({ code: "tapes:disagree", again: ["C"], by: 304 }, (name) => `from ${name}`, "ft-in")).toBe("The tape from C disagrees with the others by 1 ft. Measure it again.");
  });
});
