import type { RoadRecord } from "@/lib/park";
import { nearestOnSegment, sitePoint, type Point, type SitePoint } from "@/lib/plane";
import type { Radians } from "@/lib/measure";
import { makePath, reversePath, straight, wrapped, type Curvature, type Path, type Piece } from "@/lib/turning";
import type { Side } from "./types";

/** A road as one drives along it in one direction: its centreline with corners rounded, and where the surveyed part begins and ends along it. */
export interface Lane {
  readonly road: RoadRecord;
  /** From which side one comes when driving this way. */
  readonly from: Side;
  /** Corners of its middle in the order driven, straight on beyond its survey. */
  readonly line: readonly Point[];
  readonly pieces: readonly Piece[];
  readonly start: { readonly at: SitePoint; readonly heading: Radians };
}

/** The road goes on straight this far beyond the ends of its centreline, mm: nothing is known of it there. */
export const BEYOND = 60_000;

/** A corner of a centreline is rounded no further off it than this, mm: surveyors give points of a smooth road. */
const ROUNDED = 300;

/** Both ways along a road, those that traffic allows; `onto` is a point of the site, to tell left from right. */
export function lanesOf(road: RoadRecord, onto: Point): Lane[] {
  const line = road.centreline, at = nearestOnLine(line, onto), [a, b] = [line[at.segment]!, line[at.segment + 1]!];
  // To the left of someone at the nearest point of the road who looks onto the site.
  const leftward = (b[0] - a[0]) * -(onto[1] - at.point[1]) + (b[1] - a[1]) * (onto[0] - at.point[0]) > 0;
  const lanes: Lane[] = [];
  if (road.traffic !== "toward-left") lanes.push(laneAlong(road, leftward ? [...line].reverse() : line, "left"));
  if (road.traffic !== "toward-right") lanes.push(laneAlong(road, leftward ? line : [...line].reverse(), "right"));
  return lanes;
}

/** The ground of a road: a strip along every stretch, and the wedge outside every corner. */
export function groundOfRoad({ centreline, width }: RoadRecord): Point[][] {
  const line = extended(centreline), half = width / 2, out: Point[][] = [];
  for (let i = 1; i < line.length; i++) {
    const [a, b] = [line[i - 1]!, line[i]!], [nx, ny] = leftOf(a, b, half);
    out.push([[a[0] + nx, a[1] + ny], [a[0] - nx, a[1] - ny], [b[0] - nx, b[1] - ny], [b[0] + nx, b[1] + ny]]);
    const before = line[i - 2];
    if (!before) continue;
    const [mx, my] = leftOf(before, a, half), side = mx * ny - my * nx > 0 ? -1 : 1; // outside of the bend
    if (Math.abs(mx * ny - my * nx) > 1) out.push([a, [a[0] + side * mx, a[1] + side * my], [a[0] + side * nx, a[1] + side * ny]]);
  }
  return out;
}

/** The same road the other way, still named by the side one comes from on the lane itself: a way in is found by driving out. */
export function reverseLane(lane: Lane): Lane {
  const back = reversePath(makePath(lane.start, lane.pieces));
  return { ...lane, line: [...lane.line].reverse(), start: back.start, pieces: back.pieces };
}

const parallels = new WeakMap<Lane, Map<number, Path | null>>();

/**
 * The path beside a lane, `offset` mm to its left, its corners rounded as the lane's own are. Null where a stretch between two corners is too
 * short to be driven that far inside. Kept, as it is asked for over and over.
 */
export function offsetPath(lane: Lane, offset: number): Path | null {
  let kept = parallels.get(lane);
  if (!kept || kept.size > MOST_KEPT) parallels.set(lane, (kept = new Map<number, Path | null>()));
  let path = kept.get(offset);
  if (path === undefined) kept.set(offset, (path = parallelTo(lane, offset)));
  return path;
}

const MOST_KEPT = 200;

