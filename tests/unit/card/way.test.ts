import { describe, expect, it } from "vitest";
import { planSetUp } from "@/lib/card/set-up";
import type { WayIn } from "@/lib/card/way";
import { cardInWords } from "@/lib/card/words";
import { policySchema } from "@/lib/fit";
import { findWayIn } from "@/lib/jobs/find-way-in";
import { parseLength } from "@/lib/measure";
import { numbersFor } from "@/lib/wording";
import { demo, type Stood } from "./demo";
import { gradeOf, sentencesOf } from "./readability";

const policy = policySchema.parse({});
const wayOf = ({ site, rig, result }: Stood) => findWayIn({ site, rig, pose: result.pose!, policy });
const said = (stood: Stood, way: WayIn | null) => cardInWords({ ...stood, units: "ft-in" }, planSetUp(stood.site, stood.rig, stood.result)!, [], way).way;

const lengthOf = (text: string): number => {
  const read = parseLength(text, "ft");
  return read.ok ? read.mm : expect.fail(`${text} is no length`);
};

describe("the way in on the card", () => {
  it("is told from the side the driver meets the site on, in sight or blind, with its room and the helper's place", () => {
    const stood = demo("d03", "demo-tt-31"), way = wayOf(stood)!;
    expect(way).toMatchObject({ state: "found", way: { from: "left", sight: "sight" } });
    expect(said(stood, way).slice(0, 2)).toEqual(["Come so that the site is on your left.", "You back toward your own side: you can see where you go."]);
    expect(said(stood, way).join(" ")).toMatch(/Tightest: \d.* between the tires and the edge of the firm ground\./);
    expect(said(stood, way).join(" ")).toMatch(/Helper at 1 on the drawing/);
    const blind = demo("c04", "demo-tt-23");
    expect(said(blind, wayOf(blind))[1]).toBe("You back toward your blind side: you do not see where you go. Have a helper, and take it slow.");
  });

  it("goes over a thread's border whole: it is plain data", () => {
    const way = wayOf(demo("d03", "demo-tt-31"));
    expect(structuredClone(way)).toEqual(way);
  });

  it("says that nobody measured it, and never that there is one, where there is no survey", () => {
    const stood = demo("d04", "demo-tt-23");
    expect(wayOf(stood)).toBeNull();
    expect(said(stood, null)).toEqual(["Nobody has measured the way in. Walk it before you drive it, with a helper."]);
  });

  it("sends who finds none to the desk, and tells none found from none there can be", () => {
    const stood = demo("c04", "demo-tt-31"), way = wayOf(stood)!;
    expect(way).toMatchObject({ state: "not-found", way: null });
    expect(said(stood, way)).toEqual(["No way in was found on the measurements. Staff checks it on the ground before you drive in. Call the desk."]);
    const barred: WayIn = { state: "no", barred: { code: "barred-between", things: ["cedar"], scope: "pad" }, unmeasured: ["gate"], way: null, other: null, nearest: null, leave: null, scrapes: [] };
    // And before the five lines that somebody in a hurry reads.
    const before = (of: Stood, how: WayIn | null) => cardInWords({ ...of, units: "ft-in" }, planSetUp(of.site, of.rig, of.result)!, [], how).before;
    expect(before(stood, way)).toBe(said(stood, way)[0]);
    expect(before(stood, barred)).toBe("On the measurements this rig cannot get to its place. Call the desk before you come.");
    expect([before(stood, null), before(demo("c04", "demo-tt-23"), wayOf(demo("c04", "demo-tt-23")))]).toEqual([null, null]);
    expect(said(stood, barred)).toEqual(["On the measurements this rig cannot get to its place. Call the desk before you come.", "What is in the way: the cedar.", "Not measured: gate. Look up."]);
  });

  it("tells the gap that a tape would read at the tightest place", () => {
    const stood = demo("c04", "demo-tt-23"), way = wayOf(stood)!;
    expect(said(stood, way)).toContain(`Tightest: ${numbersFor("ft-in").spare(way.way!.gap.gap!)} between the tires and the edge of the firm ground.`);
  });

  it("tells of a pull-through how one drives in and how one drives off it", () => {
    const stood = demo("b03", "demo-class-a-35"), lines = said(stood, wayOf(stood));
    expect(lines).toContain("Drive in forward, at a walk.");
    expect(lines.filter((line) => /^To leave, drive on forward to the far road and turn (left|right)\.$/.test(line))).toHaveLength(1);
    const under = demo("b08", "demo-class-c-27");
    expect(said(under, wayOf(under))).toContain("No way out over the far road was found. Staff shows you how to leave.");
    const open = demo("b12", "demo-van-20");
    expect(said(open, wayOf(open))).toContain("Our plan has no road at the far end. Ask the desk how to leave.");
  });

  it("turns, on leaving a back-in, the way the rig came along the road", () => {
    for (const [site, rig] of [["d03", "demo-tt-31"], ["c04", "demo-tt-23"]] as const) {
      const stood = demo(site, rig), { way } = wayOf(stood)!, [leg] = way!.legs, out = [...leg!.line].reverse(), [a, b] = [out.at(-2)!, out.at(-1)!];
      // Backing in is driving out in reverse: facing the road, whose left is where y falls.
      const turn = b[1] < a[1] ? "left" : "right", lines = said(stood, wayOf(stood)), told = lines.find((line) => line.startsWith("To leave"))!;
      expect(told).toMatch(new RegExp(`^To leave, drive the drawn line the other way: (.* straight ahead, then )?turn ${turn}\\.$`));
      expect(lines).toContain("The rear swings out as you turn. Have your helper watch it.");
      // Never further straight ahead than the way that was proven: its wheels are turned by then.
      const steered = leg!.frames.toReversed().find(({ steer }) => Math.abs(steer) > 5)!, ahead = /: (.*) straight ahead/.exec(told)?.[1];
      if (ahead) expect(lengthOf(ahead)).toBeLessThanOrEqual(leg!.length - steered.along);
    }
  });

  it("warns where the lowest part may scrape, says where nothing should, and never more than was measured", () => {
    const dip = demo("c02", "demo-tt-31");
    expect(said(dip, wayOf(dip))).toContain("There is a dip 3 ft 3 1/2 in past the road’s edge. The rear may scrape there. Go slow. Have your helper watch it.");
    const crest = demo("c11", "demo-tt-23");
    expect(said(crest, wayOf(crest)).join(" ")).toContain("There is a hump 2 ft 11 1/2 in past the road’s edge. On the measurements nothing scrapes. Go slow and watch all the same.");
    const flat = demo("d03", "demo-tt-31");
    expect(said(flat, wayOf(flat))).toContain("Dips and humps at the road’s edge: not measured. Go slow and watch the rear.");
  });

  it("reads at grade 8 or lower", () => {
    for (const [site, rig] of [["b03", "demo-class-a-35"], ["c02", "demo-tt-31"], ["b08", "demo-class-c-27"], ["d03", "demo-tt-31"], ["c04", "demo-tt-23"], ["c04", "demo-tt-31"]] as const) {
      const stood = demo(site, rig);
      expect(gradeOf(said(stood, wayOf(stood)).flatMap(sentencesOf))).toBeLessThanOrEqual(8);
    }
  });
});
