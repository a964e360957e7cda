import { boundsOf, type Point } from "@/lib/plane";
import { groundPlane } from "../ground";
import { pointAt, readAt, whole, writeAt, type Draft, type Path } from "./record";
import { listOf, pointsOfThing, type Thing } from "./things";

/** The record with one point somewhere else, to the whole millimetre; a spot height keeps its height. */
export function movePoint(draft: Draft, path: Path, [x, y]: Point): Draft {
  const held = readAt(draft, path);
  const height = Array.isArray(held) ? held.slice(2) : [];
  return writeAt(draft, path, [whole(x), whole(y), ...height]);
}

/** The record with all of a thing moved by so much, its shape kept. */
export function moveThing(draft: Draft, thing: Thing, [dx, dy]: Point): Draft {
  const by: Point = [whole(dx), whole(dy)];
  return thing.handles.reduce((moved, path) => {
    const at = pointAt(moved, path);
    return at ? movePoint(moved, path, [at[0] + by[0], at[1] + by[1]]) : moved;
  }, draft);
}

/**
 * The record with one more point behind the given one: half-way to the next, or, behind the last of a line, as far on again.
 * The same record where the thing takes no more.
 */
export function addPoint(draft: Draft, thing: Thing, behind: number): Draft {
  const points = pointsOfThing(draft, thing), from = points[behind];
  if (!thing.free || !from) return draft;
  const list = [...(readAt(draft, listOf(thing)) as readonly (readonly number[])[])];
  const next = points[thing.shape === "ring" ? (behind + 1) % points.length : behind + 1];
  const before = points[behind - 1] ?? from;
  const at = next ? [(from[0] + next[0]) / 2, (from[1] + next[1]) / 2] as const : [2 * from[0] - before[0], 2 * from[1] - before[1]] as const;
  const height = thing.kind === "spot-heights" ? [whole(((list[behind]?.[2] ?? 0) + (list[behind + 1]?.[2] ?? list[behind]?.[2] ?? 0)) / 2)] : [];
  list.splice(behind + 1, 0, [whole(at[0]), whole(at[1]), ...height]);
  return writeAt(draft, listOf(thing), list);
}

/** The record without one point; the same record where the thing needs them all. */
export function removePoint(draft: Draft, thing: Thing, index: number): Draft {
  if (!thing.free || thing.handles.length <= thing.fewest || !thing.handles[index]) return draft;
  return writeAt(draft, thing.handles[index], undefined);
}

/** The record without a thing; the same record where a site cannot be without it. */
export function removeThing(draft: Draft, thing: Thing): Draft {
  if (!canRemove(thing)) return draft;
  if (thing.kind === "spot-heights") return writeAt(draft, ["ground"], slopesOf(draft));
  return writeAt(draft, thing.kind === "road" ? ["approach"] : thing.path, undefined);
}

/** The slopes of the plane through the spot heights, in hundredths of a per cent; level where they give none. */
function slopesOf({ ground: { heights } }: Draft): { along: number; across: number } {
  const { alongGradient, acrossGradient } = groundPlane({ heights: heights ?? [] });
  const percent = (gradient: number) => (Number.isFinite(gradient) ? Math.round(gradient * 10_000) / 100 + 0 : 0);
  return { along: percent(alongGradient), across: percent(acrossGradient) };
}

/** A site has a pad. Without the road in front nothing is known of the way in, and all of it goes. */
export function canRemove({ kind }: Thing): boolean {
  return kind !== "pad";
}

/** What can be put on a plan. */
export const addable = ["tree", "post", "table", "fire-ring", "rock", "wire", "power", "water", "sewer", "rinse-water", "stall", "lot", "road-edge", "exit-edge", "spot-heights", "road", "exit-road", "driveable", "height-limit"] as const;
export type Addable = (typeof addable)[number];

/** Whether a site can have one more of these: there is one lot, one road edge; what lies at the far end only a pull-through has. */
export function canAdd(draft: Draft, what: Addable): boolean {
  switch (what) {
    case "lot": return !draft.lot;
    case "road-edge": return !draft.roadEdge;
    case "exit-edge": return draft.entry === "pull-through" && !draft.exitEdge;
    case "spot-heights": return !draft.ground.heights;
    case "road": return !draft.approach;
    case "exit-road": return draft.entry === "pull-through" && !!draft.approach && !draft.approach.exitRoad;
    case "driveable": case "height-limit": return !!draft.approach;
    default: return true;
  }
}

