import earcut from "earcut";
import { convexHull, normalise, signedArea, turn } from "./polygon";
import type { Point } from "./points";

/**
 * A simple outline as convex pieces, counter-clockwise: ears first (earcut), then neighbours joined wherever the
 * union stays convex (Hertel & Mehlhorn 1983: at most four times the least number of pieces).
 */
export function convexPieces(outline: readonly Point[]): Point[][] {
  const ring = normalise(outline);
  if (isConvex(ring)) return [ring];
  const indices = earcut(ring.flatMap(([x, y]) => [x, y]));
  let pieces: number[][] = [];
  for (let i = 0; i < indices.length; i += 3) {
    const piece = [indices[i]!, indices[i + 1]!, indices[i + 2]!];
    const area = turn(ring[piece[0]!]!, ring[piece[1]!]!, ring[piece[2]!]!);
    if (area !== 0) pieces.push(area > 0 ? piece : piece.reverse());
  }
  for (let joined = joinOne(pieces, ring); joined; joined = joinOne(pieces, ring)) pieces = joined;
  return pieces.map((piece) => piece.map((i) => ring[i]!));
}

/**
 * What an outline lacks of its convex hull, as convex pieces. A shape lies inside the outline exactly where it lies
 * inside the hull and clear of these.
 */
export function pocketsOf(outline: readonly Point[]): Point[][] {
  const ring = normalise(outline);
  if (isConvex(ring)) return [];
  const hull = convexHull(ring);
  const onHull = ring.map((p) => hull.some((a, i) => turn(a, hull[(i + 1) % hull.length]!, p) === 0));
  const start = onHull.indexOf(true);
  const pockets: Point[][] = [];
  let chain: Point[] = [ring[start]!];
  for (let k = 1; k <= ring.length; k++) {
    const i = (start + k) % ring.length;
    chain.push(ring[i]!);
    if (!onHull[i]) continue;
    if (chain.length > 2) pockets.push(...convexPieces(chain));
    chain = [ring[i]!];
  }
  return pockets;
}

export function isConvex(ring: readonly Point[]): boolean {
  const n = ring.length;
  const sign = Math.sign(signedArea(ring));
  return ring.every((p, i) => turn(p, ring[(i + 1) % n]!, ring[(i + 2) % n]!) * sign >= 0);
}

/** The pieces with one pair of neighbours joined, or null when no pair can be. */
function joinOne(pieces: readonly number[][], ring: readonly Point[]): number[][] | null {
  for (let a = 0; a < pieces.length; a++) {
    for (let b = a + 1; b < pieces.length; b++) {
      const joined = joinAlongEdge(pieces[a]!, pieces[b]!);
      if (joined && isConvex(joined.map((i) => ring[i]!))) return pieces.filter((_, i) => i !== a && i !== b).concat([joined]);
    }
  }
  return null;
}

function joinAlongEdge(a: readonly number[], b: readonly number[]): number[] | null {
  for (let i = 0; i < a.length; i++) {
    const from = a[i]!, to = a[(i + 1) % a.length]!;
    const j = b.findIndex((p, k) => p === to && b[(k + 1) % b.length] === from);
    if (j < 0) continue;
    const restOfA = Array.from({ length: a.length }, (_, k) => a[(i + 1 + k) % a.length]!); // to … from
    const restOfB = Array.from({ length: b.length - 2 }, (_, k) => b[(j + 2 + k) % b.length]!); // between from and to
    return restOfA.concat(restOfB);
  }
  return null;
}
