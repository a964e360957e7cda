import { enclosureOf, type Solid } from "@/lib/park";
import { contains, nearestOnOutline, sitePoint, type Point, type SitePoint } from "@/lib/plane";
import { bodySpeed, defaultTolerances, leastAlong, type Configuration, type Drive } from "@/lib/turning";
import { fastestPoints, judgeFor, outlineOf } from "./judge";
import { groundOfRoad } from "./road";
import { pointToRing } from "./separation";
import { fromTrain, hidingOf, viewOf, type Hiding, type View } from "./sight";
import type { Train } from "./train";
import type { Keep, Leg, Way } from "./types";
import type { WayGround } from "./way-ground";

/** Where a helper can stand while a stretch of a leg is driven. */
export interface Post {
  readonly leg: number;
  readonly at: SitePoint;
  /** The stretch over which the driver sees the helper, as driven: distances from where the leg begins, mm. */
  readonly span: readonly [number, number];
  /** Through what the driver sees the helper where the way is tightest, or at the nearest moment of the stretch. */
  readonly view: View;
  /** Proven distance to everything the rig passes over on this leg, mm. */
  readonly away: number;
  /** It lies in the road: somebody has to watch the traffic. */
  readonly onRoad: boolean;
}

/** Helpers along a way. */
export interface Spotting {
  /** In the order in which they are stood on. */
  readonly posts: readonly Post[];
  /** Stretches over which no helper can be seen from a safe place: two helpers, radios, or get out and look. As driven, by leg, mm. */
  readonly unseen: readonly { readonly leg: number; readonly span: readonly [number, number] }[];
}

/** A helper stays this far from all that the rig will pass over, mm. */
export const SAFE = 1500;
/** And further than this they are of no help, mm. */
const FARTHEST = 9000;
/** Places looked at, and moments at which they are, mm; of a leg at most so many moments. */
const GRID = 750, STRIDE = 900, MOMENTS = 40;
/** A fixed thing so near behind a helper leaves them no way back, within this angle of straight back; mm, radians. */
const TRAPPED = { within: 3000, angle: Math.PI / 4 } as const;
/** A person needs so much room, mm. */
const PERSON = 400;
/** Helpers move at most so often on a leg, and for no shorter stretch than this, mm. */
const MOVES = 1, WORTH_MOVING = 3000;
/** Places tried for each post before it is given up. */
const TRIES = 60;

/**
 * Posts for a helper along a way: in the driver's sight through a window or mirror past the rig as it is bent then, past trees and posts; at
 * least `SAFE` from everything the rig passes over on the leg, proven between the moments looked at; never with a fixed thing close
 * behind; on ground that is known (the lot, the pad, where wheels may roll). The place near the tightest spot that is seen longest,
 * and a second one where that leaves much of the leg unseen.
 */
export function placeSpotters(ground: WayGround, train: Train, way: Way, keep: Keep): Spotting {
  const hiding = hidingOf(train, ground.standing), posts: Post[] = [], unseen: Spotting["unseen"][number][] = [];
  way.legs.forEach((leg, i) => {
    const look = lookAt(ground, train, leg, keep, hiding), tightest = way.tightest.leg === i ? way.tightest.from : null;
    const found = postsFor(look, leg, i, tightest), covered = found.map(({ span }) => span).sort((a, b) => a[0] - b[0]);
    posts.push(...found.sort((a, b) => a.span[0] - b.span[0]));
    let from = 0;
    for (const span of [...covered, [leg.drive.reached, leg.drive.reached] as const]) {
      if (span[0] - from > STRIDE * 1.5) unseen.push({ leg: i, span: [from, span[0]] });
      from = Math.max(from, span[1]);
    }
  });
  return { posts, unseen };
}

