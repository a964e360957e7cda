import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { lastBend, leastTautLength, passesThrough, sideOf, tautLength, tautPath, type Box, type Point } from "@/lib/plane";

/** A body 9,000 long and 2,400 wide, as seen from its pose. */
const body: Box = { x0: 0, x1: 9000, y0: -1200, y1: 1200 };
const inlet: Point = [1500, 1200];

describe("the way around the body", () => {
  it("is straight where the line does not pass under the body", () => {
    expect(tautPath(body, inlet, [1500, 4200], 5).length).toBe(3000);
    expect(tautPath(body, inlet, [9000, 1200], 5).length).toBe(7500); // along the wall is not under the body
  });

  it("goes around the nearer end to the other side", () => {
    const { length, points } = tautPath(body, inlet, [1500, -1200], 5);
    expect(length).toBe(1500 + 2400 + 1500);
    expect(points).toEqual([inlet, [0, 1200], [0, -1200], [1500, -1200]]);
  });

  it("bends at one corner only where the second is passed in the open", () => {
    expect(tautPath(body, inlet, [-3000, 0], 5).points).toHaveLength(3);
  });

  it("takes an end that lies within the tolerance under the edge as on the edge", () => {
    expect(tautPath(body, inlet, [1500, -1196], 5).length).toBe(5400);
  });

  it("is never shorter than the straight line, nor than the way through any corner the other way round", () => {
    const place = fc.integer({ min: -12_000, max: 12_000 });
    fc.assert(fc.property(place, place, fc.integer({ min: 0, max: 9000 }), (x, y, u) => {
      const from: Point = [u, 1200], to: Point = [x, y];
      if (x > 0 && x < 9000 && Math.abs(y) < 1200) return;
      const { length, points } = tautPath(body, from, to, 0);
      expect(length).toBeGreaterThanOrEqual(Math.hypot(x - u, y - 1200) - 1e-6);
      for (let i = 1; i < points.length; i++) expect(passesThrough(body, points[i - 1]!, points[i]!)).toBe(false);
      expect(length).toBeLessThanOrEqual(shortestByAllCorners(from, to) + 1e-6);
    }), { seed: 21, numRuns: 2000 });
  });
});

describe("the way around, seen from a side", () => {
  /** Points on all four walls, corners among them. */
  const ends = [[1500, 1200], [0, 1200], [9000, 1200], [4000, -1200], [0, 300], [9000, -700], [0, -1200], [9000, -1200]] as const;
  const place = fc.integer({ min: -12_000, max: 21_000 }), size = fc.oneof(fc.integer({ min: 0, max: 400 }), fc.integer({ min: 0, max: 9000 }));
  const open = ([x, y]: Point) => x <= 0 || x >= 9000 || y <= -1200 || y >= 1200;
  /** The corners of a box, and points in between. */
  const samples = ({ x0, x1, y0, y1 }: Box) => [0, 0.2, 0.5, 0.9, 1].flatMap((a) => [0, 0.3, 0.6, 1].map((b): Point => [x0 + a * (x1 - x0), y0 + b * (y1 - y0)]));

  it("is as long as the taut path from every wall to every point outside", () => {
    fc.assert(fc.property(fc.constantFrom(...ends), place, place, (from, x, y) => {
      if (!open([x, y])) return;
      expect(tautLength(sideOf(body, from)!, x, y)).toBeCloseTo(tautPath(body, from, [x, y], 0).length, 6);
    }), { seed: 22, numRuns: 4000 });
  });

  it("is nowhere in a box of points shorter than its bound, which is exact for a single point", () => {
    fc.assert(fc.property(fc.constantFrom(...ends), place, place, size, size, (from, x, y, width, depth) => {
      const side = sideOf(body, from)!, seen: Box = { x0: x, x1: x + width, y0: y, y1: y + depth };
      const least = leastTautLength(side, seen), shown = samples(seen).filter(open);
      for (const [px, py] of shown) expect(tautLength(side, px, py)).toBeGreaterThanOrEqual(least - 1e-6);
      if (least === Infinity) expect(shown).toEqual([]);
      if (open([x, y])) expect(leastTautLength(side, { x0: x, x1: x, y0: y, y1: y })).toBeCloseTo(tautLength(side, x, y), 6);
    }), { seed: 23, numRuns: 4000 });
  });

  it("runs straight from one and the same bend where it says so", () => {
    let told = 0;
    fc.assert(fc.property(fc.constantFrom(...ends), place, place, size, size, (from, x, y, width, depth) => {
      const side = sideOf(body, from)!, seen: Box = { x0: x, x1: x + width, y0: y, y1: y + depth };
      const bend = lastBend(side, seen);
      if (!bend) return;
      told++;
      for (const [px, py] of samples(seen).filter(open)) expect(tautLength(side, px, py)).toBeCloseTo(bend.length + Math.hypot(px - bend.x, py - bend.y), 6);
    }), { seed: 24, numRuns: 4000 });
    expect(told).toBeGreaterThan(1000);
  });

  it("has no side to be seen from where the point is not on the edge", () => {
    expect(sideOf(body, [1500, 1201])).toBeNull();
    expect(sideOf(body, [-1, 1200])).toBeNull();
  });
});

/** Every order of up to four corners, the obvious way. */
function shortestByAllCorners(from: Point, to: Point): number {
  const corners: Point[] = [[0, -1200], [9000, -1200], [9000, 1200], [0, 1200]];
  let best = Infinity;
  const go = (at: Point, used: number, length: number) => {
    if (length >= best) return;
    if (!passesThrough(body, at, to)) best = Math.min(best, length + Math.hypot(to[0] - at[0], to[1] - at[1]));
    corners.forEach((c, i) => {
      if (!(used & (1 << i)) && !passesThrough(body, at, c)) go(c, used | (1 << i), length + Math.hypot(c[0] - at[0], c[1] - at[1]));
    });
  };
  go(from, 0, 0);
  return best;
}
