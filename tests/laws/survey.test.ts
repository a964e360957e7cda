import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { SiteInput } from "@/lib/park";
import { closeRing, ellipseOf, EXACT, evenly, fitPlane, idFrom, placeByTapes, takeReading, takeStep, turnedSpread, workedOut, type Known, type SpotHeight, type Step, type Surveyed, type Tape } from "@/lib/survey";
import { randomFrom, type Random } from "../scenes/random";

/** Fixed, so that every run looks at the same cases. */
const SEED = 20_261_126;
const runs = (numRuns: number, offset = 0) => ({ seed: SEED + offset, numRuns });

type Place = readonly [number, number];
const got = <T>(s: Surveyed<T>): T => (s.ok ? s.value : expect.fail(s.faults.map(({ code }) => code).join()));
const far = (p: Place, q: Place) => Math.hypot(p[0] - q[0], p[1] - q[1]);

/** Three to six known points around a place that none of them is near to, not nearly in line: as one chooses them. */
const layouts = fc.record({ x: fc.integer({ min: -9000, max: 9000 }), y: fc.integer({ min: -9000, max: 9000 }), count: fc.integer({ min: 3, max: 6 }), turn: fc.double({ min: 0, max: 6.28, noNaN: true }), seed: fc.integer({ min: 1, max: 1e6 }) })
  .map(({ x, y, count, turn, seed }) => {
    const r = randomFrom(seed);
    const points = Array.from({ length: count }, (_, k): Place => {
      const angle = turn + (k * 2 * Math.PI) / count + 0.5 * r.next(), reach = 3000 + 9000 * r.next();
      return [x + reach * Math.cos(angle), y + reach * Math.sin(angle)];
    });
    return { target: [x, y] as Place, points, errors: points.map(() => 2 + 20 * r.next()) };
  });
type Layout = typeof layouts extends fc.Arbitrary<infer T> ? T : never;

const known = (k: number, at: Place, error = 0): Known => ({ name: String(k), at, spread: error > 0 ? evenly(error) : EXACT });
const tapesOf = ({ target, points, errors }: Layout, off: (k: number) => number = () => 0): Tape[] => points.map((at, k) => ({ name: String(k), from: known(k, at), distance: far(at, target) + off(k), error: errors[k]! }));

