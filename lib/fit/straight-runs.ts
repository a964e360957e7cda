import type { Envelope } from "@/lib/plane";
import type { Need, Pair, With } from "./needs";

interface Square {
  readonly cx: number;
  readonly cy: number;
  readonly hx: number;
  readonly hy: number;
}

/** Rounds of the averaging that finds a good pose in a cell; the bound is honest after any number. */
const ROUNDS = 4;

/**
 * The usual case: every service has one pair, and over the cell its line runs straight, or straight from the same last
 * bend. The total run is then a convex function of the pose, so a tangent at any one pose bounds it from below over
 * the whole cell.
 */
export class StraightRuns {
  /** Where each path's last straight piece would be of no length, as a pose, and how long the rest of the path is. */
  private readonly atX: Float64Array;
  private readonly atY: Float64Array;
  private readonly before: Float64Array;
  /** The pose that `nearIn` found. */
  x = 0;
  y = 0;

  private constructor(private readonly pairs: readonly Pair[]) {
    this.atX = new Float64Array(pairs.length);
    this.atY = new Float64Array(pairs.length);
    this.before = new Float64Array(pairs.length);
  }

  /** Null where some service has a choice of pairs. */
  static of(needs: readonly Need[], by: With): StraightRuns | null {
    const pairs: Pair[] = [];
    for (const need of needs) {
      const usable = need.pairs.filter((pair) => pair.limit[by] >= 0);
      if (usable.length !== 1) return null;
      pairs.push(usable[0]!);
    }
    return new StraightRuns(pairs);
  }

  /** Whether the runs are such over a cell; what is asked below is then answered for that cell. */
  holdIn(cell: Square): boolean {
    for (let i = 0; i < this.pairs.length; i++) {
      const bend = this.pairs[i]!.bendIn(cell);
      if (!bend) return false;
      this.atX[i] = bend.x;
      this.atY[i] = bend.y;
      this.before[i] = bend.length;
    }
    return true;
  }

  /**
   * Finds a pose of the cell with a short total run (Weiszfeld 1937), kept inside the cell and on the right side of
   * the straight edge nearest to it.
   */
  nearIn(cell: Square, edges: Envelope, level: number): void {
    this.x = cell.cx;
    this.y = cell.cy;
    for (let round = 0; round < ROUNDS; round++) {
      let sx = 0, sy = 0, weight = 0;
      for (let i = 0; i < this.pairs.length; i++) {
        const qx = this.atX[i]!, qy = this.atY[i]!, dx = this.x - qx, dy = this.y - qy;
        const w = 1 / Math.max(1, Math.sqrt(dx * dx + dy * dy));
        sx += w * qx; sy += w * qy; weight += w;
      }
      this.moveTo(sx / weight, sy / weight, cell);
      const edge = edges.lowestEdge(this.x, this.y);
      if (!edge || edge.value >= level) continue;
      this.moveTo(this.x + edge.a * (level - edge.value), this.y + edge.b * (level - edge.value), cell);
    }
  }

  private moveTo(x: number, y: number, { cx, cy, hx, hy }: Square): void {
    this.x = Math.min(cx + hx, Math.max(cx - hx, x));
    this.y = Math.min(cy + hy, Math.max(cy - hy, y));
  }

  /**
   * No pose of the cell on the right side of the edges has a shorter total run: the tangent at the pose found, at its
   * lowest corner, or the same with the nearest edge taken in as a Lagrangian term, whichever says more.
   */
  leastIn(cell: Square, edges: Envelope, level: number): number {
    const { x, y } = this;
    let value = 0, gx = 0, gy = 0;
    for (let i = 0; i < this.pairs.length; i++) {
      const pair = this.pairs[i]!, dx = x - this.atX[i]!, dy = y - this.atY[i]!, last = Math.sqrt(dx * dx + dy * dy);
      const path = this.before[i]! + last, route = pair.routeOf(path);
      value += route;
      // d route / d pose: the direction of the last piece for cord and hose, less steep for the sewer hose, 0 right above.
      const steep = (pair.service === "sewer" ? path / route : 1) / last;
      if (last > 0) { gx += dx * steep; gy += dy * steep; }
    }
    const plain = value + lowestCorner(cell, x, y, gx, gy);
    const edge = edges.lowestEdge(x, y);
    const pull = edge ? gx * edge.a + gy * edge.b : 0;
    if (!edge || pull <= 0) return plain;
    return Math.max(plain, value - pull * (edge.value - level) + lowestCorner(cell, x, y, gx - pull * edge.a, gy - pull * edge.b));
  }
}

/** The least over a cell of a linear function of this slope that is 0 at (x, y). */
function lowestCorner({ cx, cy, hx, hy }: Square, x: number, y: number, ax: number, ay: number): number {
  return ax * (cx - x) - Math.abs(ax) * hx + ay * (cy - y) - Math.abs(ay) * hy;
}
