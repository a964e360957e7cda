import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { convexHull, elementAt, Envelope, greatestIn, ringSeenByBox, type Element, type Point } from "@/lib/plane";

const ring = (points: readonly Point[]) => Float64Array.from(points.flat());
const coordinate = fc.integer({ min: -5000, max: 5000 });
const side = fc.integer({ min: 0, max: 3000 });
const half = fc.record({ turn: fc.double({ min: 0, max: 6.283, noNaN: true }), d: coordinate }).map(({ turn, d }): Element => ({ shape: "half", a: Math.cos(turn), b: Math.sin(turn), d }));
const box = fc.record({ x: coordinate, y: coordinate, ax: side, ay: side, r: fc.integer({ min: 0, max: 500 }) }).map((e): Element => ({ shape: "box", ...e }));
const convex = fc.array(fc.tuple(coordinate, coordinate), { minLength: 3, maxLength: 8 })
  .map((points) => convexHull(points as Point[])).filter((hull) => hull.length >= 3)
  .chain((hull) => fc.integer({ min: 0, max: 500 }).map((r): Element => ({ shape: "convex", ring: ring(hull), r })));
const element = fc.oneof(half, box, convex);
const cell = fc.record({ cx: coordinate, cy: coordinate, hx: side, hy: side });
const within = fc.double({ min: -1, max: 1, noNaN: true });
const NOISE = 1e-6;

describe("elements", () => {
  it("measure signed distances: outside, on the edge and inside", () => {
    const disc: Element = { shape: "box", x: 0, y: 0, ax: 0, ay: 0, r: 100 };
    expect(elementAt(disc, 300, 400)).toBe(400);
    expect(elementAt(disc, 100, 0)).toBe(0);
    const table: Element = { shape: "box", x: 0, y: 0, ax: 200, ay: 100, r: 0 };
    expect(elementAt(table, 0, 0)).toBe(-100); // the least move that leads out
    expect(elementAt(table, 230, 140)).toBe(50);
    const wedge: Element = { shape: "convex", ring: ring([[0, 0], [100, 0], [0, 100]]), r: 0 };
    expect(elementAt(wedge, 50, 0)).toBeCloseTo(0, 9);
    expect(elementAt(wedge, 10, 10)).toBe(-10);
    expect(elementAt(wedge, 100, 100)).toBeCloseTo(Math.SQRT1_2 * 100, 9);
    expect(elementAt(wedge, -30, -40)).toBe(50);
  });

  it("change by no more than the point moves", () => {
    fc.assert(fc.property(element, coordinate, coordinate, coordinate, coordinate, (e, x, y, u, v) => {
      expect(Math.abs(elementAt(e, x, y) - elementAt(e, u, v))).toBeLessThanOrEqual(Math.hypot(x - u, y - v) + NOISE);
    }), { seed: 11, numRuns: 2000 });
  });

  it("are nowhere in a cell greater than their bound, and reach it", () => {
    fc.assert(fc.property(element, cell, within, within, (e, c, s, t) => {
      const bound = greatestIn(e, c);
      expect(elementAt(e, c.cx + s * c.hx, c.cy + t * c.hy)).toBeLessThanOrEqual(bound + NOISE);
      const corners = [-1, 1].flatMap((i) => [-1, 1].map((j) => elementAt(e, c.cx + i * c.hx, c.cy + j * c.hy)));
      expect(Math.max(...corners)).toBeCloseTo(bound, 5);
    }), { seed: 12, numRuns: 2000 });
  });
});

