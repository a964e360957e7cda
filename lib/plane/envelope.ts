import type { Point } from "./points";

/**
 * Functions of a point in the plane whose value and whose exact bounds over a box are known, and the lower envelope
 * of many of them: the least slack. Each moves by at most as much as the point moves (Lipschitz constant 1).
 *
 * - `half`: a x + b y + d with (a, b) of unit length: a straight edge one has to stay on the right side of.
 * - `box`: signed distance to an upright box with centre (x, y) and half sides (ax, ay), less r. With r it is also the
 *   distance to a disc seen by a box.
 * - `convex`: signed distance to a convex ring (x0, y0, x1, y1, … counter-clockwise), less r.
 *
 * Signed distances are negative inside, where they give the least move that leads out.
 */
export type Element =
  | { readonly shape: "half"; readonly a: number; readonly b: number; readonly d: number }
  | { readonly shape: "box"; readonly x: number; readonly y: number; readonly ax: number; readonly ay: number; readonly r: number }
  | { readonly shape: "convex"; readonly ring: Float64Array; readonly r: number };

/** A box of half sides (hx, hy) around (cx, cy). */
export interface Cell {
  readonly cx: number;
  readonly cy: number;
  readonly hx: number;
  readonly hy: number;
}

export function elementAt(e: Element, x: number, y: number): number {
  switch (e.shape) {
    case "half": return e.a * x + e.b * y + e.d;
    case "box": return boxDistance(Math.abs(x - e.x) - e.ax, Math.abs(y - e.y) - e.ay) - e.r;
    case "convex": return ringDistance(e.ring, 0, e.ring.length, x, y) - e.r;
  }
}

/** The greatest value of an element over a cell: exact for each shape. */
export function greatestIn(e: Element, { cx, cy, hx, hy }: Cell): number {
  switch (e.shape) {
    case "half": return e.a * cx + e.b * cy + e.d + Math.abs(e.a) * hx + Math.abs(e.b) * hy;
    case "box": return boxDistance(Math.abs(cx - e.x) + hx - e.ax, Math.abs(cy - e.y) + hy - e.ay) - e.r;
    case "convex": // a convex function is greatest at a corner
      return Math.max(elementAt(e, cx - hx, cy - hy), elementAt(e, cx + hx, cy - hy), elementAt(e, cx - hx, cy + hy), elementAt(e, cx + hx, cy + hy));
  }
}

/** Signed distance to an upright box, from the point's distances beyond its sides. */
export function boxDistance(dx: number, dy: number): number {
  if (dx <= 0) return dy <= 0 ? Math.max(dx, dy) : dy;
  return dy <= 0 ? dx : Math.sqrt(dx * dx + dy * dy);
}

/**
 * Signed distance to the convex ring stored at `data[start..end)`. Outside, the nearest edge or corner; inside, minus
 * the distance to the nearest edge line.
 */
export function ringDistance(data: Float64Array, start: number, end: number, x: number, y: number): number {
  let inside = -Infinity, outside = Infinity;
  let px = data[end - 2]!, py = data[end - 1]!;
  for (let i = start; i < end; i += 2) {
    const qx = data[i]!, qy = data[i + 1]!;
    const ex = qx - px, ey = qy - py, wx = x - px, wy = y - py;
    const len2 = ex * ex + ey * ey;
    const cross = ey * wx - ex * wy; // positive to the right of the edge, which is outside
    if (cross > 0) {
      const t = Math.min(1, Math.max(0, (wx * ex + wy * ey) / len2));
      const dx = wx - t * ex, dy = wy - t * ey;
      const d2 = dx * dx + dy * dy;
      if (d2 < outside) outside = d2;
    } else if (outside === Infinity) {
      const d = cross / Math.sqrt(len2);
      if (d > inside) inside = d;
    }
    px = qx;
    py = qy;
  }
  return outside < Infinity ? Math.sqrt(outside) : inside;
}

/**
 * Where a box that moves with the point (its corners at offsets [x0, x1] x [y0, y1]) would meet a convex ring: the
 * Minkowski sum of the ring and the mirrored box, by merging edges in order of direction.
 */
