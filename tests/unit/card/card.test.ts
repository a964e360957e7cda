import { inflateSync } from "node:zlib";
import { describe, expect, it } from "vitest";
import { elevationsOf } from "@/lib/card/elevation";
import { findMarks, toOutline } from "@/lib/card/marks";
import { renderCard } from "@/lib/card/pdf";
import { blockHeight, planSetUp, type SetUp, type Step } from "@/lib/card/set-up";
import { cardInWords } from "@/lib/card/words";
import { fitSite, policySchema } from "@/lib/fit";
import { approachSchema, hookupSchema, siteSchema } from "@/lib/park";
import { findWayIn } from "@/lib/jobs/find-way-in";
import { isMotorized } from "@/lib/rig";
import { numbersFor } from "@/lib/wording";
import { arrival } from "@/lib/wording/en/arrival";
import { keptPage } from "@/lib/wording/en/kept-page";
import { demo, everyStand, stand, type Stood } from "./demo";
import { gradeOf, sentencesOf, syllablesOf } from "./readability";

const all = everyStand();
const plan = ({ site, rig, result }: Stood): SetUp => planSetUp(site, rig, result)!;
const does = ({ steps }: SetUp) => steps.map((step) => step.does);
const wordsOf = (stood: Stood) => cardInWords({ ...stood, units: "ft-in" }, plan(stood), [], null);
const linesOf = (stood: Stood, step: Step["does"]) => wordsOf(stood).steps.find((one) => one.does === step)?.lines ?? [];

describe("the order of setting up", () => {
  it("covers enough rigs and sites to mean something", () => expect(all.length).toBeGreaterThan(200));

  it("is always: look, stand, check, level, chock before unhitching, power, water, sewer, gas, slides, awning last", () => {
    const unhitched: Step["does"][] = ["look", "stand", "check", "level-side", "chock", "unhitch", "level-along", "stabilize", "power", "water", "sewer", "gas", "slides", "parts", "awning", "vehicle"];
    // What drives onto blocks does so before it is chocked.
    const whole: Step["does"][] = ["look", "uncouple", "stand", "check", "level-side", "level-along", "chock", "stabilize", "jacks", "power", "water", "sewer", "gas", "slides", "parts", "awning", "vehicle"];
    for (const stood of all) {
      const there = does(plan(stood));
      expect(there).toEqual((there.includes("unhitch") ? unhitched : whole).filter((step) => there.includes(step)));
    }
  });

  it("has only the steps that the rig and the site have", () => {
    for (const stood of all) {
      const there = does(plan(stood)), { rig, result } = stood;
      expect(there.includes("unhitch")).toBe(!isMotorized(rig.kind) && result.vehicle !== "hitched");
      expect(there.includes("slides")).toBe(rig.parts.some(({ kind }) => kind === "slide"));
      for (const service of ["power", "water", "sewer"] as const) if (!rig.wants.includes(service)) expect(there).not.toContain(service);
    }
  });

  it("leaves in the reverse order and walks around before anything moves, whoever it is; only the car in tow comes after that", () => {
    const undone = { power: "power", water: "water", sewer: "sewer", gas: "gas", slides: "slides", parts: "parts", awning: "awning" } as const;
    for (const stood of all) {
      const { steps, leaving } = plan(stood), reverse = steps.filter((step) => step.does in undone && (!("out" in step) || step.out.length > 0)).map((step) => step.does).reverse();
      expect(leaving.filter((what) => what in undone)).toEqual(reverse);
      expect(leaving.filter((what) => what !== "car").at(-1)).toBe("walk");
      expect(leaving.indexOf("hitch")).toBeLessThan(leaving.indexOf("chocks"));
      expect(leaving.indexOf("jacks")).toBeLessThan(leaving.indexOf("chocks"));
    }
    expect(arrival.leaving.car).toMatch(/Walk around both once more\.$/);
  });

  it("opens beds, and folds them in before it leaves", () => {
    const folding = all.find(({ rig }) => rig.kind === "folding-trailer")!;
    expect(linesOf(folding, "parts").join(" ")).toMatch(/level and still\? Then open them as your manual says\..*Open: /);
    expect(plan(folding).leaving).toContain("parts");
    expect(all.some((stood) => !does(plan(stood)).includes("parts"))).toBe(true);
  });
});

