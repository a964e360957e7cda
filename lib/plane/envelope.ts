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
  if (x0 === x1 && y0 === y1) return ringSeenByPoint(ring, x0, y0);
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
  return new Float64Array(out);
}

function ringSeenByPoint(ring: readonly Point[], x: number, y: number): Float64Array {
  const out = new Float64Array(2 * ring.length);
  for (let i = 0; i < ring.length; i++) {
    out[2 * i] = ring[i]![0] - x;
    out[2 * i + 1] = ring[i]![1] - y;
  }
  return out;
}

/** Positive where the edge comes before box side j (directions 0, 90, 180, 270 degrees) counting from direction 0. */
function compareDirections(ex: number, ey: number, j: number): number {
  const quarter = ey > 0 ? (ex > 0 ? 0.5 : ex === 0 ? 1 : 1.5) : ey < 0 ? (ex < 0 ? 2.5 : ex === 0 ? 3 : 3.5) : ex > 0 ? 0 : 2;
  return j - quarter;
}

/** Numbers kept of each element, the last of them its least value over the cell that `survey` looked at. */
const STRIDE = 7, LEAST = 6;

/**
 * The least of many elements, packed for speed: straight edges first, then boxes, then rings, so that an index tells
 * its shape, and all numbers in one block, corners of rings behind.
 */
export class Envelope {
  readonly size: number;
  /** Results of the last `survey`: least value at the centre, and a bound no point of the cell exceeds. */
  value = 0;
  upper = 0;
  /** The element that was least where `survey` (the cell's centre) or `valueAmong` last looked. */
  private lowest = -1;
  /** The element that `reaches` last found too low: where many points are asked about, often the same again. */
  private short = 0;

  /** Elements below this are straight edges. */
  private readonly edges: number;
  /** Elements from `edges` up to this are boxes, the rest rings. */
  private readonly plain: number;
  private readonly numbers: Float64Array;

  constructor(elements: readonly Element[]) {
    let edges = 0, boxes = 0, corners = 0;
    for (const e of elements) {
      if (e.shape === "half") edges++;
      else if (e.shape === "box") boxes++;
      else corners += e.ring.length;
    }
    const size = elements.length;
    this.size = size;
    this.edges = edges;
    this.plain = edges + boxes;
    this.numbers = new Float64Array(STRIDE * size + corners);
    let edge = 0, box = edges, ring = edges + boxes, next = STRIDE * size;
    for (const e of elements) {
      if (e.shape === "half") this.pack(edge++, e.a, e.b, e.d, Math.abs(e.a), Math.abs(e.b));
      else if (e.shape === "box") this.pack(box++, e.x, e.y, e.ax, e.ay, e.r);
      else next = this.packRing(ring++, e.ring, e.r, next);
    }
  }

  private pack(i: number, p: number, q: number, r: number, s: number, t: number): void {
    const a = this.numbers, o = STRIDE * i;
    a[o] = p; a[o + 1] = q; a[o + 2] = r; a[o + 3] = s; a[o + 4] = t;
  }

