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
