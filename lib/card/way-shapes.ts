import { terrainOf, type Site } from "@/lib/park";
import { boundsOf, type Bounds, type Point } from "@/lib/plane";
import type { PlanShape } from "./plan-shapes";
import type { WayShown } from "./way";

/** A way onto a site as shapes, in the picture's own millimetres: the road at the bottom, x into the site upward. */
export interface WayPicture {
  readonly width: number;
  readonly height: number;
  /** What lies beneath comes first. */
  readonly shapes: readonly PlanShape[];
  /** The tightest place: on the rig, and on what it meets there. */
  readonly gap: readonly [Point, Point];
  /** A helper's places, numbered from 1 in the order in which they are stood on. */
  readonly posts: readonly Point[];
  /** Degrees to turn an arrow that points up the picture so that it points north; null where the bearing is not known. */
  readonly north: number | null;
}

const margin = 1500;
/** So many moments of each leg are drawn, beside where it ends. */
const moments = 3;
/** Lines of the hatch lie so far apart, as a share of the picture's longer side. */
const hatching = 1 / 75;

/** The way to scale: roads, pad and what stands there, the ground passed over as hatching, the rig at some moments of every leg and where it stands, the tightest place, a helper's places. */
export function drawWayPlan(site: Site, { legs, gap, spotting: { posts } }: WayShown): WayPicture {
  const { pad, barriers } = terrainOf(site), { road, exitRoad, driveable, heightLimits } = site.approach!;
  const swept = legs.flatMap((leg) => leg.swept);
  const bounds = boundsOf([...swept.flat(), ...pad.outline, ...posts.map(({ at }) => at)].map(upright));
  const [left, bottom] = [bounds.minX - margin, bounds.minY - margin], width = bounds.maxX + margin - left, height = bounds.maxY + margin - bottom;
  const onPicture = (p: Point): Point => { const [x, y] = upright(p); return [x - left, y - bottom]; };
  const outline = (of: Extract<PlanShape, { shape: "outline" }>["of"]) => (points: readonly Point[]): PlanShape => ({ shape: "outline", of, points: points.map(onPicture) });
  const pieces = swept.map((piece) => piece.map(onPicture)), stands = legs[0]!.frames.at(-1)!;
  const shapes: PlanShape[] = [
    ...[road, ...(exitRoad ? [exitRoad] : [])].map((one): PlanShape => ({ shape: "strip", of: "road", points: one.centreline.map(onPicture), width: one.width })),
    ...driveable.map(outline("apron")),
    outline("pad")(pad.outline),
    ...hatch(pieces, Math.max(width, height) * hatching).map((points): PlanShape => ({ shape: "line", of: "hatch", points })),
    ...barriers.flatMap(({ solids }) => solids.map(({ footprint, nature }): PlanShape => {
      const of = nature === "crown" || nature === "wire" ? "limb" as const : "obstacle" as const;
      return footprint.shape === "disc" ? { shape: "disc", of, at: onPicture([footprint.x, footprint.y]), radius: footprint.radius } : outline(of)(footprint.outline);
    })),
    ...heightLimits.map(({ across }): PlanShape => ({ shape: "line", of: "limit", points: across.map(onPicture) })),
    ...legs.flatMap(({ frames }) => spread(frames.slice(0, -1), moments).flatMap(({ bodies }) => bodies.map((body) => outline("moment")(body.outline)))),
    ...stands.bodies.map((body) => outline("body")(body.outline)),
  ];
  return { width, height, shapes, gap: [onPicture(gap.from), onPicture(gap.to)], posts: posts.map(({ at }) => onPicture(at)), north: site.place ? -site.place.bearing : null };
}

/** Into the picture: up is into the site, its left is the picture's left. */
function upright([x, y]: Point): Point {
  return [-y, -x];
}

/** The first and others evenly between. */
function spread<T>(all: readonly T[], most: number): T[] {
  const step = Math.max(1, all.length / most);
  return Array.from({ length: Math.min(most, all.length) }, (_, i) => all[Math.floor(i * step)]!);
}

/** Lines at 45 degrees, so far apart, where they lie on any of some convex pieces: each stretch once, however many pieces it crosses. */
export function hatch(pieces: readonly (readonly Point[])[], apart: number): [Point, Point][] {
  const onLine = new Map<number, [number, number][]>(), diagonal = apart * Math.SQRT2;
  for (const piece of pieces) {
    const { first, last } = crossed(boundsOf(piece), diagonal);
    for (let k = first; k <= last; k++) {
      const span = crossing(piece, k * diagonal);
      if (span) onLine.set(k, [...(onLine.get(k) ?? []), span]);
    }
  }
  return [...onLine].flatMap(([k, spans]) => joined(spans).map(([from, to]): [Point, Point] => [[from, k * diagonal - from], [to, k * diagonal - to]]));
}

/** Which of the lines x + y = k × diagonal may meet a box. */
function crossed({ minX, minY, maxX, maxY }: Bounds, diagonal: number): { first: number; last: number } {
  return { first: Math.ceil((minX + minY) / diagonal), last: Math.floor((maxX + maxY) / diagonal) };
}

/** From which x to which the line x + y = c lies in a convex piece; null where it misses. */
function crossing(piece: readonly Point[], c: number): [number, number] | null {
  const at = piece.flatMap(([ax, ay], i) => {
    const [bx, by] = piece[(i + 1) % piece.length]!, da = ax + ay - c, db = bx + by - c;
    return da * db > 0 || da === db ? [] : [ax + ((bx - ax) * da) / (da - db)];
  });
  return at.length < 2 ? null : [Math.min(...at), Math.max(...at)];
}

function joined(spans: readonly [number, number][]): [number, number][] {
  const out: [number, number][] = [];
  for (const [from, to] of [...spans].sort((a, b) => a[0] - b[0])) {
    const last = out.at(-1);
    if (last && from <= last[1]) last[1] = Math.max(last[1], to);
    else out.push([from, to]);
  }
  return out;
}
