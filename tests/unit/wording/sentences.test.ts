import { describe, expect, it } from "vitest";
import { defaultPolicy, rankSites, type FitResult, type Reason } from "@/lib/fit";
import { answerOf, bringSentence, catalogueOf, placeInWords, planInWords, sentence } from "@/lib/wording";
import { demoRig, demoSites, rig, site } from "./scene";

const reason = (code: string, parts: string[] = [], short: number | null = null, more: Partial<Reason> = {}): Reason => ({ code, parts, short, ...more });
const say = (r: Reason, units: "ft-in" | "metric" = "ft-in", result?: Partial<FitResult>) => sentence(r, site, rig, units, result as FitResult);

describe("a reason names both things and by how much", () => {
  const cases: [Reason, string][] = [
    [reason("clear:lounge:oak", ["lounge", "oak"], 140), "The lounge slide cannot clear the oak: 6 in (14 cm) short. Its limbs begin 12 ft 9 1/2 in up; the lounge slide reaches 9 ft 6 1/2 in up, and room is kept below limbs."],
    [reason("clear:body:tree-3", ["body", "tree-3"], 300), "The rig’s body cannot clear tree 3: 1 ft (30 cm) short. Its limbs begin 9 ft 10 in up; the rig is 11 ft 2 in high."],
    [reason("clear:lounge:r7", ["lounge", "r7"], 12), "The lounge slide cannot clear rock r7: 1/2 in (2 cm) short."],
    [reason("clear:supports:r7", ["supports", "r7"], 100), "The tires and jacks cannot clear rock r7: 4 in (10 cm) short."],
    [reason("clear:body:ped", ["body", "ped"], 40), "The rig’s body cannot clear the power pedestal: 2 in (4 cm) short."],
    [reason("clear:body:drain", ["body", "drain"], 40), "The rig’s body cannot keep off the sewer drain: 2 in (4 cm) short. A hookup under the rig cannot be got at."],
    [reason("road", ["rig", "road"], 590), "The rig cannot stay off the road: 1 ft 11 1/2 in (59 cm) short."],
    [reason("road:awning", ["awning", "road"], 100), "The awning cannot stay off the road: 4 in (10 cm) short."],
    [reason("lot:body", ["body", "lot"], 100), "No place on the site is large enough for the rig’s body: 4 in (10 cm) short."],
    [reason("stand", ["supports", "pad"], 640), "The tires and jacks cannot all stand on the pad: 2 ft 1 1/2 in (64 cm) short."],
    [reason("rule:maxLength", [], 1500), "The rig is 34 ft 5 1/2 in overall, 4 ft 11 1/2 in (1.50 m) longer than the site takes."],
    [reason("rule:maxGuests", [], 2), "The site takes 6 guests; your party is 8."],
    [reason("rule:maxVehicles", [], 1), "You bring 1 vehicle more than the 1 allowed on the site."],
    [reason("rule:tents", [], 1), "You bring 1 tent more than the 1 allowed on the site."],
    [reason("rule:pets", [], 1), "Pets are not allowed on the site."],
    [reason("rule:accessible", ["guest"]), "You need an accessible site, and this is not one."],
    [reason("rule:accessible", ["site"]), "The site is kept for guests who need an accessible one."],
    [reason("missing:sewer", ["sewer"]), "The site has no sewer hookup, and the rig wants one."],
    [reason("no-inlet:sewer", ["sewer"]), "The stay asks for sewer, but the rig has no sewer outlet."],
    [reason("rinse-only:water", ["rinse"]), "The only water here is a tap for rinsing tanks. It is never drinking water, so it does not count as a water hookup."],
    [reason("reach:power", ["power", "ped"], 1550), "Your power cord is 5 ft 1 1/2 in too short to reach the power pedestal."],
    [reason("reach:water", ["water", "tap"], 7000), "You have no water hose: 23 ft is needed to reach the water tap."],
    [reason("fall:sewer", ["sewer", "drain"], 25), "The sewer hose cannot run downhill to the sewer drain: it lies 1 in (3 cm) too high."],
    [reason("plug", ["50", "ped"]), "No receptacle here takes the rig’s 50 A plug, straight or through one adapter: the power pedestal has 20 A and 30 A."],
    [reason("adapter", ["50-to-30", "ped"]), "The rig’s plug goes into the power pedestal only through a 50 A to 30 A adapter."],
    [reason("loads", ["loads", "ped"], 1241), "What has to run in the rig asks for 1,250 VA more than the power pedestal may be loaded with for hours."],
    [reason("shed", ["air-2"]), "Air conditioner 2 cannot run along with the rest on this site’s power."],
    [reason("pressure", ["water", "tap"], 68), "The water tap’s pressure is 10 psi above what hoses and fittings are made for: a regulator is needed."],
    [reason("level:side", ["rig", "ground"], 40), "The pad slopes: leveling side to side asks for 2 in more lift than you have."],
    [reason("level:along", ["rig", "ground"], 60), "The pad slopes: leveling front to back asks for 2 1/2 in of lift."],
    [reason("vehicle", ["vehicle", "pad"]), "The tow vehicle has no place on the site, and the park has no overflow parking."],
    [reason("overflow", ["vehicle"]), "The tow vehicle does not fit on the site beside the rig: it goes to overflow parking."],
    [reason("left-in", ["awning", "fire"], 1044), "The awning has to stay rolled up: it would come 3 ft 5 1/2 in too close to the fire ring."],
    [reason("left-in", ["awning", "site"]), "The awning has to stay rolled up."],
    [reason("tight", ["supports", "pad"], null, { have: 95 }), "Tight: only 3 1/2 in to spare between the tires and jacks and the edge of the pad, beyond the gap that is always kept."],
    [reason("tight", ["lounge", "oak"], null, { have: -3 }), "Tight: nothing to spare between the lounge slide and the oak, beyond the gap that is always kept."],
    [reason("wish:shade", ["shade"]), "Has shade, as you wished."],
    [reason("wish:pull-through", ["pull-through"], 1), "Not a pull-through, which you wished for."],
    [reason("access:not-found"), "No way in was found from the road. That is not proof that there is none: staff to check on the ground."],
    [reason("access:barred-overhead", ["oak"]), "The rig cannot get to the pad: it is too tall to pass under the oak."],
    [reason("access:barred-between", ["oak"]), "The rig cannot get to the pad: it is too wide to pass the oak."],
    [reason("access:barred-between", ["oak", "r7"]), "The rig cannot get to the pad: it is too wide to pass between the oak and rock r7."],
    [reason("access:no-ground"), "The rig cannot get to the pad: no firm ground wide enough for its tires leads there from the road."],
    [reason("access:tight", ["wheels", "ground"], null, { have: 95 }), "Getting in is tight: only 3 1/2 in to spare between the tires and the edge of the firm ground."],
    [reason("access:tight", ["tow", "oak"], null, { have: 0 }), "Getting in is tight: nothing to spare between the tow vehicle and the oak."],
    [reason("access:blind", ["left"]), "The rig turns in to the driver’s blind side, coming from the left: have a helper who can see it."],
    [reason("access:moved", ["tail-in"], null, { have: 600 }), "It stands 2 ft from where it would have most room, as no way in was found to there."],
    [reason("access:leave"), "No way out was found over the road at the far end: staff to check on the ground, or back out the way you came."],
    [reason("access:unmeasured", ["low-limb"]), "Nobody has measured how high the low limb hangs over the way in: stop and look up."],
    [reason("budget"), "The search reached its limit before this was settled. That is neither a yes nor a no: ask the park, or search again for this site alone."],
  ];
  for (const [r, text] of cases) it(r.code, () => expect(say(r)).toBe(text));

  it("speaks metric, still rounded against the guest", () => {
    expect(say(reason("clear:lounge:oak", ["lounge", "oak"], 141), "metric")).toBe("The lounge slide cannot clear the oak: 15 cm (6 in) short. Its limbs begin 3.90 m up; the lounge slide reaches 2.90 m up, and room is kept below limbs.");
    expect(say(reason("pressure", ["water", "tap"], 67.2), "metric")).toContain("68 kPa");
  });

  it("says that a longer hose does not help where the park forbids the run", () => {
    const result = { needs: [{ service: "sewer", ok: "no" }], level: { side: 0, along: 0, ok: "no" } } as unknown as FitResult;
    expect(say(reason("reach:sewer", ["sewer", "drain"], 214), "ft-in", result)).toBe("The sewer hose cannot reach the sewer drain from anywhere: the run would be 8 1/2 in (22 cm) longer than the park allows.");
    expect(say(reason("level:side", ["rig", "ground"], 8), "ft-in", result)).toBe("The pad slopes so much side to side that leveling asks for 1/2 in (1 cm) more lift than the park allows.");
  });

  it("says while what else holds it cannot be, in one sentence", () => {
    const held = (code: string, parts: string[], short: number | null, ...others: string[]) => say(reason(code, parts, short, { while: others }));
    expect(held("clear:lounge:r7", ["lounge", "r7"], 140, "stand")).toBe("The lounge slide cannot clear rock r7 while the tires and jacks stay on the pad: 6 in (14 cm) short.");
    expect(held("clear:body:r7", ["body", "r7"], 140, "reach:power", "lot:lounge", "clear:body:ped", "road", "stand")).toBe(
      "The rig’s body cannot clear rock r7 while it clears the power pedestal, the tires and jacks stay on the pad, the rig stays off the road, the lounge slide stays on the site and the power cord reaches: 6 in (14 cm) short.",
    );
    expect(held("clear:supports:r7", ["supports", "r7"], 20, "stand", "clear:lounge:ped")).toBe("The tires and jacks cannot clear rock r7 while they stay on the pad and the lounge slide clears the power pedestal: 1 in (2 cm) short.");
    expect(held("clear:lounge:r7", ["lounge", "r7"], 20, "clear:supports:fire")).toBe("The lounge slide cannot clear rock r7 while the tires and jacks clear the fire ring: 1 in (2 cm) short.");
    expect(held("road", ["rig", "road"], 590, "stand")).toBe("The rig cannot stay off the road while the tires and jacks stay on the pad: 1 ft 11 1/2 in (59 cm) short.");
    expect(held("lot:body", ["body", "lot"], 100, "lot:lounge", "lot:door")).toBe("The rig’s body cannot stay on the site while the lounge slide and the door stay on the site: 4 in (10 cm) short.");
    expect(held("reach:sewer", ["sewer", "drain"], 214, "stand")).toBe("The sewer hose cannot reach the sewer drain while the tires and jacks stay on the pad: the run would be 8 1/2 in (22 cm) longer than the park allows.");
    expect(held("fall:sewer", ["sewer", "drain"], 25, "stand")).toBe("The sewer hose cannot run downhill to the sewer drain while the tires and jacks stay on the pad: it lies 1 in (3 cm) too high.");
    expect(held("vehicle", ["vehicle", "pad"], null, "stand")).toBe("The tow vehicle has no place on the site while the tires and jacks stay on the pad, and the park has no overflow parking.");
  });

  it("says whether a pad is too short or too narrow, where one of the two tells it", () => {
    const pad = (have: number, need: number) => say(reason("stand", ["supports", "pad"], need - have, { have, need, while: [] }));
    expect(pad(13700, 14100)).toBe("The pad is 1 ft 4 in (40 cm) too short for where the rig’s tires and jacks stand.");
    expect(pad(3600, 3700)).toBe("The pad is 4 in (10 cm) too narrow for where the rig’s tires and jacks stand.");
  });

  it("leaves out limbs that hang far above what does not clear the tree", () => {
    const high = { ...site, obstacles: site.obstacles.map((o) => (o.id === "oak" ? { ...o, crownFrom: 6000 } : o)) };
    expect(sentence(reason("clear:body:oak", ["body", "oak"], 140), high, rig, "metric")).toBe("The rig’s body cannot clear the oak: 14 cm (6 in) short.");
  });

  it("still says something for a code it does not know", () => {
    expect(say(reason("meteor"))).toBe("Something else stands against it (meteor).");
  });
});

