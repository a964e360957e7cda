import { keptFrom, type RoadRecord } from "@/lib/park";
import { boundsOf, type Bounds, type Point } from "@/lib/plane";
import type { Judge } from "./judge";
import { pointToRing } from "./separation";
import type { Barred, ParkedPose } from "./types";
import type { WayGround } from "./way-ground";

/** Side of the squares the ground is looked at in, mm: what is short by less than a square's diagonal is not noticed. */
const CELL = 150;
/** How far around pad and mouth is looked, mm; whatever leads further out counts as led to the road. */
const AROUND = 8000;
/** Things taken away one by one to see which of them bars the way. */
const MOST_THINGS = 12;

/**
 * Whether no way can lead to any of the poses, whatever is driven, shuffling included: a condition that every way has to meet, and that fails.
 *
 * Watch the middle of the rig's own axles, a point of its body. (1) Across from each other, half a diagonal of the axle group away, stand two tires,
 * each `footing` inside driveable ground. So in some direction both points so far off are; depth changes by no more than a point moves, and directions
 * between those that are looked at are allowed for. (2) A disc about it, as wide as the body or as its shorter end is long, lies within the body and has to stay clear of
 * everything that reaches into the body's heights: so it cannot pass a gap narrower than the body, nor under anything too low, whichever
 * way it faces. From the road to the pose the point draws an unbroken line through places where both hold. The ground is cut into squares; one is
 * kept wherever both could hold somewhere in it (the middle's value plus half a diagonal), and neighbours count over corners too. If the kept squares do
 * not connect the pose with the outside, no unbroken line does. What the condition leaves out (lengths, the other axles, turning circles) can only make it
 * harder, so nothing follows where it holds. A turning circle bars nothing for sure, as one can shuffle.
 */
export function findBarred(judge: Judge, ground: WayGround, poses: readonly ParkedPose[]): Barred | null {
  const all = obstructionsOf(judge, ground), grid = gridOf(judge, ground);
  const axles = poses.map((pose): Point => [pose.x + (pose.heading === "tail-in" ? -1 : 1) * judge.train.rigAxle, pose.y]);
  if (axles.some(([x, y]) => leadsOut(grid, all, grid.indexOf(x, y)))) return null;
  const reached = floodFrom(grid, all), isReached = (flood: Flood) => axles.some(([x, y]) => flood.holds(x, y));
  const scope = reached.anyPlace() ? "poses" : "pad", met = [...reached.stoppedBy].slice(0, MOST_THINGS);
  const without = (ids: readonly string[]) => isReached(floodFrom(grid, all.filter(({ id }) => !ids.includes(id))));
  const alone = met.filter((id) => without([id]));
  if (alone.length > 0) {
    const overhead = alone.filter((id) => all.some((o) => o.id === id && o.from > 0));
    return overhead.length > 0 ? { code: "barred-overhead", things: overhead, scope } : { code: "barred-between", things: alone, scope };
  }
  return without(all.map(({ id }) => id)) ? { code: "barred-between", things: met, scope } : { code: "no-ground", things: [], scope };
}

/** Something that the disc has to keep from. */
interface Obstruction {
  readonly id: string;
  readonly from: number;
  /** From a point, less what has to be kept; the disc's radius not included. */
  readonly room: (x: number, y: number) => number;
}

function obstructionsOf({ train, keep }: Judge, { standing }: WayGround): Obstruction[] {
  const body = train.boxes[train.rigBody]![0]!;
  return standing.flatMap(({ id, solid }) => {
    const clearance = keptFrom(solid, body, keep, 0), { footprint: f } = solid;
    if (clearance === null) return [];
    const room = f.shape === "disc" ? (x: number, y: number) => Math.hypot(x - f.x, y - f.y) - f.radius : (x: number, y: number) => Math.hypot(x - f.x, y - f.y) - f.radius > AROUND ? Infinity : Math.min(...f.pieces.map((p) => pointToRing(p, x, y)));
    return [{ id, from: solid.from, room: (x, y) => room(x, y) - clearance }];
  });
}

