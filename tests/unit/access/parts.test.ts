import { describe, expect, it } from "vitest";
import { decidingNumbers, drawWay, findAccess, scrapesOf, trainOf } from "@/lib/access";
import { wayOut } from "@/lib/access/family";
import { groundOfRoad, isBeyond, lanesOf, offsetPath } from "@/lib/access/road";
import { boxToPoint, boxToRing, pointToRing } from "@/lib/access/separation";
import { outlooksOf } from "@/lib/access/sight";
import { surfaceOf } from "@/lib/access/surface";
import { defaultPolicy } from "@/lib/fit";
import type { Radians } from "@/lib/measure";
import { contains, nearestOfOutlines, sitePoint, type Point } from "@/lib/plane";
import { makeCombination, driveAlong, defaultTolerances, inLine, largestSteer } from "@/lib/turning";
import { between, randomFrom } from "../../scenes/random";
import { backedIn, backInSite, coach, trailer, withDrive } from "../../scenes/way-scenes";

const square = (x: number, y: number, w: number, h: number): Point[] => [[x, y], [x + w, y], [x + w, y + h], [x, y + h]];

describe("ground put together", () => {
  it("has no rim where two outlines meet, overlap or all but meet", () => {
    for (const gap of [-500, 0, 60]) {
      const { depth, rim } = surfaceOf([square(0, 0, 4000, 4000), square(4000 + gap, 0, 4000, 4000)], 100);
      expect(Math.abs(depth(4000 + gap / 2, 2000) - 2000)).toBeLessThan(1); // the ends of a narrow gap are notches
      expect(depth(100, 2000)).toBeCloseTo(100, 6);
      expect(depth(-300, -400)).toBeCloseTo(-500, 6);
      expect(rim.every(([a, b]) => Math.max(Math.min(a[1], 4000 - a[1]), Math.min(b[1], 4000 - b[1])) < 1 || a[0] < 1 || a[0] > 7000)).toBe(true);
    }
  });

  it("is parted by a gap that a tire falls into", () => {
    for (const gap of [110, 150, 300]) {
      const { depth } = surfaceOf([square(0, 0, 4000, 4000), square(4000 + gap, 0, 4000, 4000)], 100);
      expect(depth(4000, 2000)).toBeCloseTo(0, 6);
      expect(depth(4000 + gap / 2, 2000)).toBeCloseTo(-gap / 2, 6);
    }
  });

  it("goes on past an edge where a strip lies beside it that is narrower than a gap: 90 mm of apron are ground too", () => {
    const { depth, nearestOnRim } = surfaceOf([square(0, 0, 4000, 4000), square(0, -90, 4000, 500)], 100);
    expect(depth(2000, 0)).toBeCloseTo(90, 6);
    expect(depth(2000, -90)).toBeCloseTo(0, 6);
    expect(nearestOnRim([2000, 0])).toEqual([2000, -90]);
    // The same where the strip narrows along the edge.
    expect(surfaceOf([square(0, 0, 4000, 4000), [[0, -200], [4000, 0], [4000, 500], [0, 500]]], 100).depth(3000, 0)).toBeCloseTo(50 * Math.cos(Math.atan(0.05)), 6);
  });

  it("is as deep just within a narrow gap as just beside it, at its mouth too", () => {
    const { depth } = surfaceOf([square(0, 0, 4000, 4000), square(4060, 0, 4000, 4000)], 100);
    for (const y of [20, 50, 80, 120, 300]) {
      expect(depth(4030, y)).toBeGreaterThan(0);
      for (const x of [3990, 4010, 4050, 4070]) expect(Math.abs(depth(x, y) - depth(4030, y))).toBeLessThanOrEqual(Math.abs(x - 4030) + 1e-9);
    }
    // Outside of a corner that turns in, ground is near on two sides, and there is none.
    expect(surfaceOf([square(0, 0, 4000, 4000), square(-2000, 0, 2500, 1000)], 100).depth(-30, 1030)).toBeCloseTo(-30, 6);
  });

  it("measures as far as an outline is, inside and out, for shapes strewn about", () => {
    const r = randomFrom(7), outlines = Array.from({ length: 5 }, () => square(between(r, 0, 9000), between(r, 0, 9000), between(r, 2000, 7000), between(r, 2000, 7000)));
    const { depth } = surfaceOf(outlines, 1);
    for (let i = 0; i < 60; i++) {
      const p: Point = [between(r, -3000, 18_000), between(r, -3000, 18_000)], inside = outlines.some((o) => contains(o, p)), d = depth(...p);
      expect(d >= 0).toBe(inside);
      // No further off than any other kind of ground, looked for in rays.
      const rays = Array.from({ length: 90 }, (_, k) => [Math.cos(k / 14.3), Math.sin(k / 14.3)] as const);
      const other = Math.min(...rays.map(([c, s]) => { let t = 0; while (t < 20_000 && outlines.some((o) => contains(o, [p[0] + t * c, p[1] + t * s])) === inside) t += 25; return t; }));
      expect(Math.abs(d)).toBeLessThanOrEqual(other + 1);
      expect(Math.abs(d)).toBeGreaterThanOrEqual(other * 0.9 - 60);
    }
  });
});

