import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { mm, radiansFromDegrees, type Radians } from "@/lib/measure";
import { contains, nearestOnOutline, sitePoint, type SitePoint } from "@/lib/plane";
import { arc, bodySpeed, bodyToOutline, bodyToPoint, defaultTolerances, driveAlong, inLine, leastAlong, makeCombination, makePath, placed, straight, sweptArea, wheelsToPoint, wheelTracks, type Drive } from "@/lib/turning";
import { combinations, paths } from "../../scenes/combinations";

const origin = { at: sitePoint(0, 0), heading: 0 as Radians };
const vehicle = { wheelbase: 4000, frontOverhang: 1000, rearOverhang: 1500, width: 2000, track: 1600 };
const car = makeCombination({ vehicle, units: [] });
const along = (pieces: Parameters<typeof makePath>[1], train = car): Drive => { const path = makePath(origin, pieces); return driveAlong(train, path, inLine(train, path), defaultTolerances); };

const offPieces = (pieces: readonly (readonly SitePoint[])[], p: SitePoint) => Math.min(...pieces.map((piece) => (contains(piece, p) ? 0 : distanceTo(p, piece))));
const distanceTo = ([x, y]: SitePoint, piece: readonly SitePoint[]) => { const [nx, ny] = nearestOnOutline([x, y], piece); return Math.hypot(nx - x, ny - y); };

describe("the swept area", () => {
  it("of a straight drive is one long rectangle", () => {
    const { pieces, error } = sweptArea(along([straight(6000)]), 0, defaultTolerances);
    const xs = pieces.flat().map((p) => p[0]), ys = pieces.flat().map((p) => p[1]);
    expect([Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)]).toEqual([-5500, 7000, -1000, 1000].map((v) => expect.closeTo(v, 6)));
    expect(error).toBeLessThanOrEqual(20);
  });

  it("holds every point of the body at every moment to within its error, and nothing further off than that", () => {
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(fc.property(combinations(2), paths, fc.array(fc.tuple(share, share, share, share), { minLength: 25, maxLength: 25 }), (train, path, picks) => {
      const drive = driveAlong(train, path, inLine(train, path), defaultTolerances), body = train.bodies.length - 1, { corners } = train.bodies[body]!;
      const { pieces, error } = sweptArea(drive, body, defaultTolerances);
      expect(error).toBeLessThanOrEqual(defaultTolerances.outline * (1 + 1e-9));
      const [front, halfWidth] = corners[0], rear = corners[2][0];
      for (const [when, u, v, weight] of picks) {
        const p = placed(drive.at(when * drive.reached).poses[body]!, [rear + u * (front - rear), (2 * v - 1) * halfWidth] as never);
        expect(offPieces(pieces, p)).toBeLessThanOrEqual(error + 1e-6);
        // A point of a piece: somewhere between two of its corners.
        const piece = pieces[Math.min(pieces.length - 1, Math.floor(when * pieces.length))]!, a = piece[Math.floor(u * (piece.length - 1))]!, b = piece[Math.floor(v * (piece.length - 1))]!;
        const q = sitePoint(a[0] + weight * (b[0] - a[0]), a[1] + weight * (b[1] - a[1]));
        const passes = bodyToPoint(drive, body, q, { ...defaultTolerances, distance: mm(1) });
        expect(passes.bound).toBeLessThanOrEqual(error + 1e-6);
      }
    }), { seed: 51, numRuns: 12 });
  });

  it("says how far off it is where the budget is small", () => {
    expect(sweptArea(along([arc(8000, radiansFromDegrees(180))]), 0, { ...defaultTolerances, budget: 10 }).error).toBeGreaterThan(20);
  });
});

describe("wheel tracks", () => {
  it("on a straight are two pairs of lines, as far apart as the track", () => {
    const tracks = wheelTracks(along([straight(6000)]), 0, defaultTolerances);
    expect(tracks.map(({ line }) => [line[0], line.at(-1)])).toEqual([[0, 800], [0, -800], [-4000, 800], [-4000, -800]].map(([x, y]) => [[expect.closeTo(x!, 6), expect.closeTo(y!, 6)], [expect.closeTo(x! + 6000, 6), expect.closeTo(y!, 6)]]));
  });

  it("show the rear wheels inside the front ones in a turn, and stay within their error of the tires", () => {
    const drive = along([arc(9000, radiansFromDegrees(270))]), [frontLeft, , rearLeft] = wheelTracks(drive, 0, defaultTolerances);
    const toCentre = (line: readonly SitePoint[]) => Math.min(...line.map(([x, y]) => Math.hypot(x, y - 9000)));
    expect(toCentre(rearLeft!.line)).toBeLessThan(toCentre(frontLeft!.line) - 500);
    expect(rearLeft!.error).toBeLessThanOrEqual(20);
    for (let s = 0; s < drive.reached; s += 37) {
      const [x, y] = placed(drive.at(s).poses[0]!, drive.combination.bodies[0]!.wheels[2]!);
      const near = Math.min(...rearLeft!.line.slice(1).map((b, i) => distanceToSegment([x, y], rearLeft!.line[i]!, b)));
      expect(near).toBeLessThanOrEqual(rearLeft!.error);
    }
  });
});

