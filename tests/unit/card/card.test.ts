import { inflateSync } from "node:zlib";
import { describe, expect, it } from "vitest";
import { elevationsOf } from "@/lib/card/elevation";
import { findMarks, toOutline } from "@/lib/card/marks";
import { renderCard } from "@/lib/card/pdf";
import { blockHeight, planSetUp, type SetUp, type Step } from "@/lib/card/set-up";
import { cardInWords } from "@/lib/card/words";
import { approachSchema, hookupSchema } from "@/lib/park";
import { policySchema } from "@/lib/fit";
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
    const order: Step["does"][] = ["look", "uncouple", "stand", "check", "level-side", "chock", "unhitch", "level-along", "stabilize", "power", "water", "sewer", "gas", "slides", "awning", "vehicle"];
    for (const stood of all) expect(does(plan(stood))).toEqual(order.filter((step) => does(plan(stood)).includes(step)));
  });

  it("has only the steps that the rig and the site have", () => {
    for (const stood of all) {
      const there = does(plan(stood)), { rig, result } = stood;
      expect(there.includes("unhitch")).toBe(!isMotorized(rig.kind) && result.vehicle !== "hitched");
      expect(there.includes("slides")).toBe(rig.parts.some(({ kind }) => kind === "slide"));
      for (const service of ["power", "water", "sewer"] as const) if (!rig.wants.includes(service)) expect(there).not.toContain(service);
    }
  });

  it("leaves in the reverse order, awning first and a walk around last, whoever it is", () => {
    for (const stood of all) {
      const { leaving } = plan(stood);
      expect(leaving.at(-1)).toBe("walk");
      expect(leaving.indexOf("power")).toBeLessThan(leaving.indexOf("chocks"));
      if (leaving.includes("awning")) expect(leaving[0]).toBe("awning");
    }
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

  it("warns of rolling where the pad slopes front to back, and not where it is level", () => {
    expect(linesOf(on(-2, 0), "chock").join(" ")).toContain("This pad slopes 2.0% front to back. Rigs have rolled on less.");
    expect(linesOf(on(0, 2), "chock").join(" ")).not.toContain("rolled");
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
      expect(leaving.includes("car")).toBe(off);
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

  it("puts the breaker off before plugging in, and the cord last before the walk", () => {
    for (const stood of all.filter((one) => does(plan(one)).includes("power"))) expect(linesOf(stood, "power")[0]).toMatch(/breaker at the post off.*Plug in.*switch on/);
  });

  it("has at most five lines for who is in a hurry", () => {
    for (const stood of all) expect(wordsOf(stood).five.length).toBeLessThanOrEqual(5);
  });

  it("reads at grade 8 or lower, whole and step by step", () => {
    expect(syllablesOf("stabilizer")).toBe(4);
    expect(gradeOf(["The cat sat on the mat."])).toBeLessThan(1);
    for (const stood of all.filter((_, i) => i % 7 === 0)) {
      const { steps, leaving } = wordsOf(stood);
      const text = [...steps.flatMap(({ lines }) => lines), ...leaving, ...arrival.cautions, arrival.lead, keptPage.open, keptPage.kept, keptPage.not, `${keptPage.shown} Nov 26, 2026, 2:41 PM.`, keptPage.shownWhy];
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
