/**
 * Best-first branch and bound in the plane (Land & Doig 1960; the cells and their bounds as in Piyavskii 1972).
 * It knows nothing of what it searches: the landscape bounds its objective over a cell and offers points. The answer
 * says how it ended, and its bound is honest however it ended.
 */
export interface Domain {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/**
 * A box around (cx, cy). The landscape may trim it to a smaller box that holds every allowed point of it. `start` and
 * `count` belong to the landscape, which may remember there what still matters.
 */
export interface SearchCell {
  cx: number;
  cy: number;
  hx: number;
  hy: number;
  upper: number;
  start: number;
  count: number;
  /** Which way to halve it: along x, or along y. Starts as the longer side; a landscape that knows better may say so. */
  cutX: boolean;
}

export interface Found {
  readonly x: number;
  readonly y: number;
  readonly value: number;
}

/** Takes a point with its value. `strict` points meet every condition; the others only within the landscape's tolerance. */
export type Offer = (x: number, y: number, value: number, strict: boolean) => void;

export interface Landscape {
  /**
   * Sets `cell.upper` to a number that no allowed point of the cell exceeds (-Infinity where none is allowed) and
   * offers any allowed points it comes across. `parent` is the cell this one was cut from.
   */
  survey(cell: SearchCell, parent: SearchCell | null, offer: Offer): void;
}

export interface SearchOptions {
  /** Ends once no point can beat the best strict one by more than this. */
  readonly gap: number;
  /** Cells whose half diagonal is at most this are not cut again. */
  readonly resolution: number;
  /** Ends once a strict point reaches this. */
  readonly target?: number;
  /** Ends once no point can reach this, best found or not. */
  readonly floor?: number;
  /** The most cells to look at. */
  readonly budget: number;
}

export interface SearchResult {
  /** closed: within the gap; target: reached; below: nothing reaches the floor; budget: stopped with the question open. */
  readonly ended: "closed" | "target" | "below" | "budget";
  readonly best: Found | null;
  /** The best point that holds only within tolerance. */
  readonly loose: Found | null;
  /** No allowed point of the domain exceeds this. */
  readonly bound: number;
  readonly cells: number;
}

export function maximise(domain: Domain, landscape: Landscape, options: SearchOptions): SearchResult {
  const { gap, resolution, budget, target = Infinity, floor = -Infinity } = options;
  let best: Found | null = null, loose: Found | null = null;
  let mark = -Infinity; // what a cell has to beat
  let passedOver = -Infinity; // the greatest bound of cells not looked into further
  const offer: Offer = (x, y, value, strict) => {
    if (!strict) {
      if (loose === null || value > loose.value) loose = { x, y, value };
    } else if (best === null || value > best.value) {
      best = { x, y, value };
      mark = value + gap;
    }
  };

  const { minX, maxX, minY, maxY } = domain;
  const root = blank((minX + maxX) / 2, (minY + maxY) / 2, (maxX - minX) / 2, (maxY - minY) / 2);
  let cells = 1;
  landscape.survey(root, null, offer);
  const open = new Heap();
  if (root.upper > -Infinity) open.push(root);

  const answer = (ended: SearchResult["ended"]): SearchResult => {
    const bound = Math.max(passedOver, open.top()?.upper ?? -Infinity, best?.value ?? -Infinity);
    return { ended, best, loose, bound, cells };
  };
  for (;;) {
    if (best !== null && (best as Found).value >= target) return answer("target");
    const cell = open.top();
    if (cell === undefined || cell.upper <= mark) return answer("closed");
    if (cell.upper < floor && passedOver < floor) return answer("below");
    if (cells >= budget) return answer("budget");
    open.pop();
    if (Math.hypot(cell.hx, cell.hy) <= resolution) {
      passedOver = Math.max(passedOver, cell.upper);
      continue;
    }
    for (let k = 0; k < 2; k++) {
      const half = halfOf(cell, k === 0 ? -1 : 1);
      cells++;
      landscape.survey(half, cell, offer);
      half.upper = Math.min(half.upper, cell.upper);
      if (half.upper > mark) open.push(half);
      else passedOver = Math.max(passedOver, half.upper);
    }
  }
}

function halfOf({ cx, cy, hx, hy, cutX }: SearchCell, side: -1 | 1): SearchCell {
  const alongX = cutX ? hx > 0 : hy <= 0; // never along a side that is no longer there
  return alongX ? blank(cx + (side * hx) / 2, cy, hx / 2, hy) : blank(cx, cy + (side * hy) / 2, hx, hy / 2);
}

function blank(cx: number, cy: number, hx: number, hy: number): SearchCell {
  return { cx, cy, hx, hy, upper: Infinity, start: 0, count: 0, cutX: hx >= hy };
}

/** A binary heap of cells, greatest bound on top. */
class Heap {
  private readonly items: SearchCell[] = [];

  top(): SearchCell | undefined {
    return this.items[0];
  }

  push(cell: SearchCell): void {
    const { items } = this;
    let i = items.length;
    items.push(cell);
    while (i > 0) {
      const up = (i - 1) >> 1;
      if (items[up]!.upper >= cell.upper) break;
      items[i] = items[up]!;
      i = up;
    }
    items[i] = cell;
  }

  pop(): void {
    const { items } = this;
    const last = items.pop();
    if (last === undefined || items.length === 0) return;
    const n = items.length;
    let i = 0;
    for (;;) {
      let child = 2 * i + 1;
      if (child >= n) break;
      if (child + 1 < n && items[child + 1]!.upper > items[child]!.upper) child++;
      if (items[child]!.upper <= last.upper) break;
      items[i] = items[child]!;
      i = child;
    }
    items[i] = last;
  }
}
