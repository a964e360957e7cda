import type { Site } from "./schema";

/** z = base + alongGradient x + acrossGradient y: the ground under a site. Millimetres; gradients are rise over run. */
export interface GroundPlane {
  readonly base: number;
  readonly alongGradient: number;
  readonly acrossGradient: number;
  /** The worst misfit of a spot height, mm; 0 where slopes were given. */
  readonly worstResidual: number;
}

/** The least-squares plane through the spot heights, or the plane of the given slopes through the origin. */
export function groundPlane(ground: Partial<Site["ground"]>): GroundPlane {
  const { heights } = ground;
  if (!heights) {
    return { base: 0, alongGradient: (ground.along ?? 0) / 100, acrossGradient: (ground.across ?? 0) / 100, worstResidual: 0 };
  }
  const n = heights.length;
  const mean = [0, 1, 2].map((k) => heights.reduce((sum, p) => sum + p[k]!, 0) / n) as [number, number, number];
  // Normal equations about the mean: small numbers, no loss of digits far from the origin.
  let xx = 0, xy = 0, yy = 0, xz = 0, yz = 0;
  for (const [px, py, pz] of heights) {
    const x = px - mean[0], y = py - mean[1], z = pz - mean[2];
    xx += x * x; xy += x * y; yy += y * y; xz += x * z; yz += y * z;
  }
  const det = xx * yy - xy * xy;
  const alongGradient = (xz * yy - yz * xy) / det;
  const acrossGradient = (yz * xx - xz * xy) / det;
  const base = mean[2] - alongGradient * mean[0] - acrossGradient * mean[1];
  const worstResidual = Math.max(...heights.map(([x, y, z]) => Math.abs(z - base - alongGradient * x - acrossGradient * y)));
  return { base, alongGradient, acrossGradient, worstResidual };
}

export function groundHeight(plane: GroundPlane, x: number, y: number): number {
  return plane.base + plane.alongGradient * x + plane.acrossGradient * y;
}
