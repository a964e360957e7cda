import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { onMap } from "@/app/components/park-map/frame";
import { overlap } from "@/app/components/park-map/labels";
import { layoutMap, unplaced, type MapAsked } from "@/app/components/park-map/sheet";
import { readParkRecord } from "@/app/components/park-map/record";
import type { MapLayout, SheetBox, SheetPoint } from "@/app/components/park-map/types";
import { demoSites } from "../wording/scene";

const file: unknown = JSON.parse(readFileSync(new URL("../../../seed/quillback-meadow/park.json", import.meta.url), "utf8"));
const record = readParkRecord(file);
const loops = ["A", "B", "C", "D", "E"] as const;
const gap = (a: SheetPoint, b: SheetPoint) => Math.hypot(a[0] - b[0], a[1] - b[1]);

function drawn(more: Partial<MapAsked> = {}): MapLayout {
  return layoutMap({ record, sites: demoSites, standingOf: () => ({ verdict: "fits", shown: true }), units: "ft-in", loop: null, ...more });
}

/** What holds on every sheet, whatever is on it: one message for each thing that does not. */
function faultsOf({ width, height, markSize, sites, labels, scaleBar, north }: MapLayout): string[] {
  const faults: string[] = [];
  const inside = ([x, y]: SheetPoint, by = 0) => x >= by && y >= by && x <= width - by && y <= height - by;
  const mark = ([x, y]: SheetPoint): SheetBox => ({ x: x - markSize, y: y - markSize, w: 2 * markSize, h: 2 * markSize });
  sites.forEach((site, i) => {
    if (!inside(site.mark, markSize)) faults.push(`mark of ${site.id} leaves the sheet`);
    if (!site.pad.every((p) => inside(p))) faults.push(`pad of ${site.id} leaves the sheet`);
    for (const other of sites.slice(i + 1)) if (gap(site.mark, other.mark) < 2 * markSize) faults.push(`marks of ${site.id} and ${other.id} lie on each other`);
  });
  labels.forEach((a, i) => {
    if (a.box.x < 0 || a.box.y < 0 || a.box.x + a.box.w > width || a.box.y + a.box.h > height) faults.push(`${a.id} leaves the sheet`);
    for (const b of labels.slice(i + 1)) if (overlap(a.box, b.box)) faults.push(`${a.id} lies on ${b.id}`);
    for (const site of sites) if (overlap(a.box, mark(site.mark))) faults.push(`${a.id} lies on the mark of ${site.id}`);
  });
  if (!inside(scaleBar.at) || scaleBar.at[0] + scaleBar.length > width || !inside(north.at, 12)) faults.push("scale bar or arrow leaves the sheet");
  return faults;
}