describe("leveling", () => {
  const flat = demo("d03", "demo-tt-31"), { site, rig } = flat;
  const on = (along: number, across: number) => stand({ ...site, ground: { along, across, heights: undefined } }, rig);

  it("raises the side that is lower as the rig stands: backed in, ground that rises to the site's left is lower on the rig's left", () => {
    expect(plan(on(0, 2)).side).toMatchObject({ low: "left" });
    expect(plan(on(0, -2)).side).toMatchObject({ low: "right" });
    expect(plan(on(2, 0)).along).toMatchObject({ low: "front" });
    expect(plan(on(-2, 0)).along).toMatchObject({ low: "rear" });
    expect(plan(on(0.2, 0.2))).toMatchObject({ side: null, along: null });
  });

  it("counts blocks so that they are never too few, and none for what is level", () => {
    for (const stood of all) {
      const { side } = plan(stood);
      if (side) expect(side.blocks * blockHeight).toBeGreaterThanOrEqual(side.lift - 1e-6);
      if (side) expect((side.blocks - 1) * blockHeight).toBeLessThan(side.lift);
    }
  });

  it("warns of rolling where the pad slopes front to back, also where the park takes that for level, and not where it is", () => {
    expect(linesOf(on(-2, 0), "chock").join(" ")).toContain("This pad slopes 2.0% front to back. Rigs have rolled on less.");
    expect(linesOf(on(0, 2), "chock").join(" ")).not.toContain("rolled");
    const sloping = { ...site, ground: { along: -1.9, across: 0, heights: undefined } }, lenient = { site: sloping, rig, result: fitSite(sloping, rig, policySchema.parse({ levelWithin: 2 })) };
    expect(plan(lenient).along).toBeNull();
    expect(linesOf(lenient, "chock").join(" ")).toContain("This pad slopes 1.9% front to back.");
  });

  it("lifts a front off its hitch by what carries it, and no truck with a jack", () => {
    expect(linesOf(on(2, 0), "level-along")).toEqual([expect.stringMatching(/^The front is low\. Raise it .* with the jack\.$/)]);
    const fifth = demo("b11", "demo-fw-28");
    expect(linesOf(stand({ ...fifth.site, ground: { along: 1, across: 0, heights: undefined } }, fifth.rig), "level-along").join(" ")).toContain("with the front legs.");
    expect(linesOf(fifth, "unhitch")[0]).toContain("lower the front legs");
    const hitched = stand({ ...demo("b12", "demo-tt-23").site, ground: { along: 1, across: 0, heights: undefined } }, { ...rig, tow: { ...rig.tow!, stays: "hitched" } });
    expect(hitched.result.vehicle).toBe("hitched");
    for (const stays of [hitched, ...all.filter(({ rig: { kind }, result }) => !isMotorized(kind) && result.vehicle === "hitched")]) {
      expect(linesOf(stays, "level-along").join(" ")).not.toMatch(/with the (jack|front legs)/);
      expect(wordsOf(stays).five.map(({ text }) => text).join(" ")).not.toMatch(/front (up|down)/);
    }
    expect(linesOf(hitched, "level-along").join(" ")).toContain("The rig stays hitched, so it stays that way. Never lift the truck with a jack.");
  });

  it("is never told to a driver without a hitch as if one held the rig, and chocks come after blocks", () => {
    for (const stood of all.filter(({ rig: { kind } }) => isMotorized(kind))) {
      expect([...linesOf(stood, "level-side"), ...linesOf(stood, "level-along")].join(" ")).not.toContain("hitch");
      expect(does(plan(stood)).indexOf("chock")).toBeGreaterThan(does(plan(stood)).indexOf("level-along"));
    }
  });

  it("tells stabilizers from legs and leveling jacks", () => {
    expect(linesOf(demo("b11", "demo-fw-28"), "stabilize")[0]).toContain("the 2 jacks");
    expect(linesOf(demo("c04", "demo-tt-31"), "stabilize")[0]).toContain("the 4 jacks");
    const coach = demo("c04", "demo-class-a-30");
    expect(does(plan(coach))).not.toContain("stabilize");
    expect(linesOf(coach, "jacks")).toEqual(["Put pads under the 3 jacks. Set them as your manual says."]);
  });

  it("counts blocks for every tire of the low side", () => {
    expect(linesOf(on(0, 2), "level-side")[0]).toMatch(/about \d+ blocks? of 1 in \(25 mm\) under each left tire\.$/);
  });

  it("is drawn with the low side lower on the picture", () => {
    for (const stood of all) {
      for (const { seen, low, rise } of elevationsOf(stood.site, stood.rig, plan(stood))) {
        // The picture's left is the rig's left from behind, and its front from the left.
        const leftIsLow = low === (seen === "from-behind" ? "left" : "front");
        expect(rise > 0).toBe(leftIsLow);
      }
    }
  });
});