describe("distances of a box", () => {
  const box = { u0: -2000, u1: 5000, halfWidth: 1200 };
  it("agree with those of outlines where they are apart, and fall below zero where they meet", () => {
    const r = randomFrom(3), outline: Point[] = [[5000, 1200], [-2000, 1200], [-2000, -1200], [5000, -1200]];
    for (let i = 0; i < 300; i++) {
      const x = between(r, -8000, 10_000), y = between(r, -6000, 6000), a = between(r, 0, 628) / 100;
      const ring = [0, 2.1, 4.2].map((t): Point => [x + 1500 * Math.cos(a + t), y + 1500 * Math.sin(a + t)]), d = boxToRing(box, Float64Array.from(ring.flat())), true_ = nearestOfOutlines(outline, ring).distance;
      if (true_ > 0) expect(d).toBeCloseTo(true_, 6);
      else expect(d).toBeLessThanOrEqual(1e-9);
      if (!contains(outline, [x, y])) expect(boxToPoint(box, x, y)).toBeCloseTo(nearestOfOutlines(outline, [[x, y], [x, y], [x, y]]).distance, 6);
    }
  });
  it("are to a line as well, on either side of it", () => {
    expect(boxToRing(box, Float64Array.from([6000, -3000, 6000, 3000]))).toBe(1000);
    expect(boxToRing(box, Float64Array.from([4000, -3000, 4000, 3000]))).toBe(-1000);
    expect(pointToRing([[0, 0], [0, 1000]], 300, 500)).toBe(300);
    expect(pointToRing([[0, 0], [0, 1000], [1000, 1000], [1000, 0]], 300, 500)).toBe(-300);
  });
});

describe("a road", () => {
  const road = { centreline: [[-3000, 20_000], [-3000, 0], [-8000, -15_000]] as [number, number][], width: 5000, traffic: "both" as const };
  it("is driven both ways, a lane named by the side one comes from", () => {
    const lanes = lanesOf(road, [6000, 0]);
    expect(lanes.map(({ from }) => from)).toEqual(["left", "right"]);
    expect(Math.sin(lanes[0]!.start.heading)).toBeLessThan(0);
    expect(lanesOf({ ...road, traffic: "toward-right" }, [6000, 0]).map(({ from }) => from)).toEqual(["left"]);
    expect(lanesOf({ ...road, centreline: [...road.centreline].reverse(), traffic: "toward-right" }, [6000, 0]).map(({ from }) => from)).toEqual(["left"]);
  });
  it("keeps its offset lines on its own ground and where they belong", () => {
    const ground = groundOfRoad(road);
    for (const lane of lanesOf(road, [6000, 0])) for (const offset of [-1500, 0, 1500]) {
      const path = offsetPath(lane, offset)!;
      for (let s = 50_000; s < path.length - 50_000; s += 500) expect(ground.some((o) => contains(o, path.pointAt(s).at))).toBe(true);
    }
    expect(isBeyond(road, [-3000, 19_000])).toBe(false);
    expect(isBeyond(road, [-3000, 21_000])).toBe(true);
  });
});