describe("a place by tapes", () => {
  it("is where it is, from exact readings", () => {
    fc.assert(fc.property(layouts, (layout) => {
      expect(far(got(placeByTapes(tapesOf(layout))).at, layout.target)).toBeLessThan(1e-3);
    }), runs(200));
  });

  it("moves and turns with the frame, and its spread turns", () => {
    fc.assert(fc.property(layouts, fc.double({ min: -3, max: 3, noNaN: true }), fc.integer({ min: -50_000, max: 50_000 }), (layout, angle, shift) => {
      const c = Math.cos(angle), s = Math.sin(angle), move = ([x, y]: Place): Place => [shift + x * c - y * s, -shift + x * s + y * c];
      const off = (k: number) => (k % 2 === 0 ? 9 : -7);
      const here = got(placeByTapes(tapesOf(layout, off)));
      const there = got(placeByTapes(tapesOf(layout, off).map((tape) => ({ ...tape, from: { ...tape.from, at: move(tape.from.at) } }))));
      expect(far(there.at, move(here.at))).toBeLessThan(1e-2);
      const turned = turnedSpread(here.spread, angle);
      for (const key of ["xx", "xy", "yy"] as const) expect(Math.abs(there.spread[key] - turned[key])).toBeLessThan(1e-3 * (here.spread.xx + here.spread.yy));
      expect(there.tapes.map(({ misfit }) => misfit)).toEqual(here.tapes.map(({ misfit }) => expect.closeTo(misfit, 2)));
    }), runs(150, 1));
  });

  it("mirrored with its points is the mirrored place, on the other side", () => {
    fc.assert(fc.property(layouts, (layout) => {
      const two = tapesOf(layout).slice(0, 2), mirrored = two.map((tape): Tape => ({ ...tape, from: { ...tape.from, at: [tape.from.at[0], -tape.from.at[1]] } }));
      const [a, b] = placeByTapes(two, { side: "left" }).ok ? ["left", "right"] as const : ["right", "left"] as const;
      const one = placeByTapes(two, { side: a }), other = placeByTapes(mirrored, { side: b });
      expect(one.ok).toBe(other.ok);
      if (one.ok && other.ok) expect(far(other.value.at, [one.value.at[0], -one.value.at[1]])).toBeLessThan(1e-3);
    }), runs(150, 2));
  });

  it("is never known worse for one tape more, wherever that is held, and never better for a worse known point", () => {
    fc.assert(fc.property(layouts, fc.double({ min: 1, max: 50, noNaN: true }), (layout, error) => {
      const tapes = tapesOf(layout), most = got(placeByTapes(tapes)).ellipse;
      const fewer = placeByTapes(tapes.slice(0, -1), { side: "left" }), other = placeByTapes(tapes.slice(0, -1), { side: "right" });
      for (const less of [fewer, other]) {
        if (!less.ok || far(less.value.at, layout.target) > 1) continue;
        expect(most.major).toBeLessThanOrEqual(less.value.ellipse.major * (1 + 1e-6));
        expect(most.minor).toBeLessThanOrEqual(less.value.ellipse.minor * (1 + 1e-6));
      }
      const worse = got(placeByTapes(tapes.map((tape, k) => (k === 0 ? { ...tape, from: known(0, tape.from.at, error) } : tape)))).ellipse;
      expect(worse.major).toBeGreaterThanOrEqual(most.major * (1 - 1e-6));
    }), runs(150, 3));
  });

  it("names a tape that was misread by a foot among those that may be it, where four or more were read", () => {
    fc.assert(fc.property(layouts.filter(({ points }) => points.length >= 4), fc.nat(), (layout, pick) => {
      const wrong = pick % layout.points.length, fine = { ...layout, errors: layout.errors.map(() => 8) };
      const placed = placeByTapes(tapesOf(fine, (k) => (k === wrong ? 305 : 0)));
      const again = placed.ok ? placed.warnings.find(({ code }) => code === "tapes:disagree")?.again : placed.faults[0]?.again;
      expect(again).toContain(String(wrong));
    }), runs(150, 4));
  });
});

describe("a walk along a site", () => {
  const on = "2026-05-02", names = ["Oak", "Oak 2", "Elm"];
  const bare: SiteInput = { id: "s", entry: "back-in", pad: { outline: [[0, -2000], [12_000, -2000], [12_000, 2000], [0, 2000]] }, ground: { along: 0, across: 0 }, hookups: [], obstacles: [{ id: "oak", kind: "tree", at: [9000, -3300], trunkRadius: 280, crownRadius: 2600, crownFrom: 3900, crownTo: 11_000 }] };
  const steps = fc.array(fc.record({ what: fc.constantFrom("read", "place", "add", "gone"), name: fc.constantFrom(...names), far: fc.integer({ min: 1000, max: 9000 }) }), { maxLength: 14 }).map((all) => all.map(({ what, name, far }, i): Step => {
    const id = idFrom(name), taped = { id: `m${i}`, on, how: "tape" as const, readings: { tapes: [{ from: "pad.3" as const, distance: Math.hypot(far, 4000) }, { from: "pad.0" as const, distance: far }], side: "left" as const } };
    if (what === "gone") return { do: "gone", list: "obstacles", id, step: `m${i}` };
    if (what === "add") return { do: "add", kind: "tree", name, place: taped };
    return { do: "read", reading: what === "place" ? { ...taped, of: `obstacles.${id}.at` } : { id: `m${i}`, on, how: "pole", of: `obstacles.${id}.crownFrom`, readings: { length: far } } };
  }));

  it("is changed by nothing of it that is taken again, from wherever to wherever", () => {
    let again = 0;
    fc.assert(fc.property(steps, fc.nat(), fc.nat(), (all, a, b) => {
      const walked = all.reduce<{ record: SiteInput; taken: Step[] }>((so, step) => { const done = takeStep(so.record, step); return done.ok ? { record: done.record, taken: [...so.taken, step] } : so; }, { record: bare, taken: [] });
      const [from, to] = [a % (walked.taken.length + 1), b % (walked.taken.length + 1)].sort((x, y) => x - y) as [number, number];
      for (const run of [walked.taken.slice(0, to), walked.taken.slice(from, to)]) {
        again += run.length;
        expect(run.reduce((at, step) => { const done = takeStep(at, step); return done.ok ? done.record : at; }, walked.record)).toEqual(walked.record);
      }
    }), runs(300, 8));
    expect(again).toBeGreaterThan(500);
  });
});