export function ringSeenByBox(ring: readonly Point[], x0: number, x1: number, y0: number, y1: number): Float64Array {
  const n = ring.length;
  let low = 0;
  for (let i = 1; i < n; i++) {
    const p = ring[i]!, q = ring[low]!;
    if (p[1] < q[1] || (p[1] === q[1] && p[0] < q[0])) low = i;
  }
  const width = x1 - x0, depth = y1 - y0;
  const sides: readonly (readonly [number, number])[] = [[width, 0], [0, depth], [-width, 0], [0, -depth]];
  const out: number[] = [];
  let x = ring[low]![0] - x1, y = ring[low]![1] - y1;
  let i = 0, j = 0;
  while (i < n || j < 4) {
    const a = ring[(low + i) % n]!, b = ring[(low + i + 1) % n]!;
    const ex = b[0] - a[0], ey = b[1] - a[1];
    const side = sides[j];
    const cross = side === undefined ? 1 : i >= n ? -1 : compareDirections(ex, ey, j);
    let sx = 0, sy = 0;
    if (cross >= 0) { sx += ex; sy += ey; i++; }
    if (cross <= 0 && side) { sx += side[0]; sy += side[1]; j++; }
    if (sx === 0 && sy === 0) continue;
    out.push(x, y);
    x += sx;
    y += sy;
  }
  return Float64Array.from(out);
}

/** Positive where the edge comes before box side j (directions 0, 90, 180, 270 degrees) counting from direction 0. */
function compareDirections(ex: number, ey: number, j: number): number {
  const quarter = ey > 0 ? (ex > 0 ? 0.5 : ex === 0 ? 1 : 1.5) : ey < 0 ? (ex < 0 ? 2.5 : ex === 0 ? 3 : 3.5) : ex > 0 ? 0 : 2;
  return j - quarter;
}

const HALF = 0, BOX = 1, CONVEX = 2;
const STRIDE = 6;
/** Cheap ones first: what they bound, the dearer ones need not be looked at for. */
const ORDER = ["half", "box", "convex"] as const;

/** The least of many elements, packed for speed: straight edges, boxes, rings. */
export class Envelope {
  readonly size: number;
  /** Results of the last `survey`: least value at the centre, and a bound no point of the cell exceeds. */
  value = 0;
  upper = 0;
  /** The element that was least where `survey` (the cell's centre) or `valueAmong` last looked. */
  private lowest = -1;

  private readonly kind: Uint8Array;
  private readonly numbers: Float64Array;
  private readonly rings: Float64Array;
  private readonly least: Float64Array;

  constructor(unsorted: readonly Element[]) {
    const elements = ORDER.flatMap((shape) => unsorted.filter((e) => e.shape === shape));
    const n = elements.length;
    this.size = n;
    this.kind = new Uint8Array(n);
    this.numbers = new Float64Array(STRIDE * n);
    this.least = new Float64Array(n);
    let corners = 0;
    for (const e of elements) if (e.shape === "convex") corners += e.ring.length;
    this.rings = new Float64Array(corners);
    let next = 0;
    for (let i = 0; i < n; i++) next = this.pack(i, elements[i]!, next);
  }

  private pack(i: number, e: Element, next: number): number {
    const a = this.numbers, o = STRIDE * i;
    switch (e.shape) {
      case "half":
        this.kind[i] = HALF; a[o] = e.a; a[o + 1] = e.b; a[o + 2] = e.d; a[o + 3] = Math.abs(e.a); a[o + 4] = Math.abs(e.b);
        return next;
      case "box":
        this.kind[i] = BOX; a[o] = e.x; a[o + 1] = e.y; a[o + 2] = e.ax; a[o + 3] = e.ay; a[o + 4] = e.r;
        return next;
      case "convex":
        this.kind[i] = CONVEX; a[o] = next; a[o + 1] = next + e.ring.length; a[o + 2] = e.r;
        this.packCircle(o + 3, e.ring);
        this.rings.set(e.ring, next);
        return next + e.ring.length;
    }
  }

