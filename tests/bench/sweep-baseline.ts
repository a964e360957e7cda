import { Distance, type DistanceInput, type SimplexCache } from "planck";
import { keptClear, type Setting } from "@/lib/fit/constraints";
import { facing } from "@/lib/fit/frames";
import { offsetsOf } from "@/lib/fit/form";
import { runAt } from "@/lib/fit/landscapes";
import { needsOf, type Need, type With } from "@/lib/fit/needs";
import type { Heading } from "@/lib/fit/types";
import { contains, nearestOnOutline, type Box, type Point } from "@/lib/plane";
import type { Footprint } from "@/lib/park";

/** Between neighbouring poses, mm. */
export const STEP = 10;
/** No pose between the lattice's ends is further than this from a pose of the lattice, mm. */
export const GRAIN = (STEP * Math.SQRT2) / 2;

/** The most room found on the lattice; -1 where no pose holds. */
export interface Swept {
  poses: number;
  /** By the hard constraints of the must parts alone. */
  best: number;
  /** And with every need met, by own gear and by gear that may be brought. */
  readonly with: Record<With, number>;
}

/**
 * Every pose of a 10 mm lattice, as one writes it with a collision library: cheap tests first, bounding boxes before
 * exact distances (GJK with warm starts, from planck, the Box2D port), what failed last first, and no pose looked at
 * longer than it can still be better. Heights, clearances and usable hookups do not depend on the pose and are taken from the
 * engine; every distance is the library's. Nice parts and shortest runs, which the engine finds too, are left out.
 */
export function sweep(setting: Setting, headings: readonly Heading[]): Swept {
  const found: Swept = { poses: 0, best: -1, with: { own: -1, gear: -1 } };
  for (const heading of headings) sweepHeading(setting, heading, found);
  return found;
}

function sweepHeading(setting: Setting, heading: Heading, found: Swept): void {
  const { policy, terrain, form } = setting;
  if (!policy.overflow) throw new Error("the sweep knows parks with overflow parking only: no pose is asked to leave room for a vehicle in line");
  const xs = latticeAlong("x", setting, heading), ys = latticeAlong("y", setting, heading);
  if (xs.length === 0 || ys.length === 0) return;
  const needs = needsOf(terrain, form, policy, heading);
  const supports = supportOffsets(setting, heading);
  const cheap = cheapTests(setting, heading, supports);
  const gaps = gapsOf(setting, heading, supports);
  const { comfort } = policy;
  for (const x of xs) {
    for (const y of ys) {
      found.poses++;
      const own = found.with.own < comfort && served(needs, "own", x, y), gear = found.with.gear < comfort && served(needs, "gear", x, y);
      // Below this the pose improves on nothing.
      const beat = Math.min(found.best, own ? found.with.own : Infinity, gear ? found.with.gear : Infinity);
      let room = cheap(x, y, beat);
      for (let i = 0; i < gaps.length && room > beat; i++) {
        const gap = gapAt(gaps[i]!, x, y, room);
        if (gap >= room) continue;
        room = gap;
        if (room <= beat) gaps.unshift(...gaps.splice(i, 1));
      }
      if (room <= beat) continue;
      found.best = Math.max(found.best, room);
      if (own) found.with.own = Math.max(found.with.own, Math.min(room, comfort));
      if (gear) found.with.gear = Math.max(found.with.gear, Math.min(room, comfort));
    }
  }
}

function served(needs: readonly Need[], by: With, x: number, y: number): boolean {
  return runAt(x, y, { needs, by, inLine: [], touch: 0 }, 0) < Infinity;
}

function latticeAlong(axis: "x" | "y", setting: Setting, heading: Heading): number[] {
  const span = sweptSpan(axis, setting, heading);
  if (!span) return [];
  const [low, high] = span, steps = Math.max(1, Math.ceil((high - low) / STEP));
  return Array.from({ length: steps + 1 }, (_, i) => low + ((high - low) * i) / steps);
}

/** From where all supports could first stand within the pad's bounds to where they last could; null where nowhere. */
export function sweptSpan(axis: "x" | "y", { terrain: { pad: { bounds } }, form, policy }: Setting, heading: Heading): [number, number] | null {
  const offsets = form.rig.supports.map(({ at }) => facing(heading) * at[axis === "x" ? 0 : 1]);
  const [min, max] = axis === "x" ? [bounds.minX, bounds.maxX] : [bounds.minY, bounds.maxY];
  const low = min + policy.footing - Math.min(...offsets), high = max - policy.footing - Math.max(...offsets);
  return low > high ? null : [low, high];
}

function supportOffsets({ form }: Setting, heading: Heading): Point[] {
  const s = facing(heading);
  return form.rig.supports.map(({ at: [u, v] }): Point => [s * u, s * v]);
}