describe("what to bring", () => {
  it("gives whole lengths, and what the guest has already", () => {
    expect(bringSentence({ code: "cord", amount: 10650, what: null }, rig, "ft-in")).toBe("A power cord at least 34 ft 11 1/2 in long (yours: 29 ft 10 in).");
    expect(bringSentence({ code: "hose", amount: 7000, what: null }, rig, "metric")).toBe("A drinking-water hose at least 7.00 m long.");
    expect(bringSentence({ code: "adapter", amount: null, what: "50-to-30" }, rig, "ft-in")).toBe("A 50 A to 30 A adapter.");
    expect(bringSentence({ code: "lift-side", amount: 130, what: null }, rig, "ft-in")).toBe("Blocks for 5 1/2 in of lift side to side (yours: 3 1/2 in).");
  });
});

describe("every answer of the demo park can be read", () => {
  const ids = ["demo-van-20", "demo-class-c-27", "demo-class-a-40", "demo-folding-8", "demo-tt-31", "demo-fw-34-overnight"];
  it.each(ids)("has a proper sentence for every reason, thing to bring, place and plan: %s", (id) => {
    const demo = demoRig(id);
    const results = rankSites(demoSites, demo, defaultPolicy, { access: true });
    const texts = answerOf(results, demoSites, demo, "ft-in").results.flatMap((r) => [...r.reasons, ...r.bring].map((x) => x.text));
    for (const result of results) {
      const on = demoSites.find((s) => s.id === result.site)!;
      texts.push(placeInWords(on, demo, result, defaultPolicy.comfort, "metric"), ...planInWords(on, demo, result, "ft-in"));
    }
    expect(texts.length).toBeGreaterThan(700);
    expect(texts.filter((text) => !/^[A-Z“\d][^]*\.$/.test(text) || /undefined|NaN|null|\bmm\b|_|Something else/.test(text))).toEqual([]);
  });
});