/** Two normal deviates from two even ones (Box and Muller 1958). */
function normal(r: Random): number {
  return Math.sqrt(-2 * Math.log(1 - r.next())) * Math.cos(2 * Math.PI * r.next());
}

/** A chi-square sum over so many degrees of freedom lies within five of its standard deviations: one run in a million does not. */
function expectChiSquare(sum: number, freedom: number): void {
  expect(Math.abs(sum - freedom)).toBeLessThan(5 * Math.sqrt(2 * freedom));
}

describe("what hangs on a point that was measured wrong", () => {
  const on = "2026-05-02", count = 5;
  const bare: SiteInput = {
    id: "s", entry: "back-in", pad: { outline: [[0, -2000], [12_000, -2000], [12_000, 2000], [0, 2000]] }, ground: { along: 0, across: 0 }, hookups: [],
    obstacles: Array.from({ length: count }, (_, i) => ({ id: `p${i}`, kind: "post" as const, at: [20_000, 9000 + i] as [number, number], radius: 50, from: 0, to: 900 })),
  };
  const read = (record: SiteInput, id: string, i: number, along: number, across: number, base: "origin" | `obstacles.${string}.at`) =>
    got(takeReading(record, { id, of: `obstacles.p${i}.at`, how: "offsets", on, readings: { offset: { along, across, base: [base, [30_000, 500]] } } })).record;
  const offsets = fc.record({ along: fc.integer({ min: 300, max: 4000 }), across: fc.integer({ min: -2000, max: 2000 }) });

  it("ends where it would have, had that been measured right at once", () => {
    fc.assert(fc.property(fc.array(offsets, { minLength: count, maxLength: count }), fc.integer({ min: -900, max: 900 }), (links, wrong) => {
      const chain = (begin: SiteInput) => links.slice(1).reduce((at, { along, across }, i) => read(at, `m${i + 1}`, i + 1, along, across, `obstacles.p${i}.at`), begin);
      const [first] = links as [{ along: number; across: number }];
      const right = chain(read(bare, "m0", 0, first.along, first.across, "origin"));
      const mended = read(chain(read(bare, "m0", 0, first.along + wrong, first.across - wrong, "origin")), "m9", 0, first.along, first.across, "origin");
      right.obstacles!.forEach(({ at }, i) => expect(far(mended.obstacles![i]!.at!, at!)).toBeLessThanOrEqual(2 * count));
    }), runs(150, 7));
  });
});

