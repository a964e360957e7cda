import type { Site } from "@/lib/park";

/**
 * A second reading of the ground that tires may roll on and of what stands about it, written apart from the engine: points set along
 * every outline, of which those with no ground just outside are the rim, and distances to them.
 */
export type Vector = readonly [number, number];

/** Something to keep clear of. Two points are a line without thickness, one point and a radius a disc, more an outline. */
export interface Thing {
  readonly id: string;
  readonly nature: "plain" | "crown" | "wire" | "wheel-stop";
  readonly from: number;
  readonly to: number;
  readonly points: readonly Vector[];
  readonly radius: number | null;
}

/** Points along outlines stand so far apart, mm: a depth is too great by half of it at the most, and only at the rim. */
const APART = 20;
/** Grounds no further apart than this are one, mm, and looked across in moves of so much. */
const GAP = 100, MOVE = 10;
/** A road goes straight on beyond its ends: so much of it is looked at, mm. */
const ONWARD = 45_000;

interface Ground {
  readonly holds: (p: Vector) => boolean;
  /** Points on the rim, sorted into squares. */
  readonly rim: ReadonlyMap<string, readonly RimPoint[]>;
}

interface RimPoint {
  readonly at: Vector;
  /** An outline ends here in a narrow gap between two others. */
  readonly inGap: boolean;
}

const SQUARE = 1000;
const grounds = new WeakMap<Site, Ground>();
const squareOf = (x: number, y: number) => `${Math.floor(x / SQUARE)} ${Math.floor(y / SQUARE)}`;

/**
 * How far inside the ground a point lies, mm; below zero outside. Infinite where that is more than `SQUARE`. Where an outline ends in a narrow gap
 * between two others, the gap goes on as ground beyond it, or with `gapsEnd` is taken to end there: either can be meant.
 */
export function groundDepth(site: Site, [x, y]: Vector, gapsEnd = false): number {
  const { holds, rim } = groundOf(site);
  let least = SQUARE;
  for (let dx = -1; dx <= 1; dx++) for (let dy = -1; dy <= 1; dy++) {
    for (const { at, inGap } of rim.get(squareOf(x + dx * SQUARE, y + dy * SQUARE)) ?? []) if (gapsEnd || !inGap) least = Math.min(least, Math.hypot(at[0] - x, at[1] - y));
  }
  const depth = least < SQUARE ? least : Infinity;
  return holds([x, y]) ? depth : -depth;
}

/** All that stands on a site or hangs over its way in. */
export function thingsOf(site: Site): Thing[] {
  const stand = site.obstacles.flatMap((o): Thing[] => {
    const nature = o.kind === "wire" || o.kind === "wheel-stop" ? o.kind : "plain";
    if (o.outline) return [{ id: o.id, nature, from: o.from!, to: o.to!, points: o.outline, radius: null }];
    if (o.kind !== "tree") return [{ id: o.id, nature, from: o.from!, to: o.to!, points: [o.at!], radius: o.radius! }];
    return [{ id: o.id, nature: "plain", from: 0, to: o.crownTo!, points: [o.at!], radius: o.trunkRadius! }, { id: o.id, nature: "crown", from: o.crownFrom!, to: o.crownTo!, points: [o.at!], radius: o.crownRadius! }];
  });
  const posts = site.hookups.flatMap((h): Thing[] => (h.postRadius === undefined ? [] : [{ id: h.id, nature: "plain", from: 0, to: h.postHeight!, points: [h.at], radius: h.postRadius }]));
  const limits = (site.approach?.heightLimits ?? []).flatMap((l): Thing[] => (l.height === undefined ? [] : [{ id: l.id, nature: l.kind === "wire" ? "wire" : l.kind === "limb" || l.kind === "tree" ? "crown" : "plain", from: l.height, to: Infinity, points: l.across, radius: null }]));
  return [...stand, ...posts, ...limits];
}

/** Whether an outline holds a point. */
export function holds(outline: readonly Vector[], [x, y]: Vector): boolean {
  let inside = false;
  outline.forEach(([ax, ay], i) => {
    const [bx, by] = outline[(i + 1) % outline.length]!;
    if (ay > y !== by > y && x < ax + ((bx - ax) * (y - ay)) / (by - ay)) inside = !inside;
  });
  return inside;
}

/** From a point to a stretch of line. */
export function distanceToLine(p: Vector, a: Vector, b: Vector): number {
  const dx = b[0] - a[0], dy = b[1] - a[1], t = Math.min(1, Math.max(0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / (dx * dx + dy * dy)));
  return Math.hypot(p[0] - a[0] - t * dx, p[1] - a[1] - t * dy);
}