describe("the plan in words", () => {
  it("tells where the rig stands, what opens, where lines run and which side is low", () => {
    const result = {
      verdict: "fits", pose: { x: 12900, y: 250, heading: "tail-in" }, leftIn: ["awning"], vehicle: "in line",
      needs: [{ service: "power", hookup: "ped", inlet: 0, route: 3600, own: 9100, extra: 0, ok: "own", underBody: true, line: [] }],
      level: { side: 16, along: 0, ok: "own" }, ground: { along: 1.5, across: -0.8, worstResidual: 0 },
      limit: { id: "clear:lounge:oak", slack: 210, distance: 360, from: [0, 0], to: [0, 0] },
    } as unknown as FitResult;
    const lines = planInWords(site, rig, result, "ft-in");
    expect(lines[1]).toBe("The ground rises 1.5 % going in from the road and falls 0.8 % toward the left, looking in from the road.");
    expect(lines).toContain("Back in, so that the front faces the road. The rear wall stands 42 ft 4 in in from the pad’s entry edge, the rig’s centerline 10 in left of the pad’s centerline.");
    expect(lines).toContain("Open: the lounge slide (road side) and the door (curb side).");
    expect(lines).toContain("Has to stay in: the awning (curb side).");
    expect(lines).toContain("The power cord takes 11 ft 10 in in all to the power pedestal, passing under the rig.");
    // Ground falls to the left seen from the road; backed in, that is the rig's right: the curb side is low.
    expect(lines).toContain("Level side to side: raise the curb side by 1 in.");
    expect(lines).toContain("The tow vehicle stands in line with the rig.");
    expect(lines).toContain("Closest: the lounge slide to the oak, 1 ft 2 in (at least 6 in is kept here).");
  });

  it("tells of a site alone where there is no rig", () => {
    expect(planInWords(site, null, null, "metric")[0]).toBe("The site is a back-in. Its pad, gravel, is 13.70 m long and 3.60 m wide at its longest and widest.");
  });
});

describe("the catalogue", () => {
  it("has a label and a line for every verdict", () => {
    for (const { label, line } of Object.values(catalogueOf().verdicts)) expect(label.length > 0 && line.endsWith(".")).toBe(true);
  });
});
