import earcut from "earcut";
import { convexHull, normalise, signedArea, turn } from "./polygon";
import type { Point } from "./points";

/**
 * A simple outline covered by convex pieces, counter-clockwise: ears first (earcut), then neighbours joined wherever
 * the union stays convex (Hertel & Mehlhorn 1983: at most four times the least number of pieces), then a kite across
 * every seam that is left. Without the kites a point on a seam would touch two pieces and lie inside neither, though
 * it lies inside the outline.
 */
export function convexCover(outline: readonly Point[]): Point[][] {
  const ring = normalise(outline);
  if (isConvex(ring)) return [ring];
  const indices = earcut(ring.flatMap(([x, y]) => [x, y]));
  const triangles: number[][] = [];
  for (let i = 0; i < indices.length; i += 3) {
    const piece = [indices[i]!, indices[i + 1]!, indices[i + 2]!];
    const area = turn(ring[piece[0]!]!, ring[piece[1]!]!, ring[piece[2]!]!);
    if (area !== 0) triangles.push(area > 0 ? piece : piece.reverse());
  }
  const pieces = joined(triangles, ring);
  const corners = pieces.map((piece) => piece.map((i) => ring[i]!));
  return [...corners, ...kitesAcrossSeams(pieces, ring)];
}

/** How far a pocket is taken out past its mouth, mm: out there nothing may lie in any case. */
const FLAP = 1000;

/**
 * What an outline lacks of its convex hull, covered by convex pieces. A shape lies inside the outline exactly where it
 * lies inside the hull and clear of these. Each reaches out past the hull, so that its mouth is inside it.
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
    if (chain.length > 2) pockets.push(...convexCover(pastMouth(chain)));
    chain = [ring[i]!];
  }
  return pockets;
}

/** A pocket's chain of corners, closed beyond its mouth instead of along it. The outline runs counter-clockwise. */
function pastMouth(chain: readonly Point[]): Point[] {
  const [ax, ay] = chain[0]!, [bx, by] = chain[chain.length - 1]!;
  const len = Math.hypot(bx - ax, by - ay);
  const nx = (FLAP * (by - ay)) / len, ny = (-FLAP * (bx - ax)) / len; // to the right of the way round: outward
  return [...chain, [bx + nx, by + ny], [ax + nx, ay + ny]];
}

/** For every seam between two pieces, the widest kite over it that both pieces hold. */
function kitesAcrossSeams(pieces: readonly number[][], ring: readonly Point[]): Point[][] {
  const kites: Point[][] = [];
  const owner = ownersOf(pieces, ring.length);
  pieces.forEach((a, i) => {
    a.forEach((from, k) => {
      const to = a[(k + 1) % a.length]!;
      const j = owner.get(to * ring.length + from);
      if (j === undefined || j <= i) return;
      const b = pieces[j]!;
      const p = ring[from]!, q = ring[to]!;
      const kite = [p, tipBeyond(q, p, b.map((n) => ring[n]!)), q, tipBeyond(p, q, a.map((n) => ring[n]!))];
      if (kite.every((corner, m) => turn(corner, kite[(m + 1) % 4]!, kite[(m + 2) % 4]!) > 0)) kites.push(kite);
    });
  });
  return kites;
}

/** Straight in from the middle of the edge from p to q, to where the convex piece on its left ends. */
function tipBeyond(p: Point, q: Point, piece: readonly Point[]): Point {
  const mx = (p[0] + q[0]) / 2, my = (p[1] + q[1]) / 2;
  const dx = p[1] - q[1], dy = q[0] - p[0]; // to the left
  let reach = Infinity;
  piece.forEach(([ax, ay], i) => {
    const [bx, by] = piece[(i + 1) % piece.length]!;
    const ex = bx - ax, ey = by - ay;
    const closing = dx * ey - dy * ex; // positive where the edge lies ahead
    const t = closing > 0 ? ((ax - mx) * ey - (ay - my) * ex) / closing : Infinity;
    if (t > 0 && t < reach) reach = t;
  });
  return [mx + dx * reach, my + dy * reach];
}

export function isConvex(ring: readonly Point[]): boolean {
  const n = ring.length;
  const sign = Math.sign(signedArea(ring));
  return ring.every((p, i) => turn(p, ring[(i + 1) % n]!, ring[(i + 2) % n]!) * sign >= 0);
}

/**
 * Neighbours joined across every seam whose two pieces make a convex one. Each seam is looked at once: one that has to
 * stay has to stay however many others go (Hertel & Mehlhorn 1983).
 */
function joined(triangles: readonly number[][], ring: readonly Point[]): number[][] {
  const pieces: (number[] | null)[] = [...triangles], n = ring.length;
  const owner = ownersOf(triangles, n);
  for (const seam of [...owner.keys()]) {
    const from = Math.floor(seam / n), to = seam % n;
    const i = owner.get(seam)!, j = owner.get(to * n + from);
    if (from > to || j === undefined || i === j) continue;
    const union = joinAlong(pieces[i]!, pieces[j]!, from, to);
    if (!isConvex(union.map((k) => ring[k]!))) continue;
    pieces[i] = union;
    pieces[j] = null;
    owner.delete(seam);
    owner.delete(to * n + from);
    union.forEach((k, m) => owner.set(k * n + union[(m + 1) % union.length]!, i));
  }
  return pieces.filter((piece) => piece !== null);
}

/** For every edge of the pieces, as its first corner times the number of corners plus its last: the piece it belongs to. */
function ownersOf(pieces: readonly (readonly number[])[], corners: number): Map<number, number> {
  const owner = new Map<number, number>();
  pieces.forEach((piece, i) => piece.forEach((from, k) => owner.set(from * corners + piece[(k + 1) % piece.length]!, i)));
  return owner;
}

/** Two pieces as one, without the edge they share: `from`-`to` in the first, the other way round in the second. */
function joinAlong(a: readonly number[], b: readonly number[], from: number, to: number): number[] {
  const i = a.findIndex((p, k) => p === from && a[(k + 1) % a.length] === to), j = b.indexOf(to);
  const restOfA = Array.from({ length: a.length }, (_, k) => a[(i + 1 + k) % a.length]!); // to … from
  const restOfB = Array.from({ length: b.length - 2 }, (_, k) => b[(j + 2 + k) % b.length]!); // between from and to
  return restOfA.concat(restOfB);
}
