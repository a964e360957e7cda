import { levenbergMarquardt } from "ml-levenberg-marquardt";
import { inverse, Matrix, QrDecomposition } from "ml-matrix";
import { describe, expect, it } from "vitest";
import { closeRing, EXACT, fitPlane, placeByTapes, type Known, type SpotHeight } from "@/lib/survey";
import { between, randomFrom, type Random } from "../scenes/random";

// Held against general-purpose numerics that know nothing of surveying: Levenberg and Marquardt for what is curved, a QR decomposition for what is straight.

const far = (p: readonly number[], q: readonly number[]) => Math.hypot(p[0]! - q[0]!, p[1]! - q[1]!);
const noise = (r: Random, most: number) => most * (2 * r.next() - 1);

describe("tapes", () => {
  it("place a thing where a general-purpose solver does, to a thousandth of a millimetre", () => {
    for (let seed = 1; seed <= 60; seed++) {
      const r = randomFrom(seed), count = between(r, 3, 7), target = [between(r, -5000, 5000), between(r, -5000, 5000)];
      const points = Array.from({ length: count }, (_, k): [number, number] => [target[0]! + 7000 * Math.cos((k * 6.283) / count + r.next()), target[1]! + 5000 * Math.sin((k * 6.283) / count + r.next())]);
      const tapes = points.map((at, k) => {
        const error = 4 + 12 * r.next();
        return { name: String(k), from: { name: String(k), at, spread: EXACT } satisfies Known, distance: far(at, target) + noise(r, 2 * error), error };
      });
      const placed = placeByTapes(tapes);
      if (!placed.ok) expect.fail(`seed ${seed}: ${placed.faults[0]!.code}`);
      // Weighed by dividing both sides by the error: the solver sees a plain problem.
      const fitted = levenbergMarquardt({ x: tapes.map((_, k) => k), y: tapes.map(({ distance, error }) => distance / error) }, ([x = 0, y = 0]) => (k) => far(points[k]!, [x, y]) / tapes[k]!.error, {
        initialValues: [target[0]! + 40, target[1]! - 40], damping: 1e-3, gradientDifference: 1e-3, maxIterations: 400, errorTolerance: 0, centralDifference: true,
      });
      expect(far(placed.value.at, fitted.parameterValues), `seed ${seed}`).toBeLessThan(1e-3);
    }
  });

  it("have the spread of the inverted normal matrix", () => {
    const points = [[0, 0], [8000, -500], [3000, 9000]] as const, target = [3500, 3000], errors = [5, 9, 14];
    const placed = placeByTapes(points.map((at, k) => ({ name: String(k), from: { name: String(k), at, spread: EXACT }, distance: far(at, target), error: errors[k]! })));
    const a = new Matrix(points.map((at, k) => [(target[0]! - at[0]) / far(at, target) / errors[k]!, (target[1]! - at[1]) / far(at, target) / errors[k]!]));
    const [[xx, xy], [, yy]] = inverse(a.transpose().mmul(a)).to2DArray() as [[number, number], [number, number]];
    expect(placed.ok && placed.value.spread).toEqual({ xx: expect.closeTo(xx, 6), xy: expect.closeTo(xy, 6), yy: expect.closeTo(yy, 6) });
  });
});

describe("a plane through spot heights", () => {
  it("is that of a QR decomposition, errors and all", () => {
    for (let seed = 1; seed <= 60; seed++) {
      const r = randomFrom(seed), spots = Array.from({ length: between(r, 4, 30) }, (): SpotHeight => [between(r, 0, 15_000), between(r, -3000, 3000), between(r, -80, 80)]);
      const fit = fitPlane(spots, 1e6); // so large an error that no misfit is doubted
      if (!fit.ok) expect.fail(fit.faults[0]!.code);
      const a = new Matrix(spots.map(([x, y]) => [1, x, y])), z = Matrix.columnVector(spots.map(([, , height]) => height));
      const [base, along, across] = new QrDecomposition(a).solve(z).to1DArray() as [number, number, number];
      const { plane } = fit.value;
      expect([plane.base, plane.alongGradient, plane.acrossGradient]).toEqual([expect.closeTo(base, 6), expect.closeTo(along, 9), expect.closeTo(across, 9)]);
      const cofactors = inverse(a.transpose().mmul(a)).to2DArray();
      fit.value.covariance.forEach((row, i) => row.forEach((value, k) => expect(value / 1e12 / cofactors[i]![k]!).toBeCloseTo(1, 6)));
    }
  });
});

describe("a ring of sides and diagonals", () => {
  it("has the corners that a general-purpose solver finds for it", () => {
    for (let seed = 1; seed <= 20; seed++) {
      const r = randomFrom(seed), pad = [[0, -2000], [between(r, 9000, 14_000), -2300], [between(r, 9000, 14_000), 2100], [0, 2000]] as const;
      const pairs = [[0, 1], [1, 2], [2, 3], [3, 0], [0, 2], [1, 3]] as const;
      const read = pairs.map(([a, b]) => ({ name: `${a}-${b}`, from: a, to: b, length: far(pad[a], pad[b]) + noise(r, 8), error: 8 }));
      const ring = closeRing(4, read);
      if (!ring.ok) expect.fail(ring.faults[0]!.code);
      const cornersOf = ([bx = 0, cx = 0, cy = 0, dx = 0, dy = 0]: readonly number[]) => [[0, 0], [bx, 0], [cx, cy], [dx, dy]];
      const length = far(pad[0], pad[1]);
      const fitted = levenbergMarquardt({ x: pairs.map((_, k) => k), y: read.map((one) => one.length) }, (values) => (k) => { const c = cornersOf(values), [a, b] = pairs[k]!; return far(c[a]!, c[b]!); }, {
        initialValues: [length, length, 4100, -100, 3900], damping: 1e-3, gradientDifference: 1e-3, maxIterations: 800, errorTolerance: 0, centralDifference: true,
      });
      const corners = cornersOf(fitted.parameterValues);
      for (const [a, b] of pairs) expect(far(ring.value.corners[a]!, ring.value.corners[b]!), `seed ${seed}`).toBeCloseTo(far(corners[a]!, corners[b]!), 2);
    }
  });
});