/** The record with one more thing of usual size at a place, and where it stands in the record. Its numbers wait to be measured. */
export function addThing(draft: Draft, what: Addable, at: Point): { readonly draft: Draft; readonly path: Path } {
  const [x, y] = [whole(at[0]), whole(at[1])] as const;
  const onto = (list: Path, item: object | readonly unknown[]) => {
    const index = ((readAt(draft, list) as unknown[] | undefined) ?? []).length;
    return { draft: writeAt(draft, [...list, index], item), path: [...list, index] };
  };
  const set = (path: Path, value: unknown, shown: Path = path) => ({ draft: writeAt(draft, path, value), path: shown });
  const id = freeId(draft, what);
  switch (what) {
    case "tree": return onto(["obstacles"], { id, kind: "tree", at: [x, y], trunkRadius: 200, crownRadius: 2000, crownFrom: 3000, crownTo: 9000 });
    case "post": return onto(["obstacles"], { id, kind: "post", at: [x, y], radius: 75, from: 0, to: 1200 });
    case "rock": return onto(["obstacles"], { id, kind: "rock", at: [x, y], radius: 400, from: 0, to: 500 });
    case "fire-ring": return onto(["obstacles"], { id, kind: "fire-ring", at: [x, y], radius: 450, from: 0, to: 300 });
    case "table": return onto(["obstacles"], { id, kind: "table", outline: box(x, y, 1800, 1500), from: 0, to: 760, removable: true });
    case "wire": return onto(["obstacles"], { id, kind: "wire", outline: box(x, y, 100, 10_000), from: 5500, to: 6000 });
    case "power": return onto(["hookups"], { id, kind: "power", at: [x, y], height: 900, receptacles: [30], volts: 120, postRadius: 100, postHeight: 1100 });
    case "water": return onto(["hookups"], { id, kind: "water", at: [x, y], height: 700, postRadius: 50, postHeight: 760 });
    case "rinse-water": return onto(["hookups"], { id, kind: "rinse-water", at: [x, y], height: 600, postRadius: 50, postHeight: 700 });
    case "sewer": return onto(["hookups"], { id, kind: "sewer", at: [x, y], height: 60 });
    case "stall": return onto(["parking"], { id, outline: box(x, y, 6000, 2700) });
    case "lot": return set(["lot"], { outline: around(draft, 2500) });
    case "road-edge": return set(["roadEdge"], [[0, -3000], [0, 3000]]);
    case "exit-edge": return set(["exitEdge"], endEdge(draft));
    case "spot-heights": return set(["ground"], { heights: flatHeights(draft) }, ["ground", "heights"]);
    case "road": return set(["approach"], { road: roadAlong([[-3000, -20_000], [-3000, 20_000]]), driveable: [], heightLimits: [], gradeBreaks: [] }, ["approach", "road"]);
    case "exit-road": return set(["approach", "exitRoad"], roadAlong(endEdge(draft).map(([ex, ey]) => [ex + 3000, 6 * ey])));
    case "driveable": return onto(["approach", "driveable"], box(x, y, 3000, 5000));
    case "height-limit": return onto(["approach", "heightLimits"], { id, kind: "wire", across: [[x, y - 5000], [x, y + 5000]] });
  }
}

/** "rock", then "rock-2": an id that nothing else on the site has. */
export function freeId(draft: Draft, word: string): string {
  const taken = new Set([...(draft.obstacles ?? []), ...(draft.hookups ?? []), ...(draft.parking ?? []), ...(draft.approach?.heightLimits ?? [])].map((thing) => thing?.id));
  for (let n = 1; ; n++) { // ends: a site holds fewer things than there are numbers
    const id = n === 1 ? word : `${word}-${n}`;
    if (!taken.has(id)) return id;
  }
}

function box(x: number, y: number, long: number, wide: number): Point[] {
  const a = whole(long / 2), b = whole(wide / 2);
  return [[x - a, y - b], [x + a, y - b], [x + a, y + b], [x - a, y + b]];
}

function around(draft: Draft, by: number): Point[] {
  const { minX, maxX, minY, maxY } = boundsOf(draft.pad.outline);
  return [[whole(minX), whole(minY - by)], [whole(maxX + by), whole(minY - by)], [whole(maxX + by), whole(maxY + by)], [whole(minX), whole(maxY + by)]];
}

function endEdge(draft: Draft): Point[] {
  const { maxX } = boundsOf(draft.pad.outline);
  return [[whole(maxX), -3000], [whole(maxX), 3000]];
}

/** Three corners of the pad and its middle line's end, all at the height that the present slopes give. */
function flatHeights(draft: Draft): [number, number, number][] {
  const { minX, maxX, minY, maxY } = boundsOf(draft.pad.outline), { along, across } = draft.ground;
  const corners: Point[] = [[minX, minY], [maxX, minY], [maxX, maxY], [minX, maxY]];
  return corners.map(([x, y]) => [whole(x), whole(y), whole((x * (along ?? 0) + y * (across ?? 0)) / 100)]);
}

function roadAlong(centreline: readonly (readonly [number, number])[]) {
  return { centreline, width: 5000, traffic: "both" as const };
}
