import { describe, expect, it } from "vitest";
import { trainOf, wayGroundOf } from "@/lib/access";
import { judgeFor } from "@/lib/access/judge";
import { proveRoom } from "@/lib/access/prove";
import { defaultPolicy } from "@/lib/fit";
import { radiansFromDegrees, type Radians } from "@/lib/measure";
import { sitePoint } from "@/lib/plane";
import { siteSchema, type Site, type SiteInput } from "@/lib/park";
import { type Rig } from "@/lib/rig";
import { arc, defaultTolerances, driveAlong, makePath, steadyTurn } from "@/lib/turning";
import { coach, trailer, withDrive } from "../scenes/way-scenes";

/**
 * Lanes whose needed width is known by Pythagoras, from the right angles between an axle's way and the line to the centre it turns about. A front axle on
 * a circle of radius F draws a rear axle at sqrt(F^2 - wheelbase^2), a hitch h behind that at hypot(rear, h), a trailer's axle d behind the hitch at
 * sqrt(hitch^2 - d^2). The inner wall of the last body passes half its width within its axle; the outermost point is the front outer corner.
 */
const { clearance, touch } = defaultPolicy;
const half = (rig: Rig) => trainOf(rig).combination.bodies[0]!.corners[0][1];

function radiiOf(rig: Rig, front: number): { inner: number; outer: number } {
  const { vehicle, units: [unit] } = trainOf(rig).combination, rear = Math.sqrt(front ** 2 - vehicle.wheelbase ** 2), outer = Math.hypot(rear + half(rig), vehicle.wheelbase + vehicle.frontOverhang);
  if (!unit) return { inner: rear - half(rig), outer };
  return { inner: Math.sqrt(rear ** 2 + unit.hitchBehindAxle ** 2 - unit.hitchToAxle ** 2) - unit.width / 2, outer };
}

/** A ring about the origin: a disc within, and on one side of it panels without that touch a circle at their middles. The ground is wide enough to decide nothing. */
function ringLane(inner: number, outer: number): Site {
  const panel = Math.PI / 90, reach = outer / Math.cos(panel / 2), at = (k: number, r: number): [number, number] => [r * Math.cos(panel * k), r * Math.sin(panel * k)];
  const wall = [23, 24, 25, 26].map((k) => ({ id: `panel-${k}`, kind: "wall", outline: [at(k, reach), at(k + 1, reach), at(k + 1, reach + 200), at(k, reach + 200)], from: 0, to: 3000 }));
  return siteSchema.parse({
    id: "ring", entry: "back-in", ground: { along: 0, across: 0 }, pad: { outline: [[-40_000, -40_000], [40_000, -40_000], [40_000, 40_000], [-40_000, 40_000]] },
    obstacles: [{ id: "island", kind: "wall", at: [0, 0], radius: inner, from: 0, to: 3000 }, ...wall],
    approach: { road: { centreline: [[-50_000, -40_000], [-50_000, 40_000]], width: 6000 } },
  } satisfies SiteInput);
}

/** The room of a rig that goes round at a front radius, once it has settled, and whether that is proven to hold. */
function roundIn(rig: Rig, front: number, site: Site): { room: number; holds: boolean } {
  const train = trainOf(rig), settled = steadyTurn(train.combination, front)!, path = makePath({ at: sitePoint(front, 0), heading: radiansFromDegrees(90) }, [arc(front, radiansFromDegrees(60))]);
  // Settled: the vehicle faces so far ahead of the way of its front axle, and every hitch is bent as the closed form says.
  const ahead = Math.asin(train.combination.vehicle.wheelbase / front), begin = { heading: (Math.PI / 2 - ahead) as Radians, hitches: settled.slice(1).map(({ hitch }) => hitch) };
  const drive = driveAlong(train.combination, path, begin, defaultTolerances), judge = judgeFor(train, wayGroundOf(site)!, defaultPolicy);
  const { room, bound } = proveRoom(judge, drive);
  return { room, holds: bound >= -touch };
}

const rigs = [["a motor home on its tightest circle", coach, 1 / trainOf(coach).sharpest + 1], ["a motor home on a wider one", coach, 12_000], ["a car and trailer", trailer, 11_500], ["a trailer hitched far behind", withDrive(trailer, { hitchBehindAxle: 2200 }), 12_500]] as const;

describe("a lane between two round walls", () => {
  it.each(rigs)("just lets %s through, and just does not: what is over is so by Pythagoras, on the one wall and on the other", (_name, rig, front) => {
    const { inner, outer } = radiiOf(rig, front);
    for (const spare of [60, 10, -10, -60]) {
      const within = roundIn(rig, front, ringLane(inner - clearance - spare, outer + clearance + 900)), without = roundIn(rig, front, ringLane(inner - clearance - 900, outer + clearance + spare));
      expect(Math.abs(within.room - spare)).toBeLessThan(1);
      // A corner passes the middle of a panel between two of the moments looked at.
      expect(Math.abs(without.room - spare)).toBeLessThan(8);
      expect([within.holds, without.holds]).toEqual([spare > 0, spare > 0]);
    }
  });

  it("is the wider for a trailer the further its axle is from its hitch, by as much as the axle cuts in", () => {
    const short = radiiOf(withDrive(trailer, { hitchToAxle: 4500 }), 11_500), long = radiiOf(withDrive(trailer, { hitchToAxle: 6500 }), 11_500);
    const cut = (d: number) => Math.sqrt((short.inner + trailer.body.width / 2) ** 2 + 4500 ** 2 - d ** 2) - trailer.body.width / 2;
    expect(long.outer).toBe(short.outer);
    expect(long.inner).toBeCloseTo(cut(6500), 6);
    const lane = ringLane((short.inner + long.inner) / 2 - clearance, short.outer + clearance + 900), by = (short.inner - long.inner) / 2;
    expect(roundIn(withDrive(trailer, { hitchToAxle: 4500 }), 11_500, lane).room).toBeCloseTo(by, 0);
    expect(roundIn(withDrive(trailer, { hitchToAxle: 6500 }), 11_500, lane).room).toBeCloseTo(-by, 0);
  });
});
