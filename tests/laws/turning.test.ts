import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { radiansFromDegrees, type Radians } from "@/lib/measure";
import { sitePoint } from "@/lib/plane";
import {
  anglesOf, defaultTolerances, drawnLength, driveAlong, inLine, makePath, makeTurn, reversePath, smallestFrontRadius, steadyTurn, straightsFor, makeCombination,
  type Combination, type Configuration, type Curvature, type Drive, type Path, type Turn, type TurningTolerances,
} from "@/lib/turning";
import { arcs, combinations, paths } from "../scenes/combinations";

/** Fixed, so that every run looks at the same cases; fast-check prints it with the path of a failure. */
const SEED = 20_261_125;
const runs = (numRuns: number, offset = 0) => ({ seed: SEED + offset, numRuns });

const drive = (train: Combination, path: Path, tolerances = defaultTolerances) => driveAlong(train, path, inLine(train, path), tolerances);
const momentsOf = (d: Drive, n = 12) => Array.from({ length: n + 1 }, (_, i) => d.at((d.reached * i) / n));

function turned(train: Combination, arc: Parameters<typeof makeTurn>[1], tolerances: TurningTolerances = defaultTolerances, straights = straightsFor(train)): Turn {
  const turn = makeTurn(train, arc, tolerances, straights);
  if (turn.ended !== "done") return expect.fail(`${turn.ended} after ${turn.reached} of ${turn.length} mm`);
  return turn;
}

/** Every axle and heading of two moments, compared to so many millimetres and radians; `seen` carries the first into the other's frame. */
function expectSame(a: Configuration, b: Configuration, mm: number, seen: { point?: (p: readonly [number, number]) => readonly [number, number]; turn?: (heading: number) => number } = {}): void {
  const { point = (p) => p, turn = (h) => h } = seen;
  a.poses.forEach(({ axle, heading }, i) => {
    const other = b.poses[i]!, [x, y] = point(axle);
    expect(Math.hypot(x - other.axle[0], y - other.axle[1])).toBeLessThan(mm);
    expect(Math.abs(Math.sin((turn(heading) - other.heading) / 2))).toBeLessThan(mm / 1000);
  });
}

