import type { Site } from "@/lib/park/schema";
import { isMotorized, type Rig } from "@/lib/rig/schema";
import type { Policy } from "@/lib/fit/policy";
import type { P } from "./geometry";

/** The ground under a site: z = z0 + (along x + across y) / 100. Slopes in per cent. */
export interface Plane {
  readonly z0: number;
  readonly along: number;
  readonly across: number;
  readonly worstResidual: number;
}

export function groundPlane(site: Site): Plane {
  const { heights, along, across } = site.ground;
  if (!heights) return { z0: 0, along: along ?? 0, across: across ?? 0, worstResidual: 0 };
  return leastSquares(heights);
}

export function groundAt(plane: Plane, p: P): number {
  return plane.z0 + (plane.along * p[0] + plane.across * p[1]) / 100;
}

/** Lifts that levelling asks for, mm; none where the slope lies within tolerance (the limit itself is within). */
export function liftAsked(site: Site, rig: Rig, policy: Policy): { side: number; along: number } {
  const plane = groundPlane(site);
  const tyres = rig.supports.filter((s) => s.kind === "tyre");
  const us = tyres.map((t) => t.at[0]), vs = tyres.map((t) => t.at[1]);
  const spreadAcross = Math.max(...vs) - Math.min(...vs);
  const spreadAlong = Math.max(...us) - Math.min(...us);
  const middle = (Math.max(...us) + Math.min(...us)) / 2;
  const foremost = Math.max(...rig.supports.map((s) => s.at[0]));
  const lever = isMotorized(rig.kind) ? spreadAlong : foremost - middle;
  const lift = (slope: number, base: number) => (Math.abs(slope) <= policy.levelWithin ? 0 : (Math.abs(slope) / 100) * base);
  return { side: lift(plane.across, spreadAcross), along: lift(plane.along, lever) };
}

/** How the lift is met: own gear in full, brought lift up to what the policy allows. */
export function liftMeans(asked: number, own: number, most: number): "own" | "gear" | "no" {
  if (asked <= own) return "own";
  return asked <= most ? "gear" : "no";
}

/** z = a + b x + c y by the normal equations, taken about the middle of the points. */
function leastSquares(spots: readonly (readonly [number, number, number])[]): Plane {
  const n = spots.length;
  const mean = [0, 1, 2].map((k) => spots.reduce((sum, s) => sum + s[k]!, 0) / n) as [number, number, number];
  let xx = 0, xy = 0, yy = 0, xz = 0, yz = 0;
  for (const [px, py, pz] of spots) {
    const x = px - mean[0], y = py - mean[1], z = pz - mean[2];
    xx += x * x;
    xy += x * y;
    yy += y * y;
    xz += x * z;
    yz += y * z;
  }
  const det = xx * yy - xy * xy;
  const b = (xz * yy - yz * xy) / det, c = (yz * xx - xz * xy) / det;
  const z0 = mean[2] - b * mean[0] - c * mean[1];
  const worstResidual = Math.max(...spots.map(([x, y, z]) => Math.abs(z - z0 - b * x - c * y)));
  return { z0, along: 100 * b, across: 100 * c, worstResidual };
}