describe("a member of the family", () => {
  it("asks for no more lock than there is, and ends along the road where it was meant to", () => {
    const combination = makeCombination({ vehicle: { wheelbase: 3750, frontOverhang: 950, rearOverhang: 1200, width: 2030, track: 1720, turningCircle: 14_300 }, units: [] }), steer = largestSteer(combination.vehicle)!;
    const sharpest = Math.sin(steer) / 3750, lane = lanesOf({ centreline: [[-3000, 30_000], [-3500, -30_000]], width: 6000, traffic: "toward-right" }, [5000, 0])[0]!;
    for (const radius of [1.0001 / sharpest, 9000, 14_000]) for (const far of [-900, 0, 900]) for (const ease of [1, 2.5, 4]) {
      const start = { at: sitePoint(12_000, 300), heading: Math.PI as Radians }, out = wayOut(start, lane, { far, radius, bend: 0, ease }, 1, { wheelbase: 3750, sharpest, inward: false }, 12_000);
      if ("short" in out) return expect.fail(`short by ${out.short}`);
      // The wheels come back over so many times the way that they were turned in over.
      const turning = out.path.pieces.filter(({ from, to }) => from !== to);
      expect(turning.map(({ length }) => length / turning[0]!.length)).toEqual([1, expect.closeTo(ease, 6)]);
      const drive = driveAlong(combination, out.path, inLine(combination, out.path), defaultTolerances), most = Math.max(...Array.from({ length: 200 }, (_, i) => Math.abs(drive.at((drive.reached * i) / 199).steer)));
      expect(most).toBeLessThanOrEqual(steer + 1e-3);
      const end = out.path.pointAt(out.path.length), along = offsetPath(lane, -far)!;
      expect(Math.min(...Array.from({ length: 3000 }, (_, i) => { const p = along.pointAt(40_000 + i * 30).at; return Math.hypot(p[0] - end.at[0], p[1] - end.at[1]); }))).toBeLessThan(20);
    }
  });
});

describe("grade breaks", () => {
  const at = (change: number) => backInSite({ approach: { gradeBreaks: [{ at: 500, change }] } });
  it("are told where tail, nose or belly would come near the ground", () => {
    const train = trainOf(coach), { u0 } = train.boxes[0]![0]!, { floor } = coach.body;
    expect(scrapesOf(at(2), train, 75)).toEqual([]);
    expect(scrapesOf(at(14), train, 75)).toMatchObject([{ at: 500, part: "tail", clear: floor + 0.14 * u0 }]);
    expect(scrapesOf(at(-18), train, 75)).toMatchObject([{ part: "belly" }]);
    expect(scrapesOf(backInSite(), train, 75)).toEqual([]);
  });
});

describe("numbers nobody told", () => {
  it("are asked for only where the answer hangs on them", () => {
    const wide = backInSite({ width: 9000 });
    expect(decidingNumbers(wide, trailer, [backedIn(wide)], defaultPolicy)).toEqual([]);
    const asks = [5400, 5600, 5800, 6000].flatMap((width) => { const site = backInSite({ width }); return decidingNumbers(site, trailer, [backedIn(site)], defaultPolicy).map((ask) => ({ ...ask, site })); });
    expect(asks.length).toBeGreaterThan(0);
    const { field, turnsAt, below, above, site } = asks.find(({ field }) => field === "rig.drive.turningCircle") ?? asks[0]!, name = field.split(".")[2]! as "turningCircle";
    for (const [value, state] of [[turnsAt - 60, below], [turnsAt + 60, above]] as const) expect(findAccess(site, withDrive(trailer, { [name]: value }), [backedIn(site)], defaultPolicy)!.state).toBe(state);
  });
});

describe("what is drawn", () => {
  it("begins on the road and ends on the pose, with everything it passes over", () => {
    const site = backInSite({ width: 8000 }), { way } = findAccess(site, trailer, [backedIn(site)], defaultPolicy)!, [leg] = drawWay(trainOf(trailer), way!, 1000);
    expect(leg).toMatchObject({ kind: "back", gear: "reverse" });
    expect(leg!.line[0]![0]).toBeLessThan(-1500);
    const last = leg!.frames.at(-1)!.bodies.find(({ part }) => part === "body")!;
    expect(Math.max(...last.outline.map(([x]) => x))).toBeCloseTo(way!.pose.x, 3);
    for (const { bodies } of leg!.frames) for (const { part, outline } of bodies) if (part !== "hitch") for (const p of outline) expect(leg!.swept.some((piece) => contains(piece, p) || nearestOfOutlines(piece, [p, p, p]).distance < 70)).toBe(true);
    expect(leg!.tracks.length).toBe(8);
  });
});

describe("a driver's outlook", () => {
  it("is mirrored with the driver", () => {
    const left = outlooksOf(trainOf(trailer)), right = outlooksOf(trainOf(withDrive(trailer, { driver: "right" })));
    left.forEach(({ view, eye, from, to }, i) => expect(right[i]).toMatchObject({ view, from: -to, to: -from, eye: [eye[0], -eye[1]] }));
  });
});
