import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { radiansFromDegrees, type Radians } from "@/lib/measure";
import { sitePoint } from "@/lib/plane";
import { arc, curvatureOf, makePath, reversePath, straight, STRAIGHT, transition } from "@/lib/turning";
import { paths } from "../../scenes/combinations";

const origin = { at: sitePoint(0, 0), heading: 0 as Radians };

describe("a path", () => {
  it("goes straight, then round to the left by a quarter circle, then straight", () => {
    const path = makePath(origin, [straight(1000), arc(5000, radiansFromDegrees(90)), straight(2000)]);
    expect(path.length).toBeCloseTo(3000 + 2500 * Math.PI, 9);
    const { at, heading } = path.pointAt(path.length);
    expect(at[0]).toBeCloseTo(6000, 9);
    expect(at[1]).toBeCloseTo(7000, 9);
    expect(heading).toBeCloseTo(Math.PI / 2, 12);
  });

  it("bends to the right by an angle below zero", () => {
    expect(makePath(origin, [arc(5000, radiansFromDegrees(-90))]).pointAt(1e9).at[1]).toBeCloseTo(-5000, 9);
  });

  // Fresnel integrals, Abramowitz & Stegun 1964, table 7.7: C(1) = 0.7798934, S(1) = 0.4382591 (from memory).
  it("draws a clothoid: the Fresnel integrals at 1", () => {
    const scale = 10_000, end = curvatureOf(scale / Math.PI); // curvature pi s / scale^2
    const { at, heading } = makePath(origin, [transition(scale, STRAIGHT, end)]).pointAt(scale);
    expect(at[0] / scale).toBeCloseTo(0.7798934, 7);
    expect(at[1] / scale).toBeCloseTo(0.4382591, 7);
    expect(heading).toBeCloseTo(Math.PI / 2, 12);
  });

  it("leads where it says: its points move by its heading, across the joints too", () => {
    fc.assert(fc.property(paths, fc.double({ min: 0.01, max: 0.99, noNaN: true }), (path, share) => {
      const along = share * path.length, step = 0.01;
      const { heading } = path.pointAt(along), [ax, ay] = path.pointAt(along - step).at, [bx, by] = path.pointAt(along + step).at;
      expect((bx - ax) / (2 * step)).toBeCloseTo(Math.cos(heading), 4);
      expect((by - ay) / (2 * step)).toBeCloseTo(Math.sin(heading), 4);
    }), { seed: 41, numRuns: 300 });
  });

  it("reversed passes the same points and leads the other way", () => {
    fc.assert(fc.property(paths, fc.double({ min: 0, max: 1, noNaN: true }), (path, share) => {
      const back = reversePath(path), there = path.pointAt(share * path.length), here = back.pointAt((1 - share) * path.length);
      expect(here.at[0]).toBeCloseTo(there.at[0], 5);
      expect(here.at[1]).toBeCloseTo(there.at[1], 5);
      expect(Math.cos(here.heading - there.heading)).toBeCloseTo(-1, 9);
    }), { seed: 42, numRuns: 300 });
  });

  it("takes distances beyond its ends as its ends", () => {
    const path = makePath(origin, [straight(1000)]);
    expect(path.pointAt(-5).at).toEqual([0, 0]);
    expect(path.pointAt(1005).at).toEqual([1000, 0]);
  });

  it("refuses what is no path", () => {
    expect(() => makePath(origin, [])).toThrow("longer than 0");
    expect(() => makePath(origin, [straight(0)])).toThrow("longer than 0");
    expect(() => straight(-1)).toThrow("got -1");
    expect(() => arc(0, 1 as Radians)).toThrow("got 0");
    expect(() => curvatureOf(0)).toThrow("got 0");
    expect(() => transition(NaN, STRAIGHT, STRAIGHT)).toThrow("got NaN");
  });
});
