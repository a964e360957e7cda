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
 * The usual case: every service has one pair and its line runs straight. The total run is then a convex function of
 * the pose, so a tangent at any one pose bounds it from below over a whole cell.
 */
export class StraightRuns {
  private constructor(private readonly pairs: readonly Pair[]) {}

  /** Null where some service has a choice of pairs or a line that goes around the body. */
  static of(needs: readonly Need[], by: With): StraightRuns | null {
    const pairs: Pair[] = [];
    for (const need of needs) {
      const usable = need.pairs.filter((pair) => pair.limit[by] >= 0);
      if (usable.length !== 1 || usable[0]!.around) return null;
      pairs.push(usable[0]!);
    }
    return new StraightRuns(pairs);
  }

  /**
   * A pose of the cell with a short total run (Weiszfeld 1937), kept inside the cell and on the right side of the
   * straight edge nearest to it.
   */
  nearIn({ cx, cy, hx, hy }: Square, edges: Envelope, level: number): [number, number] {
    let x = cx, y = cy;
    const keepInside = () => {
      x = Math.min(cx + hx, Math.max(cx - hx, x));
      y = Math.min(cy + hy, Math.max(cy - hy, y));
    };
    for (let round = 0; round < ROUNDS; round++) {
      let sx = 0, sy = 0, weight = 0;
      for (const { qx, qy } of this.pairs) {
        const w = 1 / Math.max(1, Math.hypot(x - qx, y - qy));
        sx += w * qx; sy += w * qy; weight += w;
      }
      x = sx / weight;
      y = sy / weight;
      keepInside();
      const edge = edges.lowestEdge(x, y);
      if (!edge || edge.value >= level) continue;
      x += edge.a * (level - edge.value);
      y += edge.b * (level - edge.value);
      keepInside();
    }
    return [x, y];
  }

  /**
   * No pose of the cell on the right side of the edges has a shorter total run: the tangent at (x, y) at its lowest
   * corner, or the same with the nearest edge taken in as a Lagrangian term, whichever says more.
   */
  leastIn({ cx, cy, hx, hy }: Square, x: number, y: number, edges: Envelope, level: number): number {
    let value = 0, gx = 0, gy = 0;
    for (const pair of this.pairs) {
      const dx = x - pair.qx, dy = y - pair.qy, path = Math.hypot(dx, dy);
      const route = pair.routeOf(path);
      value += route;
      // d route / d pose: the path's own direction for cord and hose, less steep for the sewer hose, 0 right above.
      const steep = pair.service === "sewer" ? route : path;
      if (steep > 0) { gx += dx / steep; gy += dy / steep; }
    }
    const lowestCorner = (ax: number, ay: number) => Math.min(ax * (cx - hx - x), ax * (cx + hx - x)) + Math.min(ay * (cy - hy - y), ay * (cy + hy - y));
    const plain = value + lowestCorner(gx, gy);
    const edge = edges.lowestEdge(x, y);
    const pull = edge ? gx * edge.a + gy * edge.b : 0;
    if (!edge || pull <= 0) return plain;
    return Math.max(plain, value - pull * (edge.value - level) + lowestCorner(gx - pull * edge.a, gy - pull * edge.b));
  }
}
