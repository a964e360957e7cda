import { describe, expect, it } from "vitest";
import { depthInOutline, passesThrough, pathAround, pointToRect, rectInsideOutline, rectToDisc, rectToOutline, type P, type Rect } from "../../checker/geometry";

const square: P[] = [[0, 0], [10, 0], [10, 10], [0, 10]];
/** An L: the square without its upper right quarter. */
const ell: P[] = [[0, 0], [10, 0], [10, 5], [5, 5], [5, 10], [0, 10]];
const rect = (x0: number, x1: number, y0: number, y1: number): Rect => ({ x0, x1, y0, y1 });

describe("the checker's geometry, by hand", () => {
  it("measures a point's depth in an outline, the notch of an L included", () => {
    expect(depthInOutline([5, 3], square)).toBe(3);
    expect(depthInOutline([5, -2], square)).toBe(-2);
    expect(depthInOutline([13, 14], square)).toBe(-5);
    expect(depthInOutline([7, 7], ell)).toBe(-2);
    expect(depthInOutline([4, 4], ell)).toBeCloseTo(Math.SQRT2, 12);
  });

  it("measures a point's distance to a box, negative inside", () => {
    expect(pointToRect([13, 14], rect(0, 10, 0, 10))).toBe(5);
    expect(pointToRect([4, 1], rect(0, 10, 0, 10))).toBe(-1);
    expect(pointToRect([10, 5], rect(0, 10, 0, 10))).toBe(0);
  });

  it("measures box and disc, and the least move that parts them", () => {
    expect(rectToDisc(rect(0, 10, 0, 10), [13, 14], 2)).toBe(3);
    expect(rectToDisc(rect(0, 10, 0, 10), [12, 5], 3)).toBe(-1);
    expect(rectToDisc(rect(0, 10, 0, 10), [9, 5], 3)).toBe(-4);
  });

  it("measures box and polygon, slanted edges and notches included", () => {
    expect(rectToOutline(rect(13, 20, 14, 20), square, true)).toBe(5);
    expect(rectToOutline(rect(6, 9, 6, 9), ell, true)).toBe(1);
    expect(rectToOutline(rect(10, 20, 0, 10), square, true)).toBeCloseTo(0, 5);
    expect(rectToOutline(rect(8, 20, 2, 5), square, true)).toBeCloseTo(-2, 5);
    expect(rectToOutline(rect(4, 9, 6, 9), ell, true)).toBeCloseTo(-1, 5);
    // the corner (0, 0) to the line x + y = -2
    expect(rectToOutline(rect(0, 5, 0, 5), [[-2, 0], [-9, 0], [0, -9], [0, -2]], true)).toBeCloseTo(Math.SQRT2, 12);
  });

  it("finds overlap where no corner of either lies in the other", () => {
    expect(rectToOutline(rect(-5, 15, 4, 6), square, true)).toBeCloseTo(-6, 5);
    expect(rectToOutline(rect(-5, 15, 4, 6), square, false)).toBeLessThan(0);
  });

  it("measures how far inside a lot a box lies", () => {
    expect(rectInsideOutline(rect(2, 5, 1, 8), square)).toBe(1);
    expect(rectInsideOutline(rect(2, 5, -1, 8), square)).toBe(-1);
    expect(rectInsideOutline(rect(1, 8, 1, 8), ell)).toBeLessThan(0);
    expect(rectInsideOutline(rect(1, 4, 1, 4), ell)).toBe(1);
    // the notch's corner pokes in although every corner of the box is inside
    const notched: P[] = [[0, 0], [10, 0], [10, 10], [6, 10], [5, 3], [4, 10], [0, 10]];
    expect(rectInsideOutline(rect(1, 9, 1, 5), notched)).toBeLessThan(0);
    expect(rectInsideOutline(rect(1, 9, 1, 2), notched)).toBe(1);
  });

  it("goes around a box the shorter way", () => {
    const box = rect(0, 10, 0, 4);
    expect(pathAround([2, 4], [2, 7], box)).toBe(3);
    // from the left wall to a post on the right: 2 back to the corner, 4 along the rear, then to the post
    expect(pathAround([2, 4], [2, -3], box)).toBeCloseTo(2 + 4 + Math.hypot(2, 3), 12);
    expect(pathAround([9, 4], [9, -3], box)).toBeCloseTo(1 + 4 + Math.hypot(1, 3), 12);
    // along the wall is not through it
    expect(pathAround([2, 4], [8, 4], box)).toBe(6);
    expect(passesThrough([2, 4], [8, 4], box)).toBe(false);
    expect(passesThrough([2, 4], [8, 0], box)).toBe(true);
  });
});
