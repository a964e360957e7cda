import { describe, expect, it } from "vitest";
import type { Bring, Verdict } from "@/lib/fit";
import { compareCells, turnOf, turnOfAny, type FitCell } from "@/lib/insight";

function cell(verdict: Verdict, more: { tight?: boolean; bring?: Bring["code"][] } = {}): FitCell {
  return { verdict, tight: false, bring: verdict === "gear" ? ["hose"] : [], reason: null, needs: [], level: { ok: "own" }, turnedAwayBy: [], ...more };
}

const verdicts: readonly Verdict[] = ["fits", "gear", "ask", "unsettled", "no"];

describe("turnOf", () => {
  it("is nothing for the same answer", () => {
    for (const verdict of verdicts) expect(turnOf(cell(verdict), cell(verdict))).toBeNull();
  });

  it("tells for every two verdicts what became of the rig", () => {
    const table = verdicts.map((before) => verdicts.map((after) => turnOf(cell(before), cell(after))));
    expect(table).toEqual([
      // to   fits         gear         ask        unsettled  no
      [null, "gear-more", "unclear", "unclear", "shut"],
      ["gear-less", null, "unclear", "unclear", "shut"],
      ["opened", "opened", null, "unclear", "shut"],
      ["unclear", "unclear", "unclear", null, "unclear"],
      ["opened", "opened", "unclear", "unclear", null],
    ]);
  });

  it("sees that something else has to be brought, or less", () => {
    expect(turnOf(cell("gear", { bring: ["hose"] }), cell("gear", { bring: ["hose", "regulator"] }))).toBe("gear-more");
    expect(turnOf(cell("gear", { bring: ["hose"] }), cell("gear", { bring: ["cord"] }))).toBe("gear-more");
    expect(turnOf(cell("gear", { bring: ["hose", "regulator"] }), cell("gear", { bring: ["hose"] }))).toBe("gear-less");
  });

  it("sees the mark for little room, where it fits", () => {
    expect(turnOf(cell("fits"), cell("fits", { tight: true }))).toBe("tighter");
    expect(turnOf(cell("fits", { tight: true }), cell("fits"))).toBe("roomier");
    expect(turnOf(cell("no"), cell("no", { tight: true }))).toBeNull();
  });
});

describe("compareCells", () => {
  it("lists what changed by site and rig, counts it, and counts apart what was not worked out", () => {
    const before = [[cell("fits"), cell("no"), cell("gear")], [cell("fits"), null, undefined]];
    const after = [[cell("no"), cell("fits"), cell("gear")], [cell("fits"), cell("fits"), cell("no")]];
    const found = compareCells(before, after, [0, 1]);
    expect(found.changed).toEqual([{ site: 0, rig: 0, turn: "shut" }, { site: 0, rig: 1, turn: "opened" }]);
    expect(found.counts).toEqual({ shut: 1, opened: 1, "gear-more": 0, "gear-less": 0, tighter: 0, roomier: 0, unclear: 0 });
    expect([found.asked, found.notWorkedOut]).toEqual([4, 1]);
  });

  it("looks at the rigs it is asked about alone", () => {
    expect(compareCells([[cell("fits"), cell("fits")]], [[cell("fits"), cell("no")]], [0])).toMatchObject({ changed: [], asked: 1, notWorkedOut: 0 });
  });
});

describe("turnOfAny", () => {
  it("asks whether one site is left", () => {
    expect(turnOfAny([cell("fits"), cell("gear")], [cell("no"), cell("gear")])).toBeNull();
    expect(turnOfAny([cell("fits"), cell("no")], [cell("no"), cell("no")])).toBe("shut");
    expect(turnOfAny([cell("no"), cell("no")], [cell("no"), cell("fits")])).toBe("opened");
  });

  it("claims nothing where what was not worked out decides", () => {
    expect(turnOfAny([cell("fits"), cell("no")], [null, cell("no")])).toBe("unclear");
    expect(turnOfAny([cell("fits"), cell("no")], [cell("ask"), cell("no")])).toBe("unclear");
    // A site that was not worked out is of no weight where another one takes the rig.
    expect(turnOfAny([null, cell("fits")], [null, cell("gear")])).toBeNull();
  });

  it("has no site where none was wished that is there, before and after", () => {
    expect(turnOfAny([], [])).toBeNull();
  });
});
