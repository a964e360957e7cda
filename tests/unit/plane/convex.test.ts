import { describe, expect, it } from "vitest";
import { contains, convexCover, isConvex, pocketsOf, signedArea, type Point } from "@/lib/plane";

const ell: Point[] = [[0, 0], [3000, 0], [3000, 500], [500, 500], [500, 3000], [0, 3000]];
/** A pad that narrows in the middle of one side; met in a random scene, with wheels right on the mouth of the pocket. */
const narrowed: Point[] = [[0, -1085], [14100, -1085], [14100, 1085], [9870, 1085], [8460, 833], [5640, 833], [4935, 1085], [0, 1085]];

describe("a concave outline", () => {
  it("is covered by convex pieces that lie inside it", () => {
    const pieces = convexCover(ell);
    expect(pieces.every(isConvex)).toBe(true);
    for (const piece of pieces) for (const corner of piece) expect(contains(ell, corner)).toBe(true);
  });

  it("has every seam inside some piece", () => {
    const inside = ([x, y]: Point) => convexCover(ell).some((piece) => contains(piece, [x - 1, y]) && contains(piece, [x + 1, y]) && contains(piece, [x, y - 1]) && contains(piece, [x, y + 1]));
    for (let t = 50; t < 500; t += 50) expect(inside([t, t]), `the point ${t}, ${t} on the seam`).toBe(true);
  });

  it("is left alone where it is convex", () => {
    expect(convexCover([[0, 0], [10, 0], [10, 10]])).toHaveLength(1);
    expect(pocketsOf([[0, 0], [10, 0], [10, 10]])).toHaveLength(0);
  });

  it("has pockets that reach out past the hull, so that their mouths lie inside them", () => {
    const pockets = pocketsOf(narrowed);
    expect(pockets.length).toBeGreaterThan(0);
    const mouth: Point = [7000, 1085];
    expect(pockets.some((p) => contains(p, [mouth[0], mouth[1] + 100]) && contains(p, [mouth[0], mouth[1] - 100]))).toBe(true);
    expect(pockets.every((p) => !contains(p, [7000, 800]))).toBe(true);
  });

  it("with two pockets on one side gets both", () => {
    const teeth: Point[] = [[0, 0], [100, 0], [100, 50], [80, 50], [75, 20], [60, 50], [40, 50], [30, 10], [20, 50], [0, 50]];
    const area = pocketsOf(teeth).filter((p) => signedArea(p) > 0);
    expect(area.some((p) => contains(p, [75, 40]))).toBe(true);
    expect(area.some((p) => contains(p, [30, 40]))).toBe(true);
    expect(area.some((p) => contains(p, [50, 49]))).toBe(false);
  });
});
