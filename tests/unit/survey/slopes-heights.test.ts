import { describe, expect, it } from "vitest";
import { errorSaid } from "@/lib/survey/tolerances";
import { carriedCovariance, errorOfSum, fitPlane, heightByAngle, radiusByGirth, slopeByDegrees, slopeByLevel, workedOut, type SpotHeight, type Surveyed } from "@/lib/survey";

const m = (value: number, error = 0) => ({ value, error });
const got = <T>(s: Surveyed<T>): T => (s.ok ? s.value : expect.fail(s.faults[0]!.code));
const code = <T>(s: Surveyed<T>) => (s.ok ? "" : s.faults[0]!.code);
const degrees = Math.PI / 180;

describe("a slope", () => {
  it("by a level is the rise over its length: 24 mm under 1.2 m is 2 per cent, 3 mm of error a quarter of one", () => {
    expect(slopeByLevel(m(24, 3), m(1200, 0))).toEqual({ value: 2, error: expect.closeTo(0.25, 6) });
    expect(slopeByLevel(m(-24, 0), m(1200, 12)).error).toBeCloseTo(0.02, 6);
  });

  it("by an inclinometer is a hundred times the tangent: 45 degrees is 100 per cent, a degree of error there 2 π / 1.8", () => {
    expect(slopeByDegrees(m(45, 1))).toEqual({ value: expect.closeTo(100, 9), error: expect.closeTo(200 * degrees, 4) });
    expect(slopeByDegrees(m(-1, 0.2)).value).toBeCloseTo(-1.7455, 4);
  });

  const square = (z: (x: number, y: number) => number): SpotHeight[] => [0, 1, 2].flatMap((i) => [0, 1, 2].map((k): SpotHeight => [i * 4000, k * 2000 - 2000, z(i * 4000, k * 2000 - 2000)]));

  it("through spots on a plane is that plane, known as their spacing tells", () => {
    const fit = got(fitPlane(square((x, y) => 30 + 0.02 * x - 0.01 * y), 5));
    expect(fit.plane).toMatchObject({ base: expect.closeTo(30, 6), alongGradient: expect.closeTo(0.02, 9), acrossGradient: expect.closeTo(-0.01, 9) });
    // Sums of squares about the mean: 6 × 4000² along, 6 × 2000² across.
    expect(fit.along.error).toBeCloseTo((100 * 5) / (4000 * Math.sqrt(6)), 9);
    expect(fit.across.error).toBeCloseTo((100 * 5) / (2000 * Math.sqrt(6)), 9);
    expect([fit.misfit, fit.uneven]).toEqual([expect.closeTo(0, 6), false]);
  });

  it("over uneven ground says so, names the worst spot, and is known no better than its misfits", () => {
    const spots = square((x, y) => 0.02 * x - 0.01 * y).map(([x, y, z], i): SpotHeight => [x, y, i === 4 ? z + 90 : z]);
    const outcome = fitPlane(spots, 5), fit = got(outcome);
    expect(fit).toMatchObject({ uneven: true, worst: { spot: 4, by: expect.closeTo(80, 6) } });
    expect(outcome.ok && outcome.warnings).toEqual([{ code: "ground:uneven", again: ["4"], by: expect.closeTo(80, 6) }]);
    expect(fit.along.error).toBeGreaterThan((100 * 5) / (4000 * Math.sqrt(6)));
  });

  it("off by less than a block's thickness is not called uneven", () => {
    expect(got(fitPlane(square((x, y) => ((x / 4000 + y / 2000) % 2 === 0 ? 9 : -9)), 2)).uneven).toBe(false);
  });

  it("cannot come from spots in one line, nor from two", () => {
    expect(code(fitPlane([[0, 0, 0], [1000, 1000, 5], [3000, 3000, 9]], 5))).toBe("ground:in-line");
    expect(code(fitPlane([[0, 0, 0], [1000, 0, 5]], 5))).toBe("ground:in-line");
  });
});

describe("a height by angle and distance", () => {
  it("on level ground is the eye's height and the distance times the tangent", () => {
    const height = got(heightByAngle({ distance: m(10_000, 100), top: m(30, 0.5), eye: m(1600, 20) }));
    expect(height.value).toBeCloseTo(1600 + 10_000 * Math.tan(30 * degrees), 6);
    expect(height.error).toBeCloseTo(Math.hypot(20, 100 * Math.tan(30 * degrees), (10_000 * 0.5 * degrees) / Math.cos(30 * degrees) ** 2), 3);
  });

  it("with an angle down to the base needs no height of the eye where the distance is level", () => {
    expect(got(heightByAngle({ distance: m(10_000), top: m(30), base: m(-9) })).value).toBeCloseTo(10_000 * (Math.tan(30 * degrees) + Math.tan(9 * degrees)), 6);
  });

  it("takes a tape that lies on sloping ground for what it is: 13 m downhill are 12 m level and 5 m down", () => {
    const eye = 1600, base = Math.atan((-5000 - eye) / 12_000) / degrees, top = Math.atan((4000 - 5000 - eye) / 12_000) / degrees;
    expect(got(heightByAngle({ distance: m(13_000), top: m(top), base: m(base), eye: m(eye) })).value).toBeCloseTo(4000, 6);
  });

  it("is refused without the eye or the base, from too near, or where the top comes out below the base", () => {
    expect(code(heightByAngle({ distance: m(10_000), top: m(30) }))).toBe("angle:short");
    expect(code(heightByAngle({ distance: m(1000), top: m(65), eye: m(1600) }))).toBe("angle:steep");
    expect(code(heightByAngle({ distance: m(10_000), top: m(-30), eye: m(1600) }))).toBe("angle:below");
  });
});

describe("errors", () => {
  it("of a girth are as its own, over two π", () => {
    expect(radiusByGirth(m(2000 * Math.PI, 20 * Math.PI))).toEqual({ value: expect.closeTo(1000, 9), error: expect.closeTo(10, 9) });
  });

  it("add up as squares, and go through a product by its slopes", () => {
    expect(errorOfSum([3, 4])).toBe(5);
    expect(workedOut(([a, b]) => a! * b!, [m(100, 3), m(200, 4)]).error).toBeCloseTo(Math.hypot(200 * 3, 100 * 4), 4);
  });

  it("that go together are carried together: a difference of two numbers that are off alike is exact", () => {
    expect(carriedCovariance(([a, b]) => [a! - b!], [5, 3], [[4, 4], [4, 4]])[0]![0]).toBeCloseTo(0, 6);
  });
});

describe("the error of a number of which somebody only says how they know it", () => {
  it("is the usual one of its size, that of ten meters for a place, and in per cent for a slope judged by eye", () => {
    expect(errorSaid("estimated", "obstacles.oak.crownFrom", 4000)).toBe(800);
    expect(errorSaid("estimated", "obstacles.oak.at", null)).toBe(2000);
    expect(errorSaid("tape", "hookups.ped.height", 900)).toBe(10.04);
    expect(errorSaid("from-plan", "pad", null)).toBe(300);
    expect(errorSaid("estimated", "ground.along", 2)).toBe(1.5);
  });

  it("is not to be had where the way tells none", () => {
    expect([errorSaid("tape", "ground.along", 2), errorSaid("estimated", "ground", null), errorSaid("estimated", "hookups.tap.pressure", 400)]).toEqual([null, null, null]);
  });
});