describe("a car in tow", () => {
  it("comes off before the rig is backed or where it does not stay on the hitch, and is hooked up again off the site", () => {
    for (const stood of all.filter(({ rig }) => isMotorized(rig.kind))) {
      const { steps, leaving } = plan(stood), backs = stood.site.entry === "back-in" && stood.result.pose!.heading === "tail-in";
      const off = stood.rig.tow !== undefined && (backs || stood.result.vehicle !== "hitched");
      expect(steps.some(({ does: what }) => what === "uncouple")).toBe(off);
      // Whoever drove in forward on a back-in has to back out: not with the car on.
      const backsOut = stood.rig.tow !== undefined && !off && stood.site.entry === "back-in";
      expect(leaving.includes("uncouple")).toBe(backsOut);
      expect(leaving.includes("car")).toBe(off || backsOut);
      if (off && stood.result.vehicle !== "no") expect(steps.some(({ does: what }) => what === "vehicle")).toBe(stood.result.vehicle !== null);
    }
    expect(all.some(({ rig, result }) => isMotorized(rig.kind) && result.vehicle === "hitched")).toBe(true);
  });

  it("is never told to a driver who has let go of no hitch to check it", () => {
    for (const stood of all.filter(({ rig }) => isMotorized(rig.kind))) expect(linesOf(stood, "chock").join(" ")).not.toContain("hitch");
  });
});

describe("where to stop", () => {
  const square = [[0, -2000], [10_000, -2000], [10_000, 2000], [0, 2000]] as const;

  it("measures to the pad's edge along a line, and to nothing from outside", () => {
    expect(toOutline(square, [4000, 0], [4000, 1])).toBe(2000);
    expect(toOutline(square, [4000, 500], [4001, 500])).toBe(6000);
    expect(toOutline(square, [11_000, 0], [10_999, 0])).toBeNull();
  });

  it("tells a post beside the rig as a driver sees it: side, how far ahead of the rear bumper, how far from the wall", () => {
    const { site, rig } = demo("d03", "demo-tt-31");
    const post = hookupSchema.parse({ id: "post", kind: "power", at: [9000, -3000], height: 900, receptacles: [30], postRadius: 100, postHeight: 1100 });
    const marks = findMarks({ ...site, obstacles: [], hookups: [post] }, rig, { x: 12_000, y: 0, heading: "tail-in" }, true);
    // Backed in, lower y is the rig's left.
    expect(marks.beside).toEqual([{ id: "post", side: "left", ahead: 3000, off: 3000 - rig.body.width / 2 - 100 }]);
  });
});

