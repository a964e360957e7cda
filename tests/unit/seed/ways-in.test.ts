import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { findAccess, scrapesOf, trainOf, type Access } from "@/lib/access";
import { defaultPolicy, fitSite } from "@/lib/fit";
import { siteSchema, type RoadRecord, type Site } from "@/lib/park";
import { nearestOnSegment, type Point } from "@/lib/plane";
import { rigSchema, type Rig } from "@/lib/rig";

const read = <T>(file: string): T => JSON.parse(readFileSync(new URL(`../../../seed/quillback-meadow/${file}`, import.meta.url), "utf8")) as T;
const { roads } = read<{ map: { roads: { id: string; width: number; way: "one-way" | "two-way"; points: Point[] }[] } }>("park.json").map;
const sites: Site[] = read<{ sites: unknown[] }>("sites.json").sites.map((site) => siteSchema.parse(site));
const rigs: Rig[] = read<{ rigs: { rig: unknown }[] }>("rigs.json").rigs.map(({ rig }) => rigSchema.parse(rig));
const measured = sites.filter(({ approach }) => approach);

describe("the surveyed ways in of the demo park", () => {
  it("are there for most sites of every loop, and left out for some", () => {
    for (const loop of ["A", "B", "C", "D", "E"]) {
      const share = measured.filter((site) => site.loop === loop).length / sites.filter((site) => site.loop === loop).length;
      expect(share, loop).toBeGreaterThan(0.7);
      expect(share, loop).toBeLessThan(1);
    }
  });

  it("lie on the roads of the map, as wide, and lead the way that these may be driven", () => {
    for (const site of measured) for (const road of [site.approach!.road, ...(site.approach!.exitRoad ? [site.approach!.exitRoad] : [])]) {
      const onMap = road.centreline.map((p) => mapPoint(site, p));
      const like = roads.find((one) => onMap.every((p) => offLine(p, one.points) < 5));
      expect(like, `${site.id}: a road of the map`).toBeDefined();
      expect([road.width, road.traffic === "both"]).toEqual([like!.width, like!.way === "two-way"]);
      if (like!.way === "one-way") expect(road.traffic, site.id).toBe(leadsLeft(site, road, onMap, like!.points) ? "toward-left" : "toward-right");
    }
  });

  it("have a road at the far end wherever the site meets one there", () => {
    for (const { id, exitEdge, approach } of measured) expect(approach!.exitRoad !== undefined, id).toBe(exitEdge !== undefined);
  });
});

describe("ways in of the demo rigs", () => {
  const access = (siteId: string, rigId: string): Access => {
    const site = sites.find(({ id }) => id === siteId)!, rig = rigs.find(({ id }) => id === rigId)!;
    return findAccess(site, rig, [fitSite(site, rig).pose!], defaultPolicy)!;
  };

  it("are found for a van nearly everywhere it fits, and for a 36 ft trailer on few sites", () => {
    const found = (rig: Rig) => {
      const fitting = measured.flatMap((site) => { const { pose } = fitSite(site, rig); return pose ? [findAccess(site, rig, [pose], defaultPolicy)!.state] : []; });
      return fitting.filter((state) => state === "found").length / fitting.length;
    };
    expect(found(rigs.find(({ id }) => id === "demo-van-17")!)).toBeGreaterThan(0.8);
    expect(found(rigs.find(({ id }) => id === "demo-tt-36")!)).toBeLessThan(0.3);
  });

  it("are barred for what is taller than the limb over the mouth of A-09, and found below it", () => {
    expect(access("a09", "demo-tt-23")).toMatchObject({ state: "no", barred: { code: "barred-overhead", things: ["mouth-limb"], scope: "pad" } });
    expect(access("a09", "demo-tt-16").state).toBe("found");
  });

  it("go in at B-08, and out by the far end only below the feeder", () => {
    expect(access("b08", "demo-van-20")).toMatchObject({ state: "found", leave: "found" });
    expect(access("b08", "demo-class-c-27")).toMatchObject({ state: "found", leave: "not-found" });
  });

  it("name the limb at A-03 that nobody measured", () => expect(access("a03", "demo-class-b-22").unmeasured).toEqual(["lane-limb"]));

  it("cross a dip at C-02 that a low tail may touch, and a crest at C-11 that it does not", () => {
    const scrapes = (siteId: string) => scrapesOf(sites.find(({ id }) => id === siteId)!, trainOf(rigs.find(({ id }) => id === "demo-class-a-35")!), defaultPolicy.headroom);
    expect(scrapes("c02").map(({ part }) => part)).toEqual(["tail"]);
    expect(scrapes("c11")).toEqual([]);
  });
});

function mapPoint({ place }: Site, [x, y]: Point): Point {
  const b = (place!.bearing * Math.PI) / 180;
  return [place!.east + x * Math.sin(b) - y * Math.cos(b), place!.north + x * Math.cos(b) + y * Math.sin(b)];
}

function offLine(p: Point, line: readonly Point[]): number {
  return Math.min(...line.slice(1).map((b, i) => { const q = nearestOnSegment(p, line[i]!, b); return Math.hypot(p[0] - q[0], p[1] - q[1]); }));
}

/** Whether a one-way road, driven from the first of the map's points to the last, leads to the left of who stands on it and looks onto the site. */
function leadsLeft(site: Site, { centreline }: RoadRecord, onMap: readonly Point[], points: readonly Point[]): boolean {
  const rank = (p: Point) => points.map((q, i) => [Math.hypot(p[0] - q[0], p[1] - q[1]), i] as const).sort((a, b) => a[0] - b[0])[0]![1];
  const [first, last] = [centreline[0]!, centreline.at(-1)!], along = rank(onMap.at(-1)!) > rank(onMap[0]!) ? 1 : -1;
  const facesIn = site.approach!.exitRoad?.centreline === centreline ? -1 : 1;
  return along * facesIn * (last[1] - first[1]) > 0;
}