/** A leg as it is looked at: its moments in the order driven, and the places that are safe over all of it. */
interface Look {
  readonly moments: readonly { readonly along: number; readonly c: Configuration }[];
  readonly places: readonly { readonly at: Point; readonly away: number; readonly seen: readonly (View | null)[] }[];
  readonly proven: (p: Point) => number;
  readonly onRoad: (p: Point) => boolean;
}

function lookAt(ground: WayGround, train: Train, { drive, kind }: Leg, keep: Keep, hiding: Hiding): Look {
  const n = Math.min(MOMENTS, Math.max(6, Math.ceil(drive.reached / STRIDE)));
  const moments = Array.from({ length: n + 1 }, (_, i) => {
    const along = (drive.reached * i) / n;
    return { along, c: drive.at(kind === "back" ? drive.reached - along : along) };
  });
  const away = (p: Point) => Math.min(...moments.map(({ c }) => fromTrain(train.boxes, c, p)));
  const { road, exitRoad } = ground.terrain.site.approach!, roads = [...groundOfRoad(road), ...(exitRoad ? groundOfRoad(exitRoad) : [])];
  const places = candidates(moments.map(({ c }) => c), ground).flatMap((at) => {
    const distance = away(at);
    if (distance < SAFE || distance > FARTHEST || !isFree(ground, at) || isTrapped(ground, train, moments, at)) return [];
    return [{ at, away: distance, seen: moments.map(({ c }) => viewOf(hiding, c, at)) }];
  });
  return { moments, places, proven: (p) => provenAway(ground, train, drive, keep, p), onRoad: (p) => roads.some((outline) => contains(outline, p)) };
}

function postsFor({ moments, places, proven, onRoad }: Look, { drive }: Leg, leg: number, tightest: Point | null): Post[] {
  const posts: Post[] = [], open = moments.map(() => true);
  const around = tightest ?? moments[Math.floor(moments.length / 2)]!.c.poses.at(-1)!.axle;
  for (let k = 0; k <= MOVES; k++) {
    const ranked = places.map((place) => ({ place, run: longestRun(place.seen, open) })).filter(({ run }) => run[1] > run[0])
      .map(({ place, run }) => ({ place, run, worth: lengthOf(moments, run) - NEAR * Math.hypot(place.at[0] - around[0], place.at[1] - around[1]) }))
      .sort((a, b) => b.worth - a.worth || a.place.at[0] - b.place.at[0] || a.place.at[1] - b.place.at[1]);
    const best = ranked.slice(0, TRIES).find(({ place }) => proven(place.at) >= SAFE);
    if (!best || (k > 0 && lengthOf(moments, best.run) < WORTH_MOVING)) break;
    const [from, to] = best.run, { at, seen } = best.place;
    for (let i = from; i <= to; i++) open[i] = false;
    const middle = nearestMoment(moments, from, to, around);
    posts.push({ leg, at: sitePoint(at[0], at[1]), span: [moments[from]!.along, Math.min(drive.reached, moments[to]!.along)], view: seen[middle]!, away: proven(at), onRoad: onRoad(at) });
  }
  return posts;
}

/** A metre nearer to the tightest place is worth as many metres more of being seen, times this. */
const NEAR = 1;

/** The longest run of moments, not yet covered, over which a place is seen. */
function longestRun(seen: readonly (View | null)[], open: readonly boolean[]): [number, number] {
  let best: [number, number] = [0, 0], from = -1;
  seen.forEach((view, i) => {
    if (view === null || !open[i]) from = -1;
    else {
      if (from < 0) from = i;
      if (i - from > best[1] - best[0]) best = [from, i];
    }
  });
  return best;
}

function lengthOf(moments: Look["moments"], [from, to]: readonly [number, number]): number {
  return moments[to]!.along - moments[from]!.along;
}

function nearestMoment(moments: Look["moments"], from: number, to: number, p: Point): number {
  let best = from, least = Infinity;
  for (let i = from; i <= to; i++) {
    const [x, y] = moments[i]!.c.poses.at(-1)!.axle, d = Math.hypot(x - p[0], y - p[1]);
    if (d < least) [best, least] = [i, d];
  }
  return best;
}

