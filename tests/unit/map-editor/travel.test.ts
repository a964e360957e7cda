import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { MapSite } from "@/app/manage/map/map-state";
import { placesOf } from "@/app/manage/map/map-state";
import { stopsOf, travel, type Stop } from "@/app/manage/map/travel";
import type { Place } from "@/lib/park/edit/place";

/**
 *        far
 *   left  mid  right
 *        low        Aside (a little lower than mid, far to the right)
 */
const stops: Stop[] = [
  { id: "mid", label: "B-1", at: [0, 0] },
  { id: "left", label: "A-1", at: [-10_000, 1000] },
  { id: "right", label: "B-2", at: [10_000, -1000] },
  { id: "far", label: "C-1", at: [2000, 30_000] },
  { id: "low", label: "b-3", at: [0, -9000] },
  { id: "aside", label: "7", at: [40_000, -3000] },
];
const to = (from: string, key: string) => travel(stops, from, key)?.id ?? null;

describe("travelling over the map by keys", () => {
  it("goes to the nearest site that way: north is up, and straight ahead comes before aside", () => {
    expect(["ArrowUp", "ArrowDown", "ArrowLeft", "ArrowRight"].map((key) => to("mid", key))).toEqual(["far", "low", "left", "right"]);
    expect(to("right", "ArrowRight")).toBe("aside");
    expect(to("far", "ArrowDown")).toBe("mid");
  });

  it("takes what is only aside where nothing is straight ahead, and stays where nothing is", () => {
    expect(to("low", "ArrowRight")).toBe("right");
    expect(to("aside", "ArrowUp")).toBe("right");
    expect(to("far", "ArrowUp")).toBeNull();
  });

  it("goes to the first and last, and on a letter or digit to the next label that begins with it, round and round", () => {
    expect([to("right", "Home"), to("right", "End")]).toEqual(["mid", "aside"]);
    expect([to("mid", "b"), to("right", "B"), to("low", "b")]).toEqual(["right", "low", "mid"]);
    expect([to("mid", "7"), to("mid", "z"), to("left", "a"), to("mid", "Tab"), to("nowhere", "b")]).toEqual(["aside", null, null, null, null]);
  });

  it("reaches every site of the demo park by arrows alone", () => {
    const { sites } = JSON.parse(readFileSync("seed/quillback-meadow/sites.json", "utf8")) as { sites: { id: string; label: string; pad: { outline: MapSite["pad"] }; place?: Place }[] };
    const all: MapSite[] = sites.map(({ id, label, pad, place }) => ({ id, label, loop: null, version: 1, pad: pad.outline, place: place ?? null })), park = stopsOf(all, placesOf(all));
    expect(park).toHaveLength(72);
    const seen = new Set([park[0]!.id]), open = [park[0]!.id];
    for (let id = open.pop(); id !== undefined; id = open.pop()) for (const key of ["ArrowUp", "ArrowDown", "ArrowLeft", "ArrowRight"]) {
      const next = travel(park, id, key)?.id;
      if (next !== undefined && !seen.has(next)) { seen.add(next); open.push(next); }
    }
    expect(park.filter(({ id }) => !seen.has(id)).map(({ label }) => label)).toEqual([]);
  });
});
