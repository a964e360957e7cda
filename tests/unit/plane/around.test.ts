import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { passesThrough, tautPath, type Box, type Point } from "@/lib/plane";

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