describe("how near a drive comes", () => {
  it("is exact on a straight: the side of the body, and the depth below it", () => {
    const drive = along([straight(20_000)]), at = (y: number) => bodyToPoint(drive, 0, sitePoint(8000, y), { ...defaultTolerances, distance: mm(0.5) });
    expect(at(1250).value).toBeCloseTo(250, 6);
    expect(at(1250).bound).toBeGreaterThan(249.49);
    expect(at(700).value).toBeLessThanOrEqual(-300 + 0.5);
    expect(wheelsToPoint(drive, 0, sitePoint(8000, 1300), defaultTolerances).value).toBeLessThan(500 + 5);
  });

  it("is proven: no moment of a fine sweep is nearer than the bound", () => {
    fc.assert(fc.property(combinations(2), paths, fc.integer({ min: -8000, max: 20_000 }), fc.integer({ min: -12_000, max: 12_000 }), (train, path, x, y) => {
      const drive = driveAlong(train, path, inLine(train, path), defaultTolerances), body = train.bodies.length - 1;
      const table = [[x, y], [x + 1800, y], [x + 1800, y + 800], [x, y + 800]].map(([px, py]) => sitePoint(px!, py!));
      for (const least of [bodyToPoint(drive, body, sitePoint(x, y), defaultTolerances), bodyToOutline(drive, body, table, defaultTolerances)]) {
        expect(least.closed).toBe(true);
        expect(least.value - least.bound).toBeLessThanOrEqual(defaultTolerances.distance + 1e-9);
      }
      const proven = bodyToPoint(drive, body, sitePoint(x, y), defaultTolerances).bound, { corners } = train.bodies[body]!;
      for (let s = 0; s <= drive.reached; s += 40) {
        const outline = corners.map((c) => placed(drive.at(s).poses[body]!, c));
        const away = contains(outline, [x, y]) ? -distanceTo(sitePoint(x, y), outline) : distanceTo(sitePoint(x, y), outline);
        expect(away).toBeGreaterThanOrEqual(proven - 1e-6);
      }
    }), { seed: 52, numRuns: 25 });
  });

  it("keeps an honest bound where the budget runs out", () => {
    const drive = along([arc(9000, radiansFromDegrees(90))]), point = sitePoint(5000, 6000);
    const full = bodyToPoint(drive, 0, point, defaultTolerances), short = bodyToPoint(drive, 0, point, { ...defaultTolerances, budget: 5 });
    expect(short.closed).toBe(false);
    expect(short.bound).toBeLessThanOrEqual(full.value);
  });

  it("looks at a part of the way where asked to", () => {
    const drive = along([straight(20_000)]), ahead = leastAlong(drive, ({ front }) => Math.abs(front[0] - 3000), 1, defaultTolerances, [10_000, 20_000]);
    expect(ahead.value).toBeCloseTo(7000, 6);
  });

  it("rests on a speed that no point of the body exceeds", () => {
    fc.assert(fc.property(combinations(), paths, (train, path) => {
      const drive = driveAlong(train, path, inLine(train, path), defaultTolerances);
      train.bodies.forEach(({ corners }, body) => {
        const most = bodySpeed(drive, body);
        for (let s = 0; s + 20 <= drive.reached; s += 250) {
          for (const corner of corners) {
            const [ax, ay] = placed(drive.at(s).poses[body]!, corner), [bx, by] = placed(drive.at(s + 20).poses[body]!, corner);
            expect(Math.hypot(bx - ax, by - ay) / 20).toBeLessThanOrEqual(most + 1e-6);
          }
        }
      });
    }), { seed: 53, numRuns: 25 });
  });
});

function distanceToSegment([x, y]: readonly [number, number], [ax, ay]: SitePoint, [bx, by]: SitePoint): number {
  const dx = bx - ax, dy = by - ay, t = Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy)));
  return Math.hypot(ax + t * dx - x, ay + t * dy - y);
}