/** Points along an outline, no further apart than asked for. */
export function alongRim(corners: readonly Vector[], apart: number): Vector[] {
  return corners.flatMap((a, i) => {
    const b = corners[(i + 1) % corners.length]!, n = Math.max(1, Math.ceil(Math.hypot(b[0] - a[0], b[1] - a[1]) / apart));
    return Array.from({ length: n }, (_, k): Vector => [a[0] + ((b[0] - a[0]) * k) / n, a[1] + ((b[1] - a[1]) * k) / n]);
  });
}

function groundOf(site: Site): Ground {
  let ground = grounds.get(site);
  if (!ground) grounds.set(site, (ground = survey(site)));
  return ground;
}

function survey(site: Site): Ground {
  const { road, exitRoad, driveable } = site.approach!, outlines = [site.pad.outline, ...driveable, ...[road, ...(exitRoad ? [exitRoad] : [])].flatMap(stripsOf)];
  const firm = (p: Vector) => outlines.some((outline) => holds(outline, p)), rim = new Map<string, RimPoint[]>();
  const isBare = (p: Vector, nx: number, ny: number) => {
    for (let r = MOVE / 2; r <= GAP; r += MOVE) if (firm([p[0] + nx * r, p[1] + ny * r])) return false;
    return true;
  };
  // The gap is looked along, not across: others lie on both sides.
  const endsInGap = (p: Vector, nx: number, ny: number, own: readonly Vector[]) => {
    const others = outlines.filter((other) => other !== own && other.some((a, i) => distanceToLine(p, a, other[(i + 1) % other.length]!) <= GAP));
    return others.length > 1 && isSpanned((q) => others.some((other) => holds(other, q)), [p[0] + (nx * MOVE) / 2, p[1] + (ny * MOVE) / 2], ACROSS.filter(([c, s]) => Math.abs(c * nx + s * ny) < 0.5));
  };
  for (const outline of outlines) outline.forEach((a, i) => {
    const b = outline[(i + 1) % outline.length]!, long = Math.hypot(b[0] - a[0], b[1] - a[1]), nx = (b[1] - a[1]) / long, ny = (a[0] - b[0]) / long;
    for (let s = 0; s < long; s += APART) {
      const at: Vector = [a[0] + ((b[0] - a[0]) * s) / long, a[1] + ((b[1] - a[1]) * s) / long], bare = [1, -1].filter((side) => isBare(at, side * nx, side * ny));
      if (bare.length === 0) continue;
      const key = squareOf(at[0], at[1]), list = rim.get(key), point = { at, inGap: bare.every((side) => endsInGap(at, side * nx, side * ny, outline)) };
      if (list) list.push(point);
      else rim.set(key, [point]);
    }
  });
  return { rim, holds: (p) => firm(p) || isSpanned(firm, p) };
}

const ACROSS = Array.from({ length: 12 }, (_, k): Vector => [Math.cos((Math.PI * k) / 12), Math.sin((Math.PI * k) / 12)]);

/** Whether a narrow gap lies across a point in one of the directions. */
function isSpanned(firm: (p: Vector) => boolean, [x, y]: Vector, directions = ACROSS): boolean {
  return directions.some(([c, s]) => {
    const reach = (sign: number) => { for (let r = 0; r <= GAP; r += MOVE) if (firm([x + sign * r * c, y + sign * r * s])) return r; return Infinity; };
    return reach(1) + reach(-1) <= GAP;
  });
}

/** A road in strips, straight on beyond its ends, and wedges outside its corners. */
function stripsOf({ centreline, width }: NonNullable<Site["approach"]>["road"]): Vector[][] {
  const onward = (end: Vector, before: Vector): Vector => { const d = ONWARD / Math.hypot(end[0] - before[0], end[1] - before[1]); return [end[0] + (end[0] - before[0]) * d, end[1] + (end[1] - before[1]) * d]; };
  const line: Vector[] = [onward(centreline[0]!, centreline[1]!), ...centreline, onward(centreline.at(-1)!, centreline.at(-2)!)], half = width / 2;
  const sides = line.slice(1).map((b, i): Vector => { const a = line[i]!, long = Math.hypot(b[0] - a[0], b[1] - a[1]); return [((a[1] - b[1]) * half) / long, ((b[0] - a[0]) * half) / long]; });
  const moved = (p: Vector, [nx, ny]: Vector, sign: number): Vector => [p[0] + sign * nx, p[1] + sign * ny];
  return sides.flatMap((n, i) => {
    const a = line[i]!, b = line[i + 1]!, next = sides[i + 1], strip = [moved(a, n, 1), moved(a, n, -1), moved(b, n, -1), moved(b, n, 1)];
    return next ? [strip, [b, moved(b, n, 1), moved(b, next, 1)], [b, moved(b, n, -1), moved(b, next, -1)]] : [strip];
  });
}
