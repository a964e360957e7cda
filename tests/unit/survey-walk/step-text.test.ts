import { describe, expect, it } from "vitest";
import { siteSchema } from "@/lib/park";
import type { Reading, Step } from "@/lib/survey";
import { isAgain } from "@/app/manage/survey/[id]/reading";
import { stepText } from "@/app/manage/survey/[id]/step-text";

const site = siteSchema.parse({
  id: "s", entry: "back-in", pad: { outline: [[0, -2000], [12_000, -2000], [12_000, 2000], [0, 2000]] }, ground: { along: 0, across: 0 },
  obstacles: [{ id: "oak", kind: "tree", at: [9000, -3300], trunkRadius: 280, crownRadius: 2600, crownFrom: 3900, crownTo: 11_000 }],
  hookups: [{ id: "tap", kind: "water", at: [9000, 2600], height: 600 }],
});
const on = "2026-05-02";
const told = (reading: Omit<Reading, "id" | "on">, units: "ft-in" | "metric" = "ft-in") => { const { what, read } = stepText({ do: "read", reading: { id: "m1", on, ...reading } }, site, units); return `${what} | ${read}`; };

describe("what was measured, so that it can be typed anew", () => {
  it("is told with its thing, as exactly as it was read, in the reader's units", () => {
    expect(told({ of: "obstacles.oak.crownFrom", how: "pole", readings: { length: 3880 } })).toBe("Oak: lowest limb | 12 ft 8 3/4 in");
    expect(told({ of: "obstacles.oak.crownFrom", how: "pole", readings: { length: 3884 } }, "metric")).toBe("Oak: lowest limb | 3.884 m");
    expect(told({ of: "ground.across", how: "level", readings: { level: { across: { rise: -19, over: 1219 } } } })).toBe("Slope, side to side | Length of the level: 4 ft; Rise: 3/4 in; The right is higher");
    expect(told({ of: "ground.along", how: "inclinometer", readings: { percent: { along: 2.4 } } })).toBe("Slope, road to back | 2.4%; The far end is higher");
    expect(told({ of: "hookups.tap.pressure", how: "gauge", value: 413.7 })).toMatch(/^.*: pressure \| 60 psi$/);
  });

  it("has every tape by its point, with the side, every side and diagonal, every spot", () => {
    expect(told({ of: "obstacles.oak.at", how: "tape", readings: { tapes: [{ from: "pad.3", distance: 5000 }, { from: "pad.0", distance: 3000 }], side: "left" } }, "metric")).toBe("Oak: place | corner A: 5.00 m; corner B: 3.00 m; Into the site");
    expect(told({ of: "obstacles.oak.at", how: "offsets", readings: { offset: { along: 3000, across: -900 } } }, "metric")).toBe("Oak: place | Along, into the site: 3.00 m; Across: 90 cm; To the right, looking in");
    expect(told({ of: "pad", how: "tape", readings: { ring: { sides: [12_000, 4000, 12_000, 4000], diagonals: [{ from: 0, to: 2, length: 12_649 }] } } }, "metric")).toBe("The pad | B to C: 12.00 m; C to D: 4.00 m; D to A: 12.00 m; A to B: 4.00 m; B to D: 12.649 m");
    expect(told({ of: "ground", how: "spot-heights", readings: { spots: [[0, 2000, -30], [6000, 0, 120]] } }, "metric")).toBe("Heights at the corners | Height at corner A: −3 cm; Height at the middle: 12 cm");
    expect(told({ of: "obstacles.oak.crownFrom", how: "angle", readings: { angle: { distance: 10_000, top: 45, eye: 1600 } } }, "metric")).toBe("Oak: lowest limb | Distance to below it: 10.00 m; Angle up to it: 45°; Height of your eye: 1.60 m");
  });

  it("is what came new, and what is gone, of a thing that is not there any more as well", () => {
    const step: Step = { do: "add", kind: "tree", name: "Big elm", place: { id: "a1", on, how: "tape", readings: { tapes: [{ from: "pad.3", distance: 5000 }, { from: "obstacles.oak.at", distance: 3000 }], side: "right" } } };
    expect(stepText(step, site, "metric")).toEqual({ what: "Tree, Big elm", read: "corner A: 5.00 m; Oak: 3.00 m; Right, looking from the first to the second" });
    expect(stepText({ do: "gone", list: "obstacles", id: "old-elm" }, site, "metric")).toEqual({ what: "Old elm: place", read: "It is no longer there" });
  });
});

describe("a day on which to look again", () => {
  it("is a real one, not before the day of the reading and not a slip of the finger away", () => {
    expect(["2026-05-02", "2028-02-29", "2076-05-02"].map((day) => isAgain(day, on))).toEqual([true, true, true]);
    expect(["2026-05-01", "0027-05-02", "20277-05-02", "2027-02-29", "2076-05-03", "soon", ""].filter((day) => isAgain(day, on))).toEqual([]);
  });
});
