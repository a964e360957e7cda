import { describe, expect, it } from "vitest";
import { centroid, contains, convexHull, normalise, outlineFault, signedArea, type Point } from "@/lib/plane";

const square: Point[] = [[0, 0], [10, 0], [10, 10], [0, 10]];

describe("an outline", () => {
  it("is refused where it crosses itself, touches itself, repeats a corner or has no area", () => {
    expect(outlineFault(square)).toBeNull();
    expect(outlineFault([[0, 0], [10, 10], [0, 10], [10, 0]])).toMatch(/cross/);
    expect(outlineFault([[0, 0], [10, 0], [10, 0], [0, 10]])).toMatch(/same point/);
    expect(outlineFault([[0, 0], [10, 0], [5, 0]])).not.toBeNull();
    expect(outlineFault([[0, 0], [10, 0], [10, 10], [5, 0], [0, 10]])).toMatch(/touch/);
    expect(outlineFault([[0, 0], [10, 0]])).toMatch(/three/);
  });

  it("has the area and the middle of school geometry, wherever it lies", () => {
    expect(signedArea(square)).toBe(100);
    expect(signedArea([...square].reverse())).toBe(-100);
    const far = square.map(([x, y]): Point => [x + 400_000, y - 300_000]);
    expect(centroid(far)).toEqual([400_005, -299_995]);
  });

  it("holds the points on its edges and corners", () => {
    expect(contains(square, [0, 0])).toBe(true);
    expect(contains(square, [5, 0])).toBe(true);
    expect(contains(square, [5, 5])).toBe(true);
    expect(contains(square, [10.000001, 5])).toBe(false);
  });

  it("loses corners that lie on a straight edge, and is turned counter-clockwise", () => {
    const ring = normalise([[0, 0], [0, 10], [10, 10], [10, 0], [5, 0]]);
    expect(ring).toHaveLength(4);
    expect(signedArea(ring)).toBeGreaterThan(0);
  });

  it("has a hull without the points on its edges", () => {
    expect(convexHull([...square, [5, 0], [5, 5], [2, 7]])).toHaveLength(4);
  });
});