describe("an envelope", () => {
  const many = fc.array(element, { minLength: 1, maxLength: 12 });
  const survey = (elements: readonly Element[], c: { cx: number; cy: number; hx: number; hy: number }, cap: number) => {
    const envelope = new Envelope(elements);
    const all = Int32Array.from(elements, (_, i) => i), kept = new Int32Array(elements.length);
    const count = envelope.survey(c, all, 0, all.length, cap, kept, 0);
    return { envelope, kept, count };
  };

  it("bounds its least over a cell, and has the least at the centre", () => {
    fc.assert(fc.property(many, cell, within, within, (elements, c, s, t) => {
      const { envelope } = survey(elements, c, Infinity);
      const least = (x: number, y: number) => Math.min(...elements.map((e) => elementAt(e, x, y)));
      expect(envelope.value).toBeCloseTo(least(c.cx, c.cy), 5);
      expect(least(c.cx + s * c.hx, c.cy + t * c.hy)).toBeLessThanOrEqual(envelope.upper + NOISE);
    }), { seed: 13, numRuns: 2000 });
  });

  it("gives the same bound by itself, and says whether a level is reached whatever it was asked before", () => {
    fc.assert(fc.property(many, cell, within, within, fc.array(coordinate, { minLength: 1, maxLength: 4 }), (elements, c, s, t, levels) => {
      const { envelope } = survey(elements, c, Infinity);
      expect(envelope.boundIn(c)).toBeCloseTo(envelope.upper, 6);
      const x = c.cx + s * c.hx, y = c.cy + t * c.hy, least = new Envelope(elements).valueAt(x, y);
      for (const level of [...levels, least, least + 1]) expect(envelope.reaches(x, y, level)).toBe(least >= level);
    }), { seed: 16, numRuns: 1000 });
  });

  it("drops only elements that cannot bind in the cell below the cap", () => {
    fc.assert(fc.property(many, cell, within, within, fc.integer({ min: -500, max: 2000 }), (elements, c, s, t, cap) => {
      const { envelope, kept, count } = survey(elements, c, cap);
      const x = c.cx + s * c.hx, y = c.cy + t * c.hy;
      const all = Math.min(envelope.valueAt(x, y), cap), some = Math.min(envelope.valueAmong(x, y, kept, 0, count), cap);
      expect(some).toBeCloseTo(all, 5);
    }), { seed: 14, numRuns: 2000 });
  });

  it("trims a cell without losing a point that reaches the level", () => {
    fc.assert(fc.property(fc.array(half, { minLength: 1, maxLength: 5 }), cell, within, within, fc.integer({ min: -500, max: 500 }), (edges, c, s, t, level) => {
      const x = c.cx + s * c.hx, y = c.cy + t * c.hy;
      const trimmed = { ...c };
      const left = new Envelope(edges).trim(trimmed, level);
      if (Math.min(...edges.map((e) => elementAt(e, x, y))) < level) return;
      expect(left).toBe(true);
      expect(Math.abs(x - trimmed.cx)).toBeLessThanOrEqual(trimmed.hx + NOISE);
      expect(Math.abs(y - trimmed.cy)).toBeLessThanOrEqual(trimmed.hy + NOISE);
    }), { seed: 15, numRuns: 3000 });
  });
});

describe("a ring seen by a box", () => {
  it("is met where the box meets the ring: the Minkowski sum, by brute force over hulls", () => {
    fc.assert(fc.property(fc.array(fc.tuple(coordinate, coordinate), { minLength: 3, maxLength: 7 }), coordinate, coordinate, side, side, (points, x0, y0, w, d) => {
      const hull = convexHull(points as Point[]);
      if (hull.length < 3) return;
      const seen = ringSeenByBox(hull, x0, x0 + w, y0, y0 + d);
      const brute = convexHull(hull.flatMap(([x, y]): Point[] => [[x - x0, y - y0], [x - x0 - w, y - y0], [x - x0, y - y0 - d], [x - x0 - w, y - y0 - d]]));
      const a: Element = { shape: "convex", ring: seen, r: 0 }, b: Element = { shape: "convex", ring: ring(brute), r: 0 };
      for (const [x, y] of [[0, 0], [700, -900], [-4000, 2500], [x0, y0]] as const) expect(elementAt(a, x, y)).toBeCloseTo(elementAt(b, x, y), 4);
    }), { seed: 16, numRuns: 1500 });
  });
});
