import type { Point } from "@/lib/plane";
import { keyOf, pointAt, readAt, type Draft, type Path } from "./record";

/** What of a site can be laid hold of on its plan. */
export type ThingKind = "pad" | "lot" | "road-edge" | "exit-edge" | "road" | "exit-road" | "driveable" | "height-limit" | "obstacle" | "hookup" | "stall" | "spot-heights";

/** One thing with the points that give its place. */
export interface Thing {
  readonly kind: ThingKind;
  /** Where the thing is in the record. */
  readonly path: Path;
  /** Its points, in order. One for what stands at a place. */
  readonly handles: readonly Path[];
  /** A ring of corners, a line of points, or one place. Rings and lines of `free` length take more points and give them up. */
  readonly shape: "ring" | "line" | "place";
  readonly free: boolean;
  /** The fewest points it may have. */
  readonly fewest: number;
}

/** Everything on the plan, in the order in which it is listed: ground, roads, what stands about. */
export function thingsOf(draft: Draft): Thing[] {
  const { approach, obstacles, hookups, parking } = draft;
  const one = (kind: ThingKind, path: Path, points: Path, shape: "ring" | "line", free = true): Thing[] =>
    readAt(draft, points) === undefined ? [] : [{ kind, path, handles: pathsIn(draft, points), shape, free, fewest: shape === "ring" ? 3 : 2 }];
  const each = (list: readonly unknown[] | null | undefined, make: (i: number) => Thing[]) => (list ?? []).flatMap((_, i) => make(i));
  return [
    ...one("pad", ["pad"], ["pad", "outline"], "ring"),
    ...one("lot", ["lot"], ["lot", "outline"], "ring"),
    ...(readAt(draft, ["ground", "heights"]) === undefined ? [] : [{ kind: "spot-heights", path: ["ground", "heights"], handles: pathsIn(draft, ["ground", "heights"]), shape: "line", free: true, fewest: 3 } satisfies Thing]),
    ...one("road-edge", ["roadEdge"], ["roadEdge"], "line", false),
    ...one("exit-edge", ["exitEdge"], ["exitEdge"], "line", false),
    ...one("road", ["approach", "road"], ["approach", "road", "centreline"], "line"),
    ...one("exit-road", ["approach", "exitRoad"], ["approach", "exitRoad", "centreline"], "line"),
    ...each(approach?.driveable, (i) => one("driveable", ["approach", "driveable", i], ["approach", "driveable", i], "ring")),
    ...each(approach?.heightLimits, (i) => one("height-limit", ["approach", "heightLimits", i], ["approach", "heightLimits", i, "across"], "line", false)),
    ...each(obstacles, (i) => (readAt(draft, ["obstacles", i, "outline"]) === undefined ? place("obstacle", ["obstacles", i]) : one("obstacle", ["obstacles", i], ["obstacles", i, "outline"], "ring"))),
    ...each(hookups, (i) => place("hookup", ["hookups", i])),
    ...each(parking, (i) => one("stall", ["parking", i], ["parking", i, "outline"], "ring")),
  ];
}

/** The thing at a path, or the one whose field or point it is. */
export function thingAt(draft: Draft, path: Path): Thing | null {
  const found = thingsOf(draft).filter((thing) => keyOf(path.slice(0, thing.path.length)) === keyOf(thing.path));
  return found.sort((a, b) => b.path.length - a.path.length)[0] ?? null;
}

/** Where a thing's points lie, mm in the site frame. */
export function pointsOfThing(draft: Draft, thing: Thing): Point[] {
  return thing.handles.flatMap((path) => {
    const at = pointAt(draft, path);
    return at ? [at] : [];
  });
}

/** The list in which a ring's or a line's points stand. */
export function listOf(thing: Thing): Path {
  return thing.handles[0]!.slice(0, -1);
}

function place(kind: ThingKind, path: Path): Thing[] {
  return [{ kind, path, handles: [[...path, "at"]], shape: "place", free: false, fewest: 1 }];
}

function pathsIn(draft: Draft, points: Path): Path[] {
  const list = readAt(draft, points);
  return Array.isArray(list) ? list.map((_, i) => [...points, i]) : [];
}
