import type { PageBox, PagePoint } from "./types";

/** Rounds of pushing apart; a handful of hookups settles in fewer. */
const ROUNDS = 40;

/** Points moved apart until each is `apart` from every other (or the rounds are used up), kept `inset` inside the box. */
export function spread(points: readonly PagePoint[], apart: number, { x, y, w, h }: PageBox, inset: number): PagePoint[] {
  const at = points.map(([px, py]): [number, number] => [px, py]);
  for (let round = 0; round < ROUNDS; round++) {
    let moved = false;
    for (let i = 0; i < at.length; i++) {
      for (let j = i + 1; j < at.length; j++) moved = pushApart(at[i]!, at[j]!, apart) || moved;
    }
    for (const p of at) {
      p[0] = Math.max(x + inset, Math.min(x + w - inset, p[0]));
      p[1] = Math.max(y + inset, Math.min(y + h - inset, p[1]));
    }
    if (!moved) break;
  }
  return at;
}

function pushApart(a: [number, number], b: [number, number], apart: number): boolean {
  const dx = b[0] - a[0], dy = b[1] - a[1];
  const distance = Math.hypot(dx, dy);
  if (distance >= apart - 0.01) return false;
  const [ux, uy] = distance > 0.01 ? [dx / distance, dy / distance] : [0, 1];
  const by = (apart - distance) / 2;
  a[0] -= ux * by;
  a[1] -= uy * by;
  b[0] += ux * by;
  b[1] += uy * by;
  return true;
}
