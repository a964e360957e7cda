import { boundsOf, type Bounds, type Point } from "@/lib/plane";
import type { Units } from "@/lib/measure";
import type { PageBox, PagePoint } from "./types";

/** Width of every plan in units of its viewBox; a phone shows about one pixel a unit. */
export const PAGE_WIDTH = 360;
/** Room left and right of the ground for labels, and above it. */
const SIDE = 40;
const TOP = 10;
/** The strip below the ground for scale bar and north arrow. */
const FOOT = 52;
const MOST_HEIGHT = 660;
/** A tent pad is not blown up beyond this: 45 units a metre. */
const MOST_SCALE = 0.045;

export interface PageFrame {
  readonly scale: number;
  readonly width: number;
  readonly height: number;
  readonly ground: PageBox;
  readonly toPage: (p: Point) => PagePoint;
}

/**
 * The site frame laid on the page: x up the page, y to the left, so that the road is at the bottom and left is the
 * left of someone standing on it. One scale for both directions; nothing is turned over.
 */
export function frameFor(bounds: Bounds): PageFrame {
  const across = bounds.maxY - bounds.minY, deep = bounds.maxX - bounds.minX;
  const scale = Math.min((PAGE_WIDTH - 2 * SIDE) / across, MOST_HEIGHT / deep, MOST_SCALE);
  const left = (PAGE_WIDTH - across * scale) / 2;
  const height = TOP + deep * scale + FOOT;
  return {
    scale,
    width: PAGE_WIDTH,
    height,
    ground: { x: 0, y: 0, w: PAGE_WIDTH, h: TOP + deep * scale },
    toPage: ([x, y]) => [left + (bounds.maxY - y) * scale, TOP + (bounds.maxX - x) * scale],
  };
}

export function boundsAround(points: readonly Point[], margin: number): Bounds {
  const { minX, minY, maxX, maxY } = boundsOf(points);
  return { minX: minX - margin, minY: minY - margin, maxX: maxX + margin, maxY: maxY + margin };
}

export function isWithin({ minX, minY, maxX, maxY }: Bounds, [x, y]: Point): boolean {
  return x >= minX && x <= maxX && y >= minY && y <= maxY;
}

/** The longest round length that takes at most a third of the page: 5, 10, 20 ft or 1, 2, 5 m. */
export function scaleBarFor(scale: number, units: Units): { mm: number; steps: number; text: string } {
  const metre = 1000, foot = 304.8;
  const choices = units === "metric" ? [1, 2, 5, 10, 20].map((m) => ({ mm: m * metre, steps: m === 1 || m === 10 ? 2 : m === 20 ? 4 : m, text: `${m} m` }))
    : [2, 5, 10, 20, 40].map((ft) => ({ mm: ft * foot, steps: ft === 2 || ft === 10 ? 2 : ft === 5 ? 5 : 4, text: `${ft} ft` }));
  return choices.filter(({ mm }) => mm * scale <= PAGE_WIDTH / 3).at(-1) ?? choices[0]!;
}

/** The part of a rectangle on the far side of the line a-b from `inside`, as a polygon (Sutherland and Hodgman 1974, one edge). */
export function cutAway(box: PageBox, a: PagePoint, b: PagePoint, inside: PagePoint): PagePoint[] {
  const side = ([x, y]: PagePoint) => (b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0]);
  const away = side(inside) > 0 ? -1 : 1;
  const corners: PagePoint[] = [[box.x, box.y], [box.x + box.w, box.y], [box.x + box.w, box.y + box.h], [box.x, box.y + box.h]];
  const kept: PagePoint[] = [];
  corners.forEach((p, i) => {
    const q = corners[(i + 1) % corners.length]!;
    const sp = away * side(p), sq = away * side(q);
    if (sp >= 0) kept.push(p);
    if (sp * sq < 0) {
      const t = sp / (sp - sq);
      kept.push([p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])]);
    }
  });
  return kept;
}

/** Where the endless line through a and b enters and leaves a rectangle; a and b themselves where it misses. */
export function lineThrough(box: PageBox, a: PagePoint, b: PagePoint): [PagePoint, PagePoint] {
  const dx = b[0] - a[0], dy = b[1] - a[1];
  let from = -Infinity, to = Infinity;
  const cut = (p: number, d: number, low: number, high: number) => {
    if (d === 0) return;
    const t1 = (low - p) / d, t2 = (high - p) / d;
    from = Math.max(from, Math.min(t1, t2));
    to = Math.min(to, Math.max(t1, t2));
  };
  cut(a[0], dx, box.x, box.x + box.w);
  cut(a[1], dy, box.y, box.y + box.h);
  if (!(from < to)) return [a, b];
  return [[a[0] + from * dx, a[1] + from * dy], [a[0] + to * dx, a[1] + to * dy]];
}