describe("a sheet of the demo park", () => {
  it.each([null, ...loops])("of %s keeps everything on it and every name and mark off the others", (loop) => {
    expect(faultsOf(drawn({ loop }))).toEqual([]);
  });

  it.each(loops)("of loop %s shows that loop's sites alone, every one by its name", (loop) => {
    const layout = drawn({ loop });
    const expected = demoSites.filter((s) => s.loop === loop);
    expect(layout.sites.map((s) => s.id)).toEqual(expected.map((s) => s.id));
    expect(layout.labels.filter((l) => l.kind === "site").map((l) => l.lines[0]).sort()).toEqual(expected.map((s) => s.label).sort());
    expect(layout.neighbours).toHaveLength(demoSites.length - expected.length);
  });

  it("of the whole park shows every site and names every loop", () => {
    const layout = drawn();
    expect(layout.sites).toHaveLength(demoSites.length);
    expect(layout.labels.filter((l) => l.kind === "loop").map((l) => l.lines[0]).sort()).toEqual([...loops]);
  });

  it.each([null, ...loops])("of %s is to one scale: every pad's edge is as long on paper as it is", (loop) => {
    const { sites, scale } = drawn({ loop });
    for (const { id, pad } of sites) {
      const { outline } = demoSites.find((s) => s.id === id)!.pad;
      outline.forEach((p, i) => {
        const q = outline[(i + 1) % outline.length]!;
        expect(gap(pad[i]!, pad[(i + 1) % pad.length]!)).toBeCloseTo(Math.hypot(p[0] - q[0], p[1] - q[1]) * scale, 6);
      });
    }
  });

  it("has north up and east to the right, and turns nothing over", () => {
    const { sites } = drawn();
    const at = (id: string) => sites.find((s) => s.id === id)!.middle;
    expect(at("e05")[1]).toBeLessThan(at("d13")[1]); // the creek is the northern edge
    expect(at("a08")[0]).toBeLessThan(at("b08")[0]);
  });

  it("has a scale bar of a round length in the reader's units", () => {
    const feet = drawn();
    expect(feet.scaleBar.text).toBe("200 ft");
    expect(feet.scaleBar.length).toBeCloseTo(200 * 304.8 * feet.scale, 9);
    const metres = drawn({ units: "metric", loop: "E" });
    expect(metres.scaleBar.text).toBe("20 m");
    expect(metres.scaleBar.length).toBeCloseTo(20_000 * metres.scale, 9);
  });

  it("names the site that is pointed out on the whole park too", () => {
    const layout = drawn({ selected: "c07" });
    expect(layout.sites.filter((s) => s.selected).map((s) => s.id)).toEqual(["c07"]);
    expect(layout.labels.filter((l) => l.kind === "site").map((l) => l.lines)).toEqual([["C-07"]]);
    expect(faultsOf(layout)).toEqual([]);
  });
});

describe("sites in odd places", () => {
  it("keep their marks apart where twenty stand on one spot, and names none twice", () => {
    const crowd = demoSites.slice(0, 20).map((s) => ({ ...s, loop: "A", place: { east: 100_000, north: 100_000, bearing: 10 } }));
    const layout = drawn({ sites: crowd, loop: "A" });
    expect(faultsOf(layout).filter((f) => f.includes("lies on"))).toEqual([]);
  });

  it("without a place are told apart and left off the sheet", () => {
    const sites = demoSites.map((s, i) => (i < 2 ? { ...s, place: undefined } : s));
    expect(unplaced(sites).map((s) => s.id)).toEqual(["a01", "a02"]);
    expect(drawn({ sites }).sites).toHaveLength(demoSites.length - 2);
  });

  it("make a sheet even where none has a place", () => {
    const layout = drawn({ sites: demoSites.map((s) => ({ ...s, place: undefined })), record: readParkRecord({}) });
    expect(layout.sites).toEqual([]);
    expect(Number.isFinite(layout.scale) && layout.scale > 0).toBe(true);
  });
});

describe("a point of a site on the map", () => {
  it("lies along the bearing for x, and to the left of it for y", () => {
    const east = { east: 1000, north: 2000, bearing: 90 };
    expect(onMap(east, [500, 0]).map(Math.round)).toEqual([1500, 2000]);
    expect(onMap(east, [0, 500]).map(Math.round)).toEqual([1000, 2500]);
    expect(onMap({ ...east, bearing: 0 }, [500, 300]).map(Math.round)).toEqual([700, 2500]);
  });
});

describe("a park's record", () => {
  it("is read with its roads, loops, buildings and water", () => {
    expect(record.map.roads.length).toBe(9);
    expect(record.map.creek.map((c) => c.name)).toContain("Quillback Creek");
    expect(record.loops.map((l) => l.id)).toEqual([...loops]);
  });

  it.each([null, 7, "map", {}, { map: null }, { map: { roads: "none" } }, { map: { roads: [{ points: [[0, 0]] }, { points: [["a", 1], [2, 3]] }] } }])("that is no map (%j) makes an empty one, and no error", (odd) => {
    expect(readParkRecord(odd).map.roads).toEqual([]);
  });

  it("loses only the entry that cannot be read", () => {
    expect(readParkRecord({ map: { roads: [{ points: [] }, { points: [[0, 0], [5, 5]] }] } }).map.roads).toEqual([{ points: [[0, 0], [5, 5]], width: 5000 }]);
  });
});
