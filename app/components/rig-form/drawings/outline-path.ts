/** A corner of a drawn outline: along the rig and up from the ground, millimetres, and how far the corner is rounded off. */
export type Corner = readonly [u: number, w: number, round?: number];

/** Drawings count in centimetres, so that no number of theirs is long. */
export const CM = 10;

/** A closed outline through the corners, each rounded as far as its two edges allow. */
export function closedPath(corners: readonly Corner[]): string {
  const count = corners.length;
  const pieces = corners.map(([u, w, round = 0], i) => {
    const before = corners[(i + count - 1) % count]!, after = corners[(i + 1) % count]!;
    const from = towards([u, w], before, round), to = towards([u, w], after, round);
    return `${i === 0 ? "M" : "L"}${at(from)}${round > 0 ? `Q${at([u, w])} ${at(to)}` : ""}`;
  });
  return `${pieces.join("")}Z`;
}

export function openPath(corners: readonly Corner[]): string {
  return corners.map(([u, w], i) => `${i === 0 ? "M" : "L"}${at([u, w])}`).join("");
}

/** The point `distance` on the way from one corner to another, at most half of it. */
function towards([u, w]: readonly [number, number], [u1, w1]: Corner, distance: number): [number, number] {
  const length = Math.hypot(u1 - u, w1 - w);
  const share = length === 0 ? 0 : Math.min(distance / length, 0.5);
  return [u + (u1 - u) * share, w + (w1 - w) * share];
}

/** A rig's place on the paper: forward to the right, up is up. */
export function at([u, w]: readonly [number, number]): string {
  return `${cm(u)} ${cm(-w)}`;
}

export function cm(mm: number): number {
  const value = Math.round(mm) / CM;
  return value === 0 ? 0 : value;
}