/** Roads, the pad under every support and a corner of every box inside the lot: no library is needed for points. */
function cheapTests({ terrain, form, policy }: Setting, heading: Heading, supports: readonly Point[]): (x: number, y: number, beat: number) => number {
  const boxes = form.boxes.filter((b) => b.need === "must").map((b) => offsetsOf(b, heading));
  const corners = boxes.flatMap(({ x0, x1, y0, y1 }): Point[] => [[x0, y0], [x1, y0], [x1, y1], [x0, y1]]);
  return (x, y, beat) => {
    let room = Infinity;
    for (const { a, b, d } of terrain.roads) {
      for (const [ox, oy] of corners) room = Math.min(room, a * (x + ox) + b * (y + oy) + d - policy.roadSetback);
    }
    for (let i = 0; i < supports.length && room > beat; i++) {
      const p: Point = [x + supports[i]![0], y + supports[i]![1]];
      const [ex, ey] = nearestOnOutline(p, terrain.pad.outline), depth = Math.hypot(p[0] - ex, p[1] - ey);
      room = Math.min(room, (contains(terrain.pad.outline, p) ? depth : -depth) - policy.footing);
    }
    if (terrain.lot && room > beat && !boxes.every(({ x0, y0 }) => contains(terrain.lot!.outline, [x + x0, y + y0]))) return -Infinity;
    return room;
  };
}

/** Something of the rig and something of the site that have to stay apart, ready for the library. */
interface Gap {
  readonly input: DistanceInput;
  readonly cache: SimplexCache;
  /** Around the one, as offsets from the pose, and around the other. */
  readonly mine: Box;
  readonly other: Box;
  /** To be taken off the distance: the radius of a disc and the clearance. */
  readonly less: number;
}

function gapsOf({ terrain, form, policy, rise }: Setting, heading: Heading, supports: readonly Point[]): Gap[] {
  const gaps: Gap[] = [];
  const setting = { policy, rise };
  for (const box of form.boxes) {
    if (box.need === "nice") continue;
    const offsets = offsetsOf(box, heading), corners = cornersOf(offsets);
    const { outline = [] } = terrain.lot ?? {};
    outline.forEach((p, i) => gaps.push(gapOf(corners, [p, outline[(i + 1) % outline.length]!], 0, 0)));
    if (box.id === "body") gaps.push(...terrain.site.hookups.map(({ at }) => gapOf(corners, [at], 0, 0)));
    for (const { solids } of terrain.barriers) {
      for (const solid of solids) {
        const keep = keptClear(setting, box, solid);
        if (keep !== null) gaps.push(...gapsTo(corners, solid.footprint, keep));
      }
    }
  }
  const ceiling = form.rig.body.floor + policy.headroom;
  const low = terrain.barriers.flatMap(({ solids }) => solids.filter((s) => s.nature !== "wheel-stop" && s.from < ceiling && s.to > 0));
  for (const solid of low) for (const p of supports) gaps.push(...gapsTo([p], solid.footprint, policy.clearance));
  return gaps;
}

function gapsTo(mine: readonly Point[], footprint: Footprint, keep: number): Gap[] {
  if (footprint.shape === "outline") return footprint.pieces.map((piece) => gapOf(mine, piece, 0, keep));
  return [gapOf(mine, [[footprint.x, footprint.y]], footprint.radius, keep)];
}

function gapOf(mine: readonly Point[], other: readonly Point[], radius: number, keep: number): Gap {
  const input = new Distance.Input();
  const vertices = (points: readonly Point[]) => points.map(([x, y]) => ({ x, y }));
  input.proxyA.setVertices(vertices(mine), mine.length, 0);
  input.proxyB.setVertices(vertices(other), other.length, 0);
  input.transformA.setIdentity();
  input.transformB.setIdentity();
  return { input, cache: new Distance.Cache(), mine: boundsAround(mine), other: boundsAround(other), less: radius + keep };
}

const output = new Distance.Output();

/** The room that a gap leaves at a pose; `enough` or more where the bounding boxes already leave that much. -1 where the two overlap. */
function gapAt({ input, cache, mine, other, less }: Gap, x: number, y: number, enough: number): number {
  const dx = Math.max(0, other.x0 - mine.x1 - x, mine.x0 + x - other.x1), dy = Math.max(0, other.y0 - mine.y1 - y, mine.y0 + y - other.y1);
  const need = enough + less;
  if (need > 0 && dx * dx + dy * dy >= need * need) return enough;
  input.transformA.p.x = x;
  input.transformA.p.y = y;
  Distance(output, cache, input);
  return output.distance > 0 ? output.distance - less : -1;
}

function cornersOf({ x0, x1, y0, y1 }: Box): Point[] {
  return [[x0, y0], [x1, y0], [x1, y1], [x0, y1]];
}

function boundsAround(points: readonly Point[]): Box {
  const xs = points.map(([x]) => x), ys = points.map(([, y]) => y);
  return { x0: Math.min(...xs), x1: Math.max(...xs), y0: Math.min(...ys), y1: Math.max(...ys) };
}
