import type { PagePoint } from "./types";

/** Points as SVG wants them, to a hundredth of a unit: a third of a millimetre of ground at the largest scale. */
export function pointsOf(points: readonly PagePoint[]): string {
  return points.map(([x, y]) => `${fixed(x)},${fixed(y)}`).join(" ");
}

export function pathOf(points: readonly PagePoint[]): string {
  return points.map(([x, y], i) => `${i === 0 ? "M" : "L"}${fixed(x)} ${fixed(y)}`).join("");
}

export function fixed(value: number): string {
  return String(Math.round(value * 100) / 100);
}

/** The upright rectangle around some points. */
export function boxAround(points: readonly PagePoint[]): { x: number; y: number; w: number; h: number } {
  const xs = points.map((p) => p[0]), ys = points.map((p) => p[1]);
  const x = Math.min(...xs), y = Math.min(...ys);
  return { x, y, w: Math.max(...xs) - x, h: Math.max(...ys) - y };
}
