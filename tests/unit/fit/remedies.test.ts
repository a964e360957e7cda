import { describe, expect, it } from "vitest";
import { fitSite, type Change } from "@/lib/fit";
import type { Rig } from "@/lib/rig";
import type { Site } from "@/lib/park";
import { remedySentence } from "@/lib/wording";
import { policyWith, rigWith, siteWith } from "../../reference/scenes";

const ask = (site: Site, rig: Rig, policy = policyWith()) => fitSite(site, rig, policy, { remedies: true });
const changesOf = (site: Site, rig: Rig, policy = policyWith()) => ask(site, rig, policy).remedies.map((r) => r.changes);
const padOf = (length: number, width: number) => ({ outline: [[240, -width / 2], [240 + length, -width / 2], [240 + length, width / 2], [240, width / 2]] as [number, number][] });

describe("what would turn a refusal", () => {
  it("is a pad longer by what is missing, to the centimetre", () => {
    // From the wheels at 4,000 to the jack at 9,600 and 150 of footing at either end: 5,900.
    expect(changesOf(siteWith({ pad: padOf(5500, 2320) }), rigWith({}))).toEqual([[{ code: "lengthen", amount: 400 }]]);
  });

  it("is a pad wider on either side", () => {
    expect(changesOf(siteWith({ pad: padOf(5920, 2200) }), rigWith({}))).toEqual([[{ code: "widen-left", amount: 100 }], [{ code: "widen-right", amount: 100 }]]);
  });

  it("is limbs taken off to just above the roof, lift and the room that limbs need", () => {
    const oak = { id: "oak", kind: "tree", at: [6000, 0] as [number, number], trunkRadius: 1, crownRadius: 3000, crownFrom: 3000, crownTo: 9000 };
    const clear = { ...oak, at: [6000, 2500] as [number, number] };
    const [first] = ask(siteWith({ obstacles: [clear] }), rigWith({})).remedies;
    expect(first).toEqual({ changes: [{ code: "trim", what: "oak", amount: 3500 }], verdict: "fits", bring: [] }); // 3,200 and 300
  });

  it("takes away or moves what is removable, and never what is not, or a wire", () => {
    const table = { id: "table", kind: "table", outline: [[6000, 1300], [8000, 1300], [8000, 2400], [6000, 2400]] as [number, number][], from: 0, to: 900, removable: true };
    const codes = changesOf(siteWith({ obstacles: [table] }), rigWith({})).map(([c]) => c!.code);
    expect(codes.slice(0, 2)).toEqual(["remove", "move"]);
    expect(changesOf(siteWith({ obstacles: [{ ...table, removable: false }] }), rigWith({})).flat().map((c) => c.code)).not.toContain("move");
    const wire = { id: "line", kind: "wire", at: [6000, 1600] as [number, number], radius: 10, from: 4000, to: 4100 };
    expect(changesOf(siteWith({ obstacles: [wire] }), rigWith({})).flat().map((c) => c.code)).not.toContain("remove");
  });

  it("is a must part left in, but never the door", () => {
    const slide = { id: "lounge", kind: "slide", side: "left" as "left" | "right", span: [2000, 4000] as [number, number], depth: 900, from: 800, to: 2000, need: "must" as const };
    const door = { ...slide, id: "door", kind: "entry", side: "right" as const, from: 0 };
    const rocks = [{ id: "rock-l", kind: "rock", at: [7000, -2000] as [number, number], radius: 300, from: 0, to: 1500 }, { id: "rock-r", kind: "rock", at: [7000, 2000] as [number, number], radius: 300, from: 0, to: 1500 }];
    const whats = (side: number, part: typeof slide) => changesOf(siteWith({ obstacles: [rocks[side]!] }), rigWith({ parts: [part] })).flat();
    expect(whats(0, slide)).toContainEqual({ code: "leave-in", what: "lounge" });
    expect(whats(1, door).some((c: Change) => c.code === "leave-in")).toBe(false);
  });

  it("is a rule set aside, a receptacle fitted, a hookup put in beside the inlet", () => {
    expect(changesOf(siteWith({ rules: { maxLength: 9000 } }), rigWith({}))).toEqual([[{ code: "waive", what: "rule:maxLength" }]]);
    const powered = rigWith({ wants: ["power"], inlets: [{ kind: "power", side: "left", u: 2000, height: 700 }], electric: { plug: 30, loads: [{ id: "air", va: 2000, need: "must" }] } });
    const pedestal = { id: "ped", kind: "power" as const, at: [8000, -1500] as [number, number], height: 900, receptacles: [20 as const] };
    expect(changesOf(siteWith({ hookups: [pedestal] }), powered)).toContainEqual([{ code: "add-receptacle", what: "ped", amount: 30 }]);
    const added = changesOf(siteWith({}), powered).flat().find((c) => c.code === "add-hookup");
    expect(added).toMatchObject({ what: "power" });
  });

  it("is the easiest pair where no single change does it", () => {
    const [pair] = changesOf(siteWith({ pad: padOf(5500, 2320), rules: { maxLength: 9000 } }), rigWith({}));
    expect(pair).toEqual([{ code: "waive", what: "rule:maxLength" }, { code: "lengthen", amount: 400 }]);
  });

  it("is worked out only where asked for, and only for a refusal", () => {
    expect(fitSite(siteWith({ pad: padOf(5500, 2320) }), rigWith({}), policyWith()).remedies).toEqual([]);
    expect(ask(siteWith({}), rigWith({})).remedies).toEqual([]);
  });

  it("reads as something a person can do", () => {
    const site = siteWith({ pad: padOf(5500, 2320), rules: { maxLength: 9000 } });
    const [pair] = ask(site, rigWith({})).remedies;
    expect(remedySentence(pair!, site, rigWith({}), "metric")).toBe("Both together: let the rig stand here though it is longer than the site’s limit, by the park’s leave; and make the pad 40 cm longer at the end away from the road.");
  });
});