interface Flood {
  readonly holds: (x: number, y: number) => boolean;
  readonly anyPlace: () => boolean;
  /** What stood in the way where the flood ended. */
  readonly stoppedBy: ReadonlySet<string>;
}

/** The ground in squares, and what of them does not depend on what stands about. */
interface Grid {
  readonly columns: number;
  readonly rows: number;
  readonly at: (i: number) => Point;
  readonly indexOf: (x: number, y: number) => number | null;
  /** Where every way comes from. */
  readonly isOutside: (i: number) => boolean;
  readonly isGround: (i: number) => boolean;
  /** The axle's middle could be here with all that the rig stands on within the pad's bounds. */
  readonly isPlace: (i: number) => boolean;
  /** The radius of the disc within the body, less what rounding to squares and the touch allow. */
  readonly disc: number;
}

function gridOf({ train, surface, keep }: Judge, { terrain: { site } }: WayGround): Grid {
  const all = looked(site), columns = Math.ceil((all.maxX - all.minX) / CELL), rows = Math.ceil((all.maxY - all.minY) / CELL), half = CELL * Math.SQRT1_2;
  // About the middle, so that a mirrored site is cut into mirrored squares.
  const minX = (all.minX + all.maxX - columns * CELL) / 2, minY = (all.minY + all.maxY - rows * CELL) / 2;
  const at = (i: number): Point => [minX + ((i % columns) + 0.5) * CELL, minY + (Math.floor(i / columns) + 0.5) * CELL];
  const { combination, boxes, rigBody } = train, box = boxes[rigBody]![0]!, own = rigBody === 0 ? combination.vehicle : combination.units[0]!;
  const reach = Math.hypot(own.track, own.axleSpread) / 2, known = new Int8Array(columns * rows), places = placesOn(site, train, keep);
  const least = keep.footing - keep.touch - half - reach * Math.sin(Math.PI / DIRECTIONS / 2), sides = Array.from({ length: DIRECTIONS }, (_, k) => [reach * Math.cos((Math.PI * k) / DIRECTIONS), reach * Math.sin((Math.PI * k) / DIRECTIONS)] as const);
  const stands = ([x, y]: Point) => surface.depth(x, y) >= least + reach || sides.some(([dx, dy]) => surface.depth(x + dx, y + dy) >= least && surface.depth(x - dx, y - dy) >= least);
  const edge = (i: number) => i % columns === 0 || i % columns === columns - 1 || i < columns || i >= columns * (rows - 1);
  const roads = [site.approach!.road, ...(site.approach!.exitRoad ? [site.approach!.exitRoad] : [])];
  return {
    columns, rows, at,
    indexOf: (x, y) => (x < minX || y < minY || x >= minX + columns * CELL || y >= minY + rows * CELL ? null : Math.floor((y - minY) / CELL) * columns + Math.floor((x - minX) / CELL)),
    isOutside: (i) => edge(i) || roads.some((road) => leadsOn(road, at(i))),
    isGround: (i) => (known[i] ||= stands(at(i)) ? 1 : -1) === 1,
    isPlace: (i) => places.some(({ minX, maxX, minY, maxY }) => at(i)[0] >= minX - half && at(i)[0] <= maxX + half && at(i)[1] >= minY - half && at(i)[1] <= maxY + half),
    disc: Math.max(0, Math.min(box.halfWidth, box.u1, -box.u0)) - half - keep.touch,
  };
}

/**
 * Where the axle's middle may be, facing the road or away from it, with everything the rig stands on within the bounds of the pad and, where
 * the road's edge lies square to the line that rigs stand along, its body behind that edge. Either may be empty.
 */