describe("what is said", () => {
  it("never says that something is clear, and tells what was not measured to be looked at", () => {
    const said = all.flatMap((stood) => wordsOf(stood).steps.flatMap(({ lines }) => lines));
    expect(said.filter((line) => /\bclear\b/i.test(line) && !/feet clear/.test(line))).toEqual([]);
    const stood = demo("d03", "demo-tt-31");
    const approach = approachSchema.parse({ road: { centreline: [[-3000, -9000], [-3000, 9000]], width: 6000 }, driveable: [], gradeBreaks: [], heightLimits: [{ id: "gate", kind: "gate", across: [[-500, -3000], [-500, 3000]], height: null }] });
    expect(linesOf({ ...stood, site: { ...stood.site, approach } }, "look")).toContain("Gate: not measured. Look up.");
  });

  it("sends nobody to the rinse tap or the tank fill", () => {
    for (const stood of all.filter(({ result }) => result.needs.some(({ service, ok }) => service === "water" && ok !== "no"))) {
      const { site, result } = stood, need = result.needs.find(({ service }) => service === "water")!;
      expect(site.hookups.find(({ id }) => id === need.hookup)?.kind).toBe("water");
      expect(linesOf(stood, "water").join(" ")).toContain("not the tank fill");
    }
  });

  it("puts the breaker off before plugging in, also after the outlet was tried with a tester", () => {
    for (const stood of all.filter((one) => does(plan(one)).includes("power"))) expect(linesOf(stood, "power").slice(0, 2).join(" ")).toMatch(/tester\?.*switch off again\. Switch the breaker at the post off\. Plug in your cord\. Then switch on\./);
  });

  it("names what to turn off before what does not run on top of the rest, so that the rest and it run", () => {
    let told = 0;
    for (const stood of all) {
      const step = plan(stood).steps.find((one) => one.does === "power");
      if (!step || step.does !== "power") continue;
      const va = (id: string) => stood.rig.electric!.loads.find((load) => load.id === id)!.va;
      const running = step.power.runs.reduce((sum, id) => sum + va(id), 0);
      expect(step.instead.map(({ load }) => load)).toEqual(step.power.shed);
      for (const { load, off } of step.instead) {
        if (off) expect(running + va(load) - off.reduce((sum, id) => sum + va(id), 0)).toBeLessThanOrEqual(step.power.usableVa);
        else expect(va(load)).toBeGreaterThan(step.power.usableVa);
        if (off && off.length > 1) for (const one of off) expect(running + va(load) - va(one)).toBeGreaterThan(step.power.usableVa);
        told += 1;
      }
    }
    expect(told).toBeGreaterThan(50);
    expect(linesOf(demo("c04", "demo-class-c-24"), "power").join(" ")).toMatch(/Microwave: turn off air conditioner first\./);
  });

  it("says of a height judged by eye that nobody measured it", () => {
    const stood = all.find((one) => does(plan(one)).includes("look") && plan(one).steps.some((step) => step.does === "look" && step.overhead.some(({ what }) => what === "limb")))!;
    const look = plan(stood).steps[0]!, limb = look.does === "look" && look.overhead.find(({ what }) => what === "limb")!;
    if (!limb) return expect.fail("no limb");
    const survey = (how: "estimated" | "pole") => stand(siteSchema.parse({ ...stood.site, survey: { measurements: [{ id: "m1", of: `obstacles.${limb.id}.crownFrom`, how, on: "2026-06-01", by: "AB", error: 300 }] } }), stood.rig);
    expect(linesOf({ ...survey("estimated"), result: stood.result }, "look").join(" ")).toMatch(/: about \d.* up by eye, not measured\. Look up\./);
    expect(linesOf({ ...survey("pole"), result: stood.result }, "look").join(" ")).not.toContain("by eye");
  });

  it("has at most five lines for who is in a hurry", () => {
    for (const stood of all) expect(wordsOf(stood).five.length).toBeLessThanOrEqual(5);
  });

  it("reads at grade 8 or lower, whole and step by step", () => {
    expect(syllablesOf("stabilizer")).toBe(4);
    expect(gradeOf(["The cat sat on the mat."])).toBeLessThan(1);
    for (const stood of all.filter((_, i) => i % 7 === 0)) {
      const { steps, leaving, bring, five, before } = wordsOf(stood);
      expect(before).toBeNull();
      const text = [...steps.flatMap(({ lines }) => lines), ...leaving, ...bring, ...five.map(({ text: line }) => line), ...arrival.cautions, arrival.lead, keptPage.open, keptPage.kept, keptPage.not, `${keptPage.shown} Nov 26, 2026, 2:41 PM.`, keptPage.shownWhy];
      expect(gradeOf(text.flatMap(sentencesOf))).toBeLessThanOrEqual(8);
      for (const { does: step, lines } of steps) expect(gradeOf(lines.flatMap(sentencesOf)), `${step}: ${lines.join(" ")}`).toBeLessThanOrEqual(8);
    }
  });
});