  /** A circle around the ring: centre and radius. What lies far from it needs no closer look. */
  private packCircle(o: number, ring: Float64Array): void {
    let x = 0, y = 0, radius = 0;
    const corners = ring.length / 2;
    for (let k = 0; k < ring.length; k += 2) { x += ring[k]! / corners; y += ring[k + 1]! / corners; }
    for (let k = 0; k < ring.length; k += 2) radius = Math.max(radius, Math.hypot(ring[k]! - x, ring[k + 1]! - y));
    this.numbers[o] = x;
    this.numbers[o + 1] = y;
    this.numbers[o + 2] = radius;
  }

  /** The least of all elements at a point, Infinity where there are none; `variesAlongX` then speaks of that element. */
  valueAt(x: number, y: number): number {
    let least = Infinity;
    this.lowest = -1;
    for (let i = 0; i < this.size; i++) {
      const v = this.one(i, x, y);
      if (v < least) { least = v; this.lowest = i; }
    }
    return least;
  }

  /** The least of the listed elements at a point; `lowest` is then the element that has it. */
  valueAmong(x: number, y: number, list: Int32Array, start: number, count: number): number {
    let least = Infinity;
    this.lowest = -1;
    for (let k = start; k < start + count; k++) {
      const v = this.one(list[k]!, x, y);
      if (v < least) { least = v; this.lowest = list[k]!; }
    }
    return least;
  }

  /** Whether the element that was lowest where last asked varies more over the cell's width than over its depth. */
  variesAlongX({ cx, cy, hx, hy }: Cell): boolean {
    if (this.lowest < 0) return hx >= hy;
    const alongX = this.variation(this.lowest, cx, cy, hx, 0), alongY = this.variation(this.lowest, cx, cy, 0, hy);
    return alongX === alongY ? hx >= hy : alongX > alongY;
  }

  /**
   * Values and bounds over a cell, of the listed elements. `upper` is the least of the elements' exact greatest values;
   * elements that nowhere in the cell come below `min(upper, cap)` are left out of the list written to
   * `out[outStart..]`, since they cannot bind there. Returns the length of that list.
   */
  survey(cell: Cell, list: Int32Array, start: number, count: number, cap: number, out: Int32Array, outStart: number): number {
    const { cx, cy, hx, hy } = cell;
    const { kind, numbers, least } = this;
    const reach = Math.sqrt(hx * hx + hy * hy);
    let value = Infinity, upper = Infinity, binding = -1, lowest = -1;
    for (let k = start; k < start + count; k++) {
      const i = list[k]!, o = STRIDE * i;
      let v: number, u: number;
      if (kind[i] === HALF) {
        v = numbers[o]! * cx + numbers[o + 1]! * cy + numbers[o + 2]!;
        const swing = numbers[o + 3]! * hx + numbers[o + 4]! * hy;
        u = v + swing;
        least[i] = v - swing;
      } else if (kind[i] === BOX) {
        const gx = Math.abs(cx - numbers[o]!), gy = Math.abs(cy - numbers[o + 1]!);
        const ax = numbers[o + 2]!, ay = numbers[o + 3]!, r = numbers[o + 4]!;
        v = boxDistance(gx - ax, gy - ay) - r;
        u = boxDistance(gx + hx - ax, gy + hy - ay) - r;
        least[i] = boxDistance(Math.max(gx - hx, 0) - ax, Math.max(gy - hy, 0) - ay) - r;
      } else {
        const gx = cx - numbers[o + 3]!, gy = cy - numbers[o + 4]!;
        const atLeast = Math.sqrt(gx * gx + gy * gy) - numbers[o + 5]! - numbers[o + 2]!;
        if (atLeast >= upper) { // then it is neither the lowest here nor the one that bounds the cell
          least[i] = atLeast - reach;
          continue;
        }
        v = this.one(i, cx, cy);
        u = v < upper ? this.greatestOnCorners(i, cell, upper) : v;
        least[i] = v - reach;
      }
      if (v < value) { value = v; lowest = i; }
      if (u < upper) { upper = u; binding = i; }
    }
    this.value = value;
    this.upper = upper;
    this.lowest = lowest;
    const ceiling = Math.min(upper, cap);
    let kept = outStart;
    for (let k = start; k < start + count; k++) {
      const i = list[k]!;
      if (least[i]! < ceiling || i === binding) out[kept++] = i;
    }
    return kept - outStart;
  }

