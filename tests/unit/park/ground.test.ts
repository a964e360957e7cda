import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { groundHeight, groundPlane, siteSchema } from "@/lib/park";

describe("the ground plane", () => {
  it("rises as the slopes say, toward +x and +y", () => {
    const plane = groundPlane({ along: 1.5, across: -0.8 });
    expect(groundHeight(plane, 10_000, 0)).toBeCloseTo(150, 9);
    expect(groundHeight(plane, 0, 1000)).toBeCloseTo(-8, 9);
    expect(plane.worstResidual).toBe(0);
  });

  it("goes through spot heights that lie on a plane, wherever they were taken", () => {
    const slope = fc.double({ min: -0.1, max: 0.1, noNaN: true }), spot = fc.integer({ min: -20_000, max: 20_000 });
    fc.assert(fc.property(slope, slope, fc.integer({ min: -500, max: 500 }), fc.array(fc.tuple(spot, spot), { minLength: 4, maxLength: 12 }), (a, b, c, places) => {
      const heights = places.map(([x, y]): [number, number, number] => [x, y, c + a * x + b * y]);
      if (!siteSchema.shape.ground.safeParse({ heights }).success || thin(places)) return;
      const plane = groundPlane({ heights });
      expect(plane.alongGradient).toBeCloseTo(a, 6);
      expect(plane.acrossGradient).toBeCloseTo(b, 6);
      expect(plane.worstResidual).toBeLessThan(0.01);
    }), { seed: 31, numRuns: 500 });
  });

  it("reports the worst misfit of uneven ground", () => {
    // A square with one corner 40 up: the plane takes half of what each diagonal differs by, 10 at every corner.
    const plane = groundPlane({ heights: [[0, 0, 0], [4000, 0, 0], [4000, 4000, 40], [0, 4000, 0]] });
    expect(plane.worstResidual).toBeCloseTo(10, 9);
  });
});

/** Spots nearly on one line give a plane that turns on the last digit. */
function thin(places: readonly (readonly [number, number])[]): boolean {
  const [ax, ay] = places[0]!;
  const crosses = places.flatMap(([bx, by]) => places.map(([cx, cy]) => Math.abs((bx - ax) * (cy - ay) - (by - ay) * (cx - ax))));
  return Math.max(...crosses) < 1e6;
}