describe("on paper", () => {
  const policy = policySchema.parse({});
  const wayOf = ({ site, rig, result }: Stood) => result.pose && findWayIn({ site, rig, pose: result.pose, policy });
  const pdf = (stood: Stood, paper: "letter" | "a4", way = wayOf(stood)) => renderCard({ ...stood, units: "ft-in", lends: [], way, park: "Quillback Meadow", address: "https://park.example/stay/abcdefghijklmnopqrstuvwxyz/card", paper });

  it("is one or two pages of the paper asked for, with every step on it", async () => {
    for (const stood of [demo("c04", "demo-tt-31"), demo("c02", "demo-tt-31"), demo("b03", "demo-class-a-35"), ...all.filter((_, i) => i % 130 === 0)]) {
      const way = wayOf(stood);
      for (const [paper, size] of [["letter", /\/MediaBox \[0 0 612 792\]/], ["a4", /\/MediaBox \[0 0 595\.28\d* 841\.89\d*\]/]] as const) {
        const file = (await pdf(stood, paper, way))!;
        const raw = file.toString("latin1");
        const pages = raw.match(/\/Type \/Page\b(?!s)/g) ?? [];
        expect([1, 2]).toContain(pages.length);
        expect(raw).toMatch(size);
        const text = textOf(file).replace(/\s/g, "");
        for (const { title } of wordsOf(stood).steps) expect(text).toContain(title.replace(/\s/g, ""));
        expect(text).toContain(arrival.stopRule.replace(/\s/g, ""));
        for (const line of cardInWords({ ...stood, units: "ft-in" }, plan(stood), [], way).way) expect(text).toContain(line.replace(/\s/g, ""));
        if (way?.way) expect(text).toContain(arrival.wayKey.replace(/\s/g, ""));
        if (way?.way) expect(text).toContain(numbersFor("ft-in").spare(way.way.gap.gap!).replace(/\s/g, ""));
      }
    }
  });

  it("is not made where the rig stands nowhere", async () => {
    const stood = demo("c04", "demo-tt-31");
    expect(await pdf({ ...stood, result: { ...stood.result, pose: null } }, "a4")).toBeNull();
  });
});

/** The text of a PDF whose fonts are the standard ones: every string that is shown, in the order in which it is. */
function textOf(file: Buffer): string {
  const raw = file.toString("latin1"), texts: string[] = [];
  for (const { index, 0: head } of raw.matchAll(/stream\r?\n/g)) {
    const end = raw.indexOf("endstream", index);
    try {
      const content = inflateSync(file.subarray(index + head.length, end)).toString("latin1");
      for (const [, shown] of content.matchAll(/\[([^\]]*)\] TJ/g)) texts.push([...shown!.matchAll(/<([0-9a-f]*)>/g)].map(([, hex]) => Buffer.from(hex!, "hex").toString("latin1").replaceAll("\x92", "’")).join(""));
    } catch { /* not a compressed stream of text */ }
  }
  return texts.join("");
}