  /** With a circle around the ring, centre and radius: what lies far from it needs no closer look. */
  private packRing(i: number, ring: Float64Array, r: number, next: number): number {
    const a = this.numbers, n = ring.length;
    let x = 0, y = 0, far2 = 0;
    for (let k = 0; k < n; k += 2) { x += ring[k]!; y += ring[k + 1]!; }
    x /= n / 2;
    y /= n / 2;
    for (let k = 0; k < n; k += 2) {
      const px = ring[k]!, py = ring[k + 1]!;
      const d2 = (px - x) * (px - x) + (py - y) * (py - y);
      if (d2 > far2) far2 = d2;
      a[next + k] = px;
      a[next + k + 1] = py;
    }
    this.pack(i, next, next + n, r, x, y);
    a[STRIDE * i + 5] = Math.sqrt(far2);
    return next + n;
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

  /** Whether all elements are at least `level` at a point: ends at the first that is not, and asks that one first the next time. */
  reaches(x: number, y: number, level: number): boolean {
    if (this.short < this.size && this.one(this.short, x, y) < level) return false;
    for (let i = 0; i < this.size; i++) {
      if (this.one(i, x, y) >= level) continue;
      this.short = i;
      return false;
    }
    return true;
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
   * `out[outStart..]`, since they cannot bind there. Lists are in order of index. Returns the length of that list.
   */
  survey(cell: Cell, list: Int32Array, start: number, count: number, cap: number, out: Int32Array, outStart: number): number {
    const { cx, cy, hx, hy } = cell;
    const { numbers, edges, plain } = this;
    const reach = Math.sqrt(hx * hx + hy * hy), end = start + count;
    let value = Infinity, upper = Infinity, binding = -1, lowest = -1;
    let k = start;
    for (; k < end && list[k]! < edges; k++) {
      const i = list[k]!, o = STRIDE * i;
      const v = numbers[o]! * cx + numbers[o + 1]! * cy + numbers[o + 2]!;
      const swing = numbers[o + 3]! * hx + numbers[o + 4]! * hy;
      numbers[o + LEAST] = v - swing;
      if (v < value) { value = v; lowest = i; }
      if (v + swing < upper) { upper = v + swing; binding = i; }
    }
    for (; k < end && list[k]! < plain; k++) {
      const i = list[k]!, o = STRIDE * i;
      const gx = Math.abs(cx - numbers[o]!), gy = Math.abs(cy - numbers[o + 1]!);
      const ax = numbers[o + 2]!, ay = numbers[o + 3]!, r = numbers[o + 4]!;
      const v = boxDistance(gx - ax, gy - ay) - r;
      numbers[o + LEAST] = boxDistance(Math.max(gx - hx, 0) - ax, Math.max(gy - hy, 0) - ay) - r;
      if (v < value) { value = v; lowest = i; }
      if (v >= upper) continue; // its greatest value is no less
      const u = boxDistance(gx + hx - ax, gy + hy - ay) - r;
      if (u < upper) { upper = u; binding = i; }
    }
    for (; k < end; k++) {
      const i = list[k]!, o = STRIDE * i;
      const gx = cx - numbers[o + 3]!, gy = cy - numbers[o + 4]!;
      const atLeast = Math.sqrt(gx * gx + gy * gy) - numbers[o + 5]! - numbers[o + 2]!;
      if (atLeast >= upper) { // then it is neither the lowest here nor the one that bounds the cell
        numbers[o + LEAST] = atLeast - reach;
        continue;
      }
      const v = ringDistance(numbers, numbers[o]!, numbers[o + 1]!, cx, cy) - numbers[o + 2]!;
      numbers[o + LEAST] = v - reach;
      if (v < value) { value = v; lowest = i; }
      if (v >= upper) continue;
      const u = this.greatestOnCorners(i, cx, cy, hx, hy, upper);
      if (u < upper) { upper = u; binding = i; }
    }
    this.value = value;
    this.upper = upper;
    this.lowest = lowest;
    const ceiling = Math.min(upper, cap);
    let kept = outStart;
    for (k = start; k < end; k++) {
      const i = list[k]!;
      if (numbers[STRIDE * i + LEAST]! < ceiling || i === binding) out[kept++] = i;
    }
    return kept - outStart;
  }

  /** The bound that `survey` gives over a cell, of all elements and without the rest of what it tells. */
  boundIn({ cx, cy, hx, hy }: Cell): number {
    const { numbers, edges, plain, size } = this;
    let upper = Infinity;
    for (let i = 0, o = 0; i < edges; i++, o += STRIDE) {
      const u = numbers[o]! * cx + numbers[o + 1]! * cy + numbers[o + 2]! + numbers[o + 3]! * hx + numbers[o + 4]! * hy;
      if (u < upper) upper = u;
    }
    for (let i = edges, o = STRIDE * edges; i < plain; i++, o += STRIDE) {
      const u = boxDistance(Math.abs(cx - numbers[o]!) + hx - numbers[o + 2]!, Math.abs(cy - numbers[o + 1]!) + hy - numbers[o + 3]!) - numbers[o + 4]!;
      if (u < upper) upper = u;
    }
    for (let i = plain, o = STRIDE * plain; i < size; i++, o += STRIDE) {
      const gx = cx - numbers[o + 3]!, gy = cy - numbers[o + 4]!;
      if (Math.sqrt(gx * gx + gy * gy) - numbers[o + 5]! - numbers[o + 2]! >= upper) continue;
      const u = this.greatestOnCorners(i, cx, cy, hx, hy, upper);
      if (u < upper) upper = u;
    }
    return upper;
  }

  /**
   * Shrinks a cell to the part where every straight edge can reach `level`: what is cut off has no point of that
   * value. Returns false where nothing is left.
   */
  trim(cell: { cx: number; cy: number; hx: number; hy: number }, level: number): boolean {
    const { numbers } = this;
    let { cx, cy, hx, hy } = cell;
    for (let i = 0; i < this.edges; i++) {
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
    for (let i = 0; i < this.edges; i++) {
      const o = STRIDE * i, v = numbers[o]! * x + numbers[o + 1]! * y + numbers[o + 2]!;
      if (v < value) { value = v; lowest = i; }
    }
    return lowest < 0 ? null : { a: numbers[STRIDE * lowest]!, b: numbers[STRIDE * lowest + 1]!, value };
  }

  /** By how much an element differs from its value at (x, y) so far along one axis. */
  private variation(i: number, x: number, y: number, hx: number, hy: number): number {
    const a = this.numbers, o = STRIDE * i;
    if (i < this.edges) return a[o + 3]! * hx + a[o + 4]! * hy;
    const v = this.one(i, x, y);
    return Math.max(Math.abs(this.one(i, x - hx, y - hy) - v), Math.abs(this.one(i, x + hx, y + hy) - v));
  }

  private one(i: number, x: number, y: number): number {
    const a = this.numbers, o = STRIDE * i;
    if (i < this.edges) return a[o]! * x + a[o + 1]! * y + a[o + 2]!;
    if (i < this.plain) return boxDistance(Math.abs(x - a[o]!) - a[o + 2]!, Math.abs(y - a[o + 1]!) - a[o + 3]!) - a[o + 4]!;
    return ringDistance(a, a[o]!, a[o + 1]!, x, y) - a[o + 2]!;
  }

  /**
   * A signed distance to a convex set is a convex function, so its greatest value over a box is at a corner. Ends at
   * the first that reaches `enough`: then another element bounds the cell.
   */
  private greatestOnCorners(i: number, cx: number, cy: number, hx: number, hy: number, enough: number): number {
    let greatest = this.one(i, cx - hx, cy - hy);
    if (greatest < enough) greatest = Math.max(greatest, this.one(i, cx + hx, cy - hy));
    if (greatest < enough) greatest = Math.max(greatest, this.one(i, cx - hx, cy + hy));
    return greatest < enough ? Math.max(greatest, this.one(i, cx + hx, cy + hy)) : greatest;
  }
}