  /**
   * Shrinks a cell to the part where every straight edge can reach `level`: what is cut off has no point of that
   * value. Returns false where nothing is left.
   */
  trim(cell: { cx: number; cy: number; hx: number; hy: number }, level: number): boolean {
    const { numbers } = this;
    let { cx, cy, hx, hy } = cell;
    for (let i = 0; i < this.size && this.kind[i] === HALF; i++) {
      const o = STRIDE * i, a = numbers[o]!, b = numbers[o + 1]!, d = numbers[o + 2]!;
      const spareX = numbers[o + 3]! * hx, spareY = numbers[o + 4]! * hy;
      const lack = level - (a * cx + b * cy + d); // at the centre
      if (lack > spareX + spareY) return false;
      // The most the other axis gives leaves so much for this one: a (x - cx) >= lack - spare.
      if (lack - spareY > -spareX && spareX > 0) {
        const cut = (hx + (lack - spareY) / numbers[o + 3]!) / 2;
        cx += a > 0 ? cut : -cut;
        hx -= cut;
      }
      // The x side keeps its most favourable end, so what it can spare is unchanged.
      if (lack - spareX > -spareY && spareY > 0) {
        const cut = (hy + (lack - spareX) / numbers[o + 4]!) / 2;
        cy += b > 0 ? cut : -cut;
        hy -= cut;
      }
    }
    cell.cx = cx; cell.cy = cy; cell.hx = Math.max(0, hx); cell.hy = Math.max(0, hy);
    return true;
  }

  /** The straight edge that is lowest at a point, as a x + b y + d with its value there; null where there is none. */
  lowestEdge(x: number, y: number): { readonly a: number; readonly b: number; readonly value: number } | null {
    const { numbers } = this;
    let lowest = -1, value = Infinity;
    for (let i = 0; i < this.size && this.kind[i] === HALF; i++) {
      const o = STRIDE * i, v = numbers[o]! * x + numbers[o + 1]! * y + numbers[o + 2]!;
      if (v < value) { value = v; lowest = i; }
    }
    return lowest < 0 ? null : { a: numbers[STRIDE * lowest]!, b: numbers[STRIDE * lowest + 1]!, value };
  }

  /** By how much an element differs from its value at (x, y) so far along one axis. */
  private variation(i: number, x: number, y: number, hx: number, hy: number): number {
    const a = this.numbers, o = STRIDE * i;
    if (this.kind[i] === HALF) return a[o + 3]! * hx + a[o + 4]! * hy;
    const v = this.one(i, x, y);
    return Math.max(Math.abs(this.one(i, x - hx, y - hy) - v), Math.abs(this.one(i, x + hx, y + hy) - v));
  }

  private one(i: number, x: number, y: number): number {
    const a = this.numbers, o = STRIDE * i;
    if (this.kind[i] === HALF) return a[o]! * x + a[o + 1]! * y + a[o + 2]!;
    if (this.kind[i] === BOX) return boxDistance(Math.abs(x - a[o]!) - a[o + 2]!, Math.abs(y - a[o + 1]!) - a[o + 3]!) - a[o + 4]!;
    return ringDistance(this.rings, a[o]!, a[o + 1]!, x, y) - a[o + 2]!;
  }

  /**
   * A signed distance to a convex set is a convex function, so its greatest value over a box is at a corner. Ends at
   * the first that reaches `enough`: then another element bounds the cell.
   */
  private greatestOnCorners(i: number, { cx, cy, hx, hy }: Cell, enough: number): number {
    let greatest = this.one(i, cx - hx, cy - hy);
    if (greatest < enough) greatest = Math.max(greatest, this.one(i, cx + hx, cy - hy));
    if (greatest < enough) greatest = Math.max(greatest, this.one(i, cx - hx, cy + hy));
    return greatest < enough ? Math.max(greatest, this.one(i, cx + hx, cy + hy)) : greatest;
  }
}
