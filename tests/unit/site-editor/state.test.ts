import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { isChanged, reduceEditor, startEditing, type EditorAction, type EditorState } from "@/app/manage/sites/[id]/edit/editor-state";
import { parseKept } from "@/app/manage/sites/[id]/edit/kept";
import { pressOn } from "@/app/manage/sites/[id]/edit/plan-keys";
import { zoomAt } from "@/app/manage/editing/lens";
import { siteLens, toPage, toSite, viewOf } from "@/app/manage/editing/view";
import { movePoint } from "@/lib/park/edit/change";
import { keyOf, pointAt, writeAt, type Draft } from "@/lib/park/edit/record";
import { thingsOf } from "@/lib/park/edit/things";

const site = (JSON.parse(readFileSync("seed/quillback-meadow/sites.json", "utf8")) as { sites: Draft[] }).sites.find(({ id }) => id === "c07")!;
const run = (...actions: EditorAction[]): EditorState => actions.reduce(reduceEditor, startEditing(site));
const pad = thingsOf(site).find(({ kind }) => kind === "pad")!;
const around = { units: "metric", snap: true } as const;
const press = (key: string, more: { shiftKey?: boolean; altKey?: boolean } = {}) => ({ key, shiftKey: false, altKey: false, ...more });

describe("the editor's state", () => {
  it("takes typing and dragging of one thing as one step each, and forgets half-typed texts with undo", () => {
    const typed = run({ do: "read", key: "rules.maxGuests", draft: writeAt(site, ["rules", "maxGuests"], 1) }, { do: "read", key: "rules.maxGuests", draft: writeAt(site, ["rules", "maxGuests"], 12) });
    expect(typed.history.past).toEqual([site]);
    const wrong = reduceEditor(typed, { do: "unread", key: "rules.tents", unread: { text: "no", fault: "number" } });
    expect(isChanged(wrong)).toBe(true);
    const back = reduceEditor(wrong, { do: "undo" });
    expect([back.history.present, back.unread, isChanged(back)]).toEqual([site, {}, false]);
  });

  it("lets go of a thing that undo takes away", () => {
    const more = writeAt(site, ["obstacles", 3], { id: "rock", kind: "rock", at: [0, 9000], radius: 300, from: 0, to: 300 });
    const added = run({ do: "change", draft: more, select: "obstacles.3", shifted: true });
    expect(added.selected).toBe("obstacles.3");
    expect(reduceEditor(added, { do: "undo" }).selected).toBeNull();
    expect(reduceEditor(run({ do: "select", key: "rules" }, { do: "change", draft: more }), { do: "undo" }).selected).toBe("rules");
  });

  it("takes up only what is a record of this site", () => {
    expect(parseKept(JSON.stringify({ draft: site, base: 3 }), "c07")).toEqual({ draft: site, base: 3 });
    for (const bad of [null, "", "{", "{}", JSON.stringify({ draft: { id: "c07" }, base: 1 }), JSON.stringify({ draft: { ...site, id: "c08" }, base: 1 })]) expect(parseKept(bad, "c07")).toBeNull();
  });
});

describe("keys on the plan", () => {
  it("move a corner by steps: up the page is into the site, left is left", () => {
    const from = pointAt(site, ["pad", "outline", 2])!, at = (key: string, more = {}) => pointAt(pressOn(site, pad, 2, press(key, more), around)!.draft, ["pad", "outline", 2])!;
    expect(at("ArrowUp")[0]).toBeGreaterThan(from[0]);
    expect(at("ArrowDown")[0]).toBeLessThan(from[0]);
    expect(at("ArrowLeft")[1]).toBeGreaterThan(from[1]);
    expect(at("ArrowRight")[1]).toBeLessThan(from[1]);
    expect(at("ArrowUp", { altKey: true })).toEqual([from[0] + 10, from[1]]);
    expect(at("ArrowUp")[0] % 50).toBe(0);
  });

  it("move a whole thing without bending it", () => {
    const moved = pressOn(site, pad, null, press("ArrowLeft", { shiftKey: true }), { ...around, snap: false })!.draft;
    expect(moved.pad.outline).toEqual(site.pad.outline.map(([x, y]) => [x, y + 500]));
  });

  it("never take the pad out, nor a corner that it needs", () => {
    expect(pressOn(site, pad, null, press("Delete"), around)).toBeNull();
    const small: Draft = { ...site, pad: { outline: [[0, 0], [9000, 0], [0, 3000]] } };
    expect(pressOn(small, thingsOf(small)[0]!, 0, press("Delete"), around)).toBeNull();
    expect(pressOn(site, pad, 0, press("Delete"), around)!.draft.pad.outline).toEqual(site.pad.outline.slice(1));
  });

  it("lead from a thing to its first corner and back", () => {
    expect(pressOn(site, pad, null, press("Enter"), around)).toMatchObject({ select: "pad", focus: "pad.outline.0" });
    expect(pressOn(site, pad, 3, press("Escape"), around)).toMatchObject({ select: null, focus: "pad" });
    expect(pressOn(site, pad, 1, press("Insert"), around)).toMatchObject({ focus: "pad.outline.2", shifted: true });
    expect(pressOn(site, pad, 1, press("q"), around)).toBeNull();
  });
});

describe("the view", () => {
  it("takes a place on the page back to where it is on the ground, at every zoom", () => {
    const size = { w: 640, h: 480 };
    for (const view of [viewOf(site, size, "site"), viewOf(site, size, "way in"), zoomAt(siteLens(size), viewOf(site, size, "site"), 3, [100, 200])]) {
      for (const thing of thingsOf(site)) for (const path of thing.handles) {
        const at = pointAt(site, path)!, [x, y] = toSite(view, size, toPage(view, size, at));
        expect(Math.hypot(x - at[0], y - at[1]), keyOf(path)).toBeLessThan(1e-6);
      }
    }
  });

  it("shows everything of the site", () => {
    const size = { w: 640, h: 480 }, view = viewOf(site, size, "site");
    for (const corner of [...site.pad.outline, ...site.hookups!.map(({ at }) => at)]) {
      const [x, y] = toPage(view, size, corner);
      expect(x > 0 && x < size.w && y > 0 && y < size.h).toBe(true);
    }
    expect(movePoint(site, ["pad", "outline", 0], pointAt(site, ["pad", "outline", 0])!)).toEqual(site);
  });
});