describe("noise of known size", () => {
  const TRIALS = 3000;

  it("on tapes and known points is recovered within the error that is told, direction by direction", () => {
    const r = randomFrom(SEED), target: Place = [4000, 7000], points: Place[] = [[0, 0], [9000, -1000], [12_000, 9000], [-3000, 8000]];
    const placeError = [0, 15, 6, 10], tapeError = [10, 12, 8, 20];
    let mahalanobis = 0, residual = 0, freedom = 0;
    for (let trial = 0; trial < TRIALS; trial++) {
      // The tape is held to where the point is; the record has it where it was found to be.
      const tapes = points.map((at, k): Tape => {
        const recorded: Place = [at[0] + placeError[k]! * normal(r), at[1] + placeError[k]! * normal(r)];
        return { name: String(k), from: known(k, recorded, placeError[k]), distance: far(at, target) + tapeError[k]! * normal(r), error: tapeError[k]! };
      });
      const { at, spread: { xx, xy, yy }, chiSquare, redundancy } = got(placeByTapes(tapes));
      const dx = at[0] - target[0], dy = at[1] - target[1], det = xx * yy - xy * xy;
      mahalanobis += (yy * dx * dx - 2 * xy * dx * dy + xx * dy * dy) / det;
      residual += chiSquare;
      freedom += redundancy;
    }
    expectChiSquare(mahalanobis, 2 * TRIALS);
    expectChiSquare(residual, freedom);
  });

  it("on sides and diagonals is recovered in the corners' spreads", () => {
    const r = randomFrom(SEED + 1), pad: Place[] = [[0, -2000], [12_000, -2000], [12_000, 2000], [0, 2000]];
    const pairs = [[0, 1], [1, 2], [2, 3], [3, 0], [0, 2], [1, 3]] as const;
    let sum = 0, trials = 0;
    for (let trial = 0; trial < TRIALS / 3; trial++) {
      const ring = closeRing(4, pairs.map(([a, b]) => ({ name: `${a}-${b}`, from: a, to: b, length: far(pad[a]!, pad[b]!) + 8 * normal(r), error: 8 })));
      if (!ring.ok) continue; // one in some hundred is doubted by chance
      trials++;
      sum += (ring.value.corners[2]![1] - 2000) ** 2 / ring.value.spreads[2]!.yy;
    }
    expect(trials).toBeGreaterThan(0.97 * (TRIALS / 3));
    // What is doubted and left out are the largest errors, so a little is missing.
    expect(sum / trials).toBeGreaterThan(0.85);
    expect(sum / trials).toBeLessThan(1.15);
  });

  it("on spot heights is recovered in the slopes, and doubts ground that is even about once in a thousand times", () => {
    const r = randomFrom(SEED + 2), places = [0, 1, 2, 3].flatMap((i) => [0, 1, 2].map((k): Place => [i * 4000, k * 1800 - 1800]));
    let along = 0, across = 0, uneven = 0;
    for (let trial = 0; trial < TRIALS; trial++) {
      const fit = got(fitPlane(places.map(([x, y]): SpotHeight => [x, y, 40 + 0.02 * x - 0.01 * y + 12 * normal(r)]), 12));
      along += ((fit.along.value - 2) / fit.along.error) ** 2;
      across += ((fit.across.value + 1) / fit.across.error) ** 2;
      uneven += Number(fit.uneven);
    }
    expectChiSquare(along, TRIALS);
    expectChiSquare(across, TRIALS);
    expect(uneven).toBeLessThan(15);
  });

  it("on angle and distance is what propagation says", () => {
    const r = randomFrom(SEED + 3), height = ([d, up, eye]: readonly number[]) => eye! + d! * Math.tan((up! * Math.PI) / 180);
    const { value, error } = workedOut(height, [{ value: 10_000, error: 80 }, { value: 28, error: 0.4 }, { value: 1600, error: 15 }]);
    let sum = 0;
    for (let trial = 0; trial < TRIALS; trial++) sum += ((height([10_000 + 80 * normal(r), 28 + 0.4 * normal(r), 1600 + 15 * normal(r)]) - value) / error) ** 2;
    expectChiSquare(sum, TRIALS);
  });

  it("in a long ellipse lies along it", () => {
    const { ellipse, spread } = got(placeByTapes([{ name: "a", from: known(0, [0, 0]), distance: 20_000, error: 10 }, { name: "b", from: known(1, [4000, 0]), distance: 20_000, error: 10 }], { side: "left" }));
    expect(ellipse).toEqual(ellipseOf(spread));
    expect(Math.abs(Math.cos(ellipse.bearing))).toBeGreaterThan(0.99);
    expect(ellipse.major / ellipse.minor).toBeGreaterThan(8);
  });
});