describe("a drive", () => {
  it("never slips: every axle moves the way its unit faces, every hitch stays one point", () => {
    fc.assert(fc.property(combinations(), paths, fc.double({ min: 0.05, max: 0.95, noNaN: true }), (train, path, share) => {
      const d = drive(train, path), along = share * d.reached, step = 0.5;
      if (path.starts.some((s) => Math.abs(s - along) < 2 * step)) return;
      const before = d.at(along - step), here = d.at(along), after = d.at(along + step);
      here.poses.forEach(({ axle, heading }, i) => {
        const dx = after.poses[i]!.axle[0] - before.poses[i]!.axle[0], dy = after.poses[i]!.axle[1] - before.poses[i]!.axle[1];
        expect(Math.abs(dy * Math.cos(heading) - dx * Math.sin(heading))).toBeLessThan(1e-3);
        const unit = train.units[i - 1];
        if (!unit) return;
        const drawn = here.poses[i - 1]!, hitchX = drawn.axle[0] - unit.hitchBehindAxle * Math.cos(drawn.heading), hitchY = drawn.axle[1] - unit.hitchBehindAxle * Math.sin(drawn.heading);
        expect(axle[0] + unit.hitchToAxle * Math.cos(heading)).toBeCloseTo(hitchX, 6);
        expect(axle[1] + unit.hitchToAxle * Math.sin(heading)).toBeCloseTo(hitchY, 6);
      });
    }), runs(150));
  });

  it("moved and turned on the ground is the same drive", () => {
    const far = fc.integer({ min: -50_000, max: 50_000 });
    fc.assert(fc.property(combinations(), paths, far, far, fc.integer({ min: -180, max: 180 }), (train, path, x, y, degrees) => {
      const turn = radiansFromDegrees(degrees), c = Math.cos(turn), s = Math.sin(turn);
      const point = ([px, py]: readonly [number, number]) => [x + px * c - py * s, y + px * s + py * c] as const;
      const moved = makePath({ at: sitePoint(...point(path.start.at)), heading: (path.start.heading + turn) as Radians }, path.pieces);
      const there = momentsOf(drive(train, moved));
      momentsOf(drive(train, path)).forEach((moment, i) => expectSame(moment, there[i]!, 1e-3, { point, turn: (h) => h + turn }));
    }), runs(100, 1));
  });

  it("mirrored is the mirrored drive", () => {
    fc.assert(fc.property(combinations(), paths, (train, path) => {
      const mirrored = makePath(path.start, path.pieces.map((p) => ({ ...p, from: -p.from as Curvature, to: -p.to as Curvature })));
      const there = momentsOf(drive(train, mirrored));
      momentsOf(drive(train, path)).forEach((moment, i) => {
        expectSame(moment, there[i]!, 1e-6, { point: ([px, py]) => [px, -py], turn: (h) => -h });
        expect(moment.steer).toBeCloseTo(-there[i]!.steer, 9);
      });
    }), runs(100, 2));
  });

  it("driven back over the same path takes the same configurations in reverse", () => {
    fc.assert(fc.property(combinations(2), paths, (train, path) => {
      // Backwards every error grows by e for each wheelbase or drawbar's length: a stretch of a few of the shortest, followed finely.
      const shortest = Math.min(train.vehicle.wheelbase, ...train.units.map((u) => u.hitchToAxle));
      const tolerances = { ...defaultTolerances, angle: 1e-12 as Radians };
      const there = drive(train, path, tolerances);
      // Past 60 degrees a train pushed from behind has other ways to go, and errors grow faster still.
      if (momentsOf(there, 60).some(({ hitches }) => hitches.some((h) => Math.abs(h) > Math.PI / 3))) return;
      const stretch = Math.min(path.length, 5 * shortest), back = driveAlong(train, reversePath(path), anglesOf(there.at(path.length)), tolerances);
      for (let i = 0; i <= 10; i++) expectSame(there.at(path.length - (stretch * i) / 10), back.at((stretch * i) / 10), 0.05);
    }), runs(120, 3));
  });

  it("goes on from any of its moments as it would have", () => {
    fc.assert(fc.property(combinations(), paths, paths, (train, first, second) => {
      const { at, heading } = first.pointAt(first.length);
      const whole = drive(train, makePath(first.start, [...first.pieces, ...second.pieces])), half = drive(train, first);
      const rest = driveAlong(train, makePath({ at, heading }, second.pieces), anglesOf(half.at(first.length)), defaultTolerances);
      expectSame(whole.at(whole.reached), rest.at(rest.reached), 1e-2);
    }), runs(60, 4));
  });

  it("steers no further than its own turning circle asks for", () => {
    fc.assert(fc.property(combinations(0), paths, (train, path) => {
      const tightest = 1 / Math.max(...path.pieces.map(({ from, to }) => Math.max(Math.abs(from), Math.abs(to))));
      const most = Math.max(...momentsOf(drive(train, path), 100).map(({ steer }) => Math.abs(steer)));
      expect(most).toBeLessThanOrEqual(Math.asin(train.vehicle.wheelbase / tightest) + 1e-8);
    }), runs(60, 5));
  });
});