function candidates(moments: readonly Configuration[], { surface, terrain: { site } }: WayGround): Point[] {
  const axles = moments.flatMap(({ poses }) => poses.map(({ axle }) => axle)), xs = axles.map(([x]) => x), ys = axles.map(([, y]) => y), out: Point[] = [];
  const lot = site.lot ? enclosureOf(site.lot.outline) : null;
  const inLot = (x: number, y: number) => lot !== null && lot.edges.every(({ a, b, d }) => a * x + b * y + d >= 0) && lot.pockets.every((pocket) => pointToRing(pocket, x, y) > 0);
  const snap = (v: number) => Math.round(v / GRID) * GRID;
  for (let x = snap(Math.min(...xs) - FARTHEST); x <= Math.max(...xs) + FARTHEST; x += GRID) {
    for (let y = snap(Math.min(...ys) - FARTHEST); y <= Math.max(...ys) + FARTHEST; y += GRID) if (surface.depth(x, y) >= 0 || inLot(x, y)) out.push([x, y]);
  }
  return out;
}

/** What a person cannot stand in or be pressed against: whatever stands on the ground. */
function bars({ from, nature }: Solid): boolean {
  return from < 1900 && nature !== "wire" && nature !== "wheel-stop";
}

function isFree({ standing }: WayGround, p: Point): boolean {
  return standing.every(({ solid }) => !bars(solid) || toSolid(solid, p).distance >= PERSON);
}

/** Between the rig, at some moment at which it is near or at the nearest, and a fixed thing. */
function isTrapped({ standing }: WayGround, train: Train, moments: Look["moments"], p: Point): boolean {
  const behind = standing.flatMap(({ solid }) => {
    if (!bars(solid)) return [];
    const { distance, toward } = toSolid(solid, p), wide = Math.asin(Math.min(1, solid.footprint.radius / Math.max(1, gap(p, [solid.footprint.x, solid.footprint.y]))));
    return distance < TRAPPED.within ? [{ toward, within: TRAPPED.angle + wide }] : [];
  });
  if (behind.length === 0) return false;
  const rigs = moments.map(({ c }) => nearestOfTrain(train, c, p)), least = Math.min(...rigs.map((q) => gap(q, p)));
  return rigs.some((q) => {
    const away = gap(q, p), back = Math.atan2(p[1] - q[1], p[0] - q[0]);
    return (away < TRAPPED.within || away === least) && behind.some(({ toward, within }) => Math.abs(Math.atan2(Math.sin(toward - back), Math.cos(toward - back))) < within);
  });
}

function nearestOfTrain({ boxes }: Train, { poses }: Configuration, p: Point): Point {
  return poses.flatMap((pose, i) => boxes[i]!.map((box) => nearestOnOutline(p, outlineOf(pose, box)))).reduce((best, q) => (gap(q, p) < gap(best, p) ? q : best));
}

function gap(a: Point, b: Point): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1]);
}

function toSolid({ footprint: f }: Solid, [x, y]: Point): { distance: number; toward: number } {
  const distance = f.shape === "disc" ? Math.hypot(x - f.x, y - f.y) - f.radius : Math.min(...f.pieces.map((piece) => pointToRing(piece, x, y)));
  return { distance, toward: Math.atan2(f.y - y, f.x - x) };
}

/** How near the train is proven to come to a point over a whole leg. */
function provenAway(ground: WayGround, train: Train, drive: Drive, keep: Keep, p: Point): number {
  const judge = judgeFor(train, ground, keep), speed = Math.max(...train.boxes.map((_, body) => bodySpeed(drive, body, fastestPoints(judge, body))));
  return leastAlong(drive, (c) => fromTrain(train.boxes, c, p), speed, { ...defaultTolerances, distance: 50 as never }).bound;
}