function parallelTo({ line }: Lane, offset: number): Path | null {
  const sides = line.slice(1).map((b, i) => leftOf(line[i]!, b, 1)), moved = line.map((p, i): Point => {
    const [ax, ay] = sides[Math.max(0, i - 1)]!, [bx, by] = sides[Math.min(sides.length - 1, i)]!, share = offset / Math.max(1e-9, 1 + ax * bx + ay * by);
    return [p[0] + (ax + bx) * share, p[1] + (ay + by) * share];
  });
  const turnedBack = moved.slice(1).some((b, i) => (b[0] - moved[i]![0]) * (line[i + 1]![0] - line[i]![0]) + (b[1] - moved[i]![1]) * (line[i + 1]![1] - line[i]![1]) <= 0);
  if (turnedBack) return null;
  const { start, pieces } = rounded(moved);
  return makePath(start, pieces);
}

/** Which way a lane leads where it is nearest to a point. */
export function headingNear({ start, pieces, road }: Lane, p: Point): Radians {
  const line = extended(road.centreline), { segment } = nearestOnLine(line, p), a = line[segment]!, b = line[segment + 1]!;
  const along = Math.atan2(b[1] - a[1], b[0] - a[0]);
  const forward = makePath(start, pieces), whole = forward.pointAt(forward.length).at, first = line[0]!;
  return (Math.hypot(whole[0] - first[0], whole[1] - first[1]) < Math.hypot(start.at[0] - first[0], start.at[1] - first[1]) ? along + Math.PI : along) as Radians;
}

/** Whether a point lies beyond the surveyed part of a road. */
export function isBeyond({ centreline }: RoadRecord, p: Point): boolean {
  const { segment, share } = nearestOnLine(extended(centreline), p);
  return (segment === 0 && share < 1) || (segment === centreline.length && share > 0);
}

function laneAlong(road: RoadRecord, line: readonly Point[], from: Side): Lane {
  const points = extended(line);
  return { road, from, line: points, ...rounded(points) };
}

/** Stretches and the arcs that round the corners between them. */
function rounded(points: readonly Point[]): Pick<Lane, "start" | "pieces"> {
  const pieces: Piece[] = [], headings = points.slice(1).map((b, i) => Math.atan2(b[1] - points[i]![1], b[0] - points[i]![0]));
  const lengths = points.slice(1).map((b, i) => Math.hypot(b[0] - points[i]![0], b[1] - points[i]![1]));
  let cut = 0; // taken off the beginning of the stretch by the corner before it
  lengths.forEach((length, i) => {
    const turn = i + 1 < lengths.length ? wrapped(headings[i + 1]! - headings[i]!) : 0, half = Math.tan(Math.abs(turn) / 2);
    const radius = half > 1e-9 ? Math.min(Math.min(length, lengths[i + 1]!) / 2 / half, ROUNDED / (1 / Math.cos(turn / 2) - 1)) : 0;
    const rest = length - cut - radius * half;
    if (rest > 1e-6) pieces.push(straight(rest));
    const curvature = (radius > 0 ? Math.sign(turn) / radius : 0) as Curvature;
    if (radius > 0) pieces.push({ length: (radius * Math.abs(turn)) as Piece["length"], from: curvature, to: curvature });
    cut = radius * half;
  });
  return { pieces, start: { at: sitePoint(points[0]![0], points[0]![1]), heading: headings[0]! as Radians } };
}

function extended(line: readonly Point[]): Point[] {
  const stretch = (end: Point, before: Point): Point => {
    const d = BEYOND / Math.hypot(end[0] - before[0], end[1] - before[1]);
    return [end[0] + (end[0] - before[0]) * d, end[1] + (end[1] - before[1]) * d];
  };
  const first = stretch(line[0]!, line[1]!), last = stretch(line.at(-1)!, line.at(-2)!);
  return [first, ...line, last];
}

function leftOf(a: Point, b: Point, by: number): Point {
  const long = Math.hypot(b[0] - a[0], b[1] - a[1]);
  return [(-(b[1] - a[1]) * by) / long, ((b[0] - a[0]) * by) / long];
}

function nearestOnLine(line: readonly Point[], p: Point): { segment: number; share: number; point: Point } {
  let best = { segment: 0, share: 0, point: line[0]! }, least = Infinity;
  for (let i = 1; i < line.length; i++) {
    const a = line[i - 1]!, b = line[i]!, q = nearestOnSegment(p, a, b), d = Math.hypot(p[0] - q[0], p[1] - q[1]);
    if (d < least) [best, least] = [{ segment: i - 1, share: Math.hypot(q[0] - a[0], q[1] - a[1]) / Math.hypot(b[0] - a[0], b[1] - a[1]), point: q }, d];
  }
  return best;
}