describe("a turn", () => {
  it("is the same to a hundredth of a millimetre and better at a ten times finer tolerance", () => {
    fc.assert(fc.property(combinations(), arcs, (train, arc) => {
      const coarse = turned(train, arc), fine = turned(train, arc, { ...defaultTolerances, angle: 1e-9 as Radians });
      expect(fine.drive.tries).toBeGreaterThan(coarse.drive.tries);
      for (const what of ["insideRadius", "outsideRadius", "maxOfftracking"] as const) expect(Math.abs(coarse[what] - fine[what])).toBeLessThan(0.01);
      coarse.sharpestHitches.forEach((h, i) => expect(Math.abs(h - fine.sharpestHitches[i]!)).toBeLessThan(1e-6));
    }), runs(40, 6));
  });

  it("that folds up nowhere is the same with straights twice as long: those it has are long enough", () => {
    fc.assert(fc.property(combinations(), arcs, (train, arc) => {
      const { before, after } = straightsFor(train), short = turned(train, arc);
      // One that has folded up may stay so for any distance before it comes out.
      if (short.sharpestHitches.some((h) => h > Math.PI / 2)) return;
      const long = turned(train, arc, defaultTolerances, { before: (2 * before) as typeof before, after: (2 * after) as typeof after });
      for (const what of ["insideRadius", "outsideRadius", "maxOfftracking"] as const) expect(Math.abs(long[what] - short[what])).toBeLessThan(0.01);
      long.sharpestHitches.forEach((h, i) => expect(Math.abs(h - short.sharpestHitches[i]!)).toBeLessThan(1e-6));
    }), runs(40, 7));
  });

  it("grows with everything: twice the lengths, twice the room", () => {
    const twice = <T extends object>(o: T) => Object.fromEntries(Object.entries(o).map(([k, v]) => [k, typeof v === "number" ? 2 * v : v])) as T;
    fc.assert(fc.property(combinations(), arcs, (train, arc) => {
      const big = turned(makeCombination({ vehicle: twice(train.vehicle), units: train.units.map(twice) }), { ...arc, radius: (2 * arc.radius) as typeof arc.radius }), small = turned(train, arc);
      for (const what of ["insideRadius", "outsideRadius", "maxOfftracking"] as const) expect(Math.abs(big[what] - 2 * small[what])).toBeLessThan(0.02);
    }), runs(40, 8));
  });

  it("lies between the arc and the steady state, which a longer arc comes nearer to", () => {
    fc.assert(fc.property(combinations(1), arcs, (train, { radius }) => {
      const steady = steadyTurn(train, radius);
      // A hitch behind the axle swings out as the turn begins, and in as it ends; without one the trailer only draws in.
      if (!steady || train.units.some((u) => u.hitchBehindAxle > 0)) return;
      const cut = [60, 180, 720].map((degrees) => turned(train, { radius, angle: radiansFromDegrees(degrees) }).maxOfftracking);
      expect(cut[0]).toBeLessThanOrEqual(cut[1]! + 0.02);
      expect(cut[1]).toBeLessThanOrEqual(cut[2]! + 0.02);
      expect(cut[2]).toBeLessThanOrEqual(radius - steady.at(-1)!.axleRadius + 0.02);
    }), runs(60, 9));
  });

  it("takes at least as much room outside as the front corner in its steady state, on an arc long enough", () => {
    fc.assert(fc.property(combinations(0), arcs, ({ vehicle }, { radius }) => {
      const { outsideRadius } = turned(makeCombination({ vehicle, units: [] }), { radius, angle: radiansFromDegrees(720) });
      const front = Math.hypot(Math.sqrt(radius ** 2 - vehicle.wheelbase ** 2) + vehicle.width / 2, vehicle.wheelbase + vehicle.frontOverhang);
      expect(outsideRadius).toBeGreaterThanOrEqual(front - 0.02);
      // Both axles stay within the arc's circle while they are beside it, and no corner is further from the nearer one than this.
      expect(outsideRadius).toBeLessThanOrEqual(radius + Math.hypot(Math.max(vehicle.frontOverhang, vehicle.rearOverhang), vehicle.width / 2) + 0.01);
    }), runs(60, 10));
  });

  it("at the smallest circle rolls the outer front tire along it", () => {
    fc.assert(fc.property(combinations(0), fc.integer({ min: 1, max: 12_000 }), (train, more) => {
      const { wheelbase, track } = train.vehicle, turningCircle = 2 * Math.hypot(wheelbase, track / 2) + more;
      const vehicle = { ...train.vehicle, turningCircle }, made = makeCombination({ vehicle, units: [] }), radius = smallestFrontRadius(made.vehicle)!;
      expect(radius).toBeGreaterThan(wheelbase * (1 - 1e-9));
      const rear = steadyTurn(made, radius * (1 + 1e-12))![0]!.axleRadius;
      expect(2 * Math.hypot(wheelbase, rear + track / 2)).toBeCloseTo(turningCircle, 1);
    }), runs(100, 11));
  });

  it("needs no longer a train than it is: the straight after it leaves everything in line again", () => {
    fc.assert(fc.property(combinations(2), arcs, (train, arc) => {
      const { drive: d, sharpestHitches } = turned(train, arc);
      if (sharpestHitches.some((h) => h > Math.PI / 2)) return;
      const last = d.at(d.reached);
      expect(Math.max(Math.abs(last.steer), ...last.hitches.map(Math.abs))).toBeLessThan(0.5);
      expect(drawnLength(train)).toBeLessThan(d.reached);
    }), runs(30, 12));
  });
});