function placesOn({ pad, roadEdge: [a, b] = [[0, 0], [0, 1]] }: Site, { footprint: { ahead, behind, left, right }, boxes, rigBody }: Judge["train"], { footing, touch }: Judge["keep"]): Bounds[] {
  const { minX, minY, maxX, maxY } = boundsOf(pad.outline), inset = footing - touch, { u0, u1 } = boxes[rigBody]![0]!, road = a[0] === b[0] ? a[0] - touch : -Infinity;
  return ([[ahead, behind, left, right, u1], [behind, ahead, right, left, -u0]] as const).map(([near, far, high, low, body]) => ({
    minX: Math.max(minX + inset + near, road + body), maxX: maxX - inset - far, minY: minY + inset + low, maxY: maxY - inset - high,
  }));
}

/** Directions in which an axle is looked at; between two of them its ends move no further than is allowed for. */
const DIRECTIONS = 16;

/** Whether a line of free squares leads from one to the outside: the same as a flood from there would find, and soon found where it is so. */
function leadsOut(grid: Grid, obstructions: readonly Obstruction[], from: number | null): boolean {
  if (from === null) return true;
  const seen = new Uint8Array(grid.columns * grid.rows), open: number[] = [];
  const isFree = (i: number) => grid.isGround(i) && obstructions.every((o) => o.room(...grid.at(i)) >= grid.disc);
  const visit = (i: number) => {
    if (seen[i] === 1) return;
    seen[i] = 1;
    if (isFree(i)) open.push(i);
  };
  visit(from);
  while (open.length > 0) {
    const i = open.pop()!;
    if (grid.isOutside(i)) return true;
    forNeighbours(grid, i, visit);
  }
  return false;
}

function forNeighbours({ columns, rows }: Grid, i: number, visit: (i: number) => void): void {
  const c = i % columns, r = Math.floor(i / columns);
  for (let dr = -1; dr <= 1; dr++) for (let dc = -1; dc <= 1; dc++) if (c + dc >= 0 && c + dc < columns && r + dr >= 0 && r + dr < rows) visit(i + dr * columns + dc);
}

function floodFrom(grid: Grid, obstructions: readonly Obstruction[]): Flood {
  const { columns, rows, at, disc } = grid, state = new Uint8Array(columns * rows), stoppedBy = new Set<string>(), open: number[] = [];
  const visit = (i: number) => {
    if (state[i] !== UNSEEN) return;
    const bar = grid.isGround(i) ? obstructions.find((o) => o.room(...at(i)) < disc)?.id : "";
    state[i] = bar === undefined ? REACHED : BARRED;
    if (bar === undefined) open.push(i);
    else if (bar !== "") stoppedBy.add(bar);
  };
  for (let i = 0; i < columns * rows; i++) if (grid.isOutside(i)) visit(i);
  while (open.length > 0) forNeighbours(grid, open.pop()!, visit);
  const holds = (x: number, y: number) => {
    const i = grid.indexOf(x, y);
    return i === null || state[i] === REACHED;
  };
  return { holds, anyPlace: () => state.some((s, i) => s === REACHED && grid.isPlace(i)), stoppedBy };
}

const UNSEEN = 0, REACHED = 1, BARRED = 2;

type Site = WayGround["terrain"]["site"];

/** Ground where a road goes on beyond its survey. */
function leadsOn({ centreline, width }: RoadRecord, [x, y]: Point): boolean {
  return ([[0, 1], [centreline.length - 1, centreline.length - 2]] as const).some(([last, before]) => {
    const end = centreline[last]!, dx = end[0] - centreline[before]![0], dy = end[1] - centreline[before]![1], long = Math.hypot(dx, dy);
    const along = ((x - end[0]) * dx + (y - end[1]) * dy) / long, aside = ((x - end[0]) * dy - (y - end[1]) * dx) / long;
    return along > -CELL && Math.abs(aside) < width;
  });
}

function looked({ pad, approach }: Site): Bounds {
  const { minX, minY, maxX, maxY } = boundsOf([...pad.outline, ...approach!.driveable.flat()]);
  return { minX: minX - AROUND, minY: minY - AROUND, maxX: maxX + AROUND, maxY: maxY + AROUND };
}
