import { elementAt, greatestIn, ringSeenByBox, type Bounds, type Box, type Element, type Point } from "@/lib/plane";
import { keptFrom, type Barrier, type Edge, type Enclosure, type Footprint, type Solid, type Terrain } from "@/lib/park";
import type { RigBox } from "@/lib/rig";
import { facing } from "./frames";
import { offsetsOf, type RigForm } from "./form";
import type { Policy } from "./policy";
import type { Heading } from "./types";

/**
 * A hard constraint as the least of elements over pose positions (x, y) at one heading: it holds where the least is
 * not negative. `covered` elements can never be the least as long as every constraint is in force (a tyre under the
 * body keeps further from a trunk than the body does); they count again where constraints are looked at singly.
 */
export interface Constraint {
  readonly id: string;
  readonly kind: "stand" | "road" | "lot" | "clear";
  /** The box's id, "supports", or "rig" where the must parts together are meant. */
  readonly part: string;
  /** The id of the obstacle or hookup; "pad", "road" or "lot" for the other kinds. */
  readonly other: string;
  readonly elements: readonly Element[];
  readonly covered: readonly Element[];
}

/** The hard constraints of one rig on one site at one heading, sorted by what brings them into force. */
export interface ConstraintSet {
  readonly heading: Heading;
  /** Whatever parts are out: supports, hookups under the body. */
  readonly always: readonly Constraint[];
  /** By box id: what is in force with that box. For `road` of the must parts see `road`. */
  readonly byBox: ReadonlyMap<string, readonly Constraint[]>;
  readonly road: Constraint;
}

export interface Setting {
  readonly terrain: Terrain;
  readonly form: RigForm;
  readonly policy: Policy;
  /** The lift that levelling asks for, side plus along (mm): any end may rise by as much. */
  readonly rise: number;
  /** The stall that takes a vehicle which stays on the site, or null. */
  readonly stall: string | null;
}

export function constraintsOf(setting: Setting, heading: Heading, domain: Bounds): ConstraintSet {
  const { terrain, form, policy } = setting;
  const must = form.boxes.filter((b) => b.need === "must");
  const stand = standing(setting, heading);
  const near = nearness(stand, domain);
  const byBox = new Map<string, Constraint[]>();
  for (const box of form.boxes) byBox.set(box.id, ofBox(setting, box, heading, near));
  const body = form.boxes[0]!;
  return {
    heading,
    road: { id: "road", kind: "road", part: "rig", other: "road", elements: onSiteSide(terrain.roads, must.map((b) => offsetsOf(b, heading)), policy.roadSetback), covered: [] },
    byBox,
    always: [
      stand,
      ...terrain.barriers.flatMap((barrier) => supportsClear(setting, barrier, heading, near)),
      ...terrain.site.hookups.map((hookup) => reachable(setting, body, hookup, heading, near)),
    ],
  };
}

/** The constraints in force with the must parts and the named nice ones out. */
export function inForce(set: ConstraintSet, form: RigForm, nice: ReadonlySet<string>): Constraint[] {
  const boxes = form.boxes.filter((b) => b.need === "must" || nice.has(b.id));
  return [...set.always, set.road, ...boxes.flatMap((b) => set.byBox.get(b.id) ?? [])];
}

/** The slack of one constraint at a position, mm. */
export function slackAt({ elements, covered }: Constraint, x: number, y: number): number {
  return Math.min(leastOf(elements, x, y), leastOf(covered, x, y));
}

/** The least of some elements at a position; Infinity of none. */
export function leastOf(elements: readonly Element[], x: number, y: number): number {
  let least = Infinity;
  for (const e of elements) least = Math.min(least, elementAt(e, x, y));
  return least;
}

/** Elements for all of the constraints together, with parallel edges reduced to the one that binds. */
export function leanElements(constraints: readonly Constraint[]): Element[] {
  const out: Element[] = [];
  let halves = 0; // at the beginning of the list
  for (const { elements } of constraints) {
    for (const e of elements) {
      if (e.shape !== "half") {
        out.push(e);
        continue;
      }
      let twin = 0;
      while (twin < halves && !parallel(out[twin]!, e)) twin++;
      if (twin < halves) {
        if (e.d < (out[twin] as typeof e).d) out[twin] = e;
      } else {
        if (halves < out.length) out.push(out[halves]!);
        out[halves++] = e;
      }
    }
  }
  return out;
}

function parallel(e: Element, { a, b }: Extract<Element, { shape: "half" }>): boolean {
  return e.shape === "half" && e.a === a && e.b === b;
}

/** Whether a footprint could come so near a box, at some position of the domain, that its slack mattered. */
type Near = (footprint: Footprint, box: Box, keep: number) => boolean;

/**
 * No pose of the domain has more room than `stand` allows there. What stays further off than that at every position
 * never is the least slack, so it need not be measured at all: most trees of a wooded site are such.
 */
function nearness(stand: Constraint, { minX, maxX, minY, maxY }: Bounds): Near {
  const cell = { cx: (minX + maxX) / 2, cy: (minY + maxY) / 2, hx: (maxX - minX) / 2, hy: (maxY - minY) / 2 };
  const most = stand.elements.reduce((least, e) => Math.min(least, greatestIn(e, cell)), Infinity);
  return ({ x, y, radius }, { x0, x1, y0, y1 }, keep) => {
    const dx = Math.max(0, minX + x0 - x, x - maxX - x1), dy = Math.max(0, minY + y0 - y, y - maxY - y1);
    return Math.sqrt(dx * dx + dy * dy) - radius - keep <= most;
  };
}

function ofBox(setting: Setting, box: RigBox, heading: Heading, near: Near): Constraint[] {
  const { terrain, policy } = setting;
  const offsets = offsetsOf(box, heading);
  const out: Constraint[] = [];
  if (box.need === "nice") out.push({ id: `road:${box.id}`, kind: "road", part: box.id, other: "road", elements: onSiteSide(terrain.roads, [offsets], policy.roadSetback), covered: [] });
  if (terrain.lot) out.push({ id: `lot:${box.id}`, kind: "lot", part: box.id, other: "lot", elements: within(terrain.lot, [offsets], 0), covered: [] });
  for (const barrier of terrain.barriers) {
    // The body against a hookup's post is part of `clear:body:<hookup>`, which is always in force.
    if (box.id === "body" && terrain.site.hookups.some((h) => h.id === barrier.id)) continue;
    const elements: Element[] = [];
    addClear(elements, setting, box, offsets, barrier, near);
    if (elements.length > 0) out.push({ id: `clear:${box.id}:${barrier.id}`, kind: "clear", part: box.id, other: barrier.id, elements, covered: [] });
  }
  return out;
}

function standing({ terrain, form, policy }: Setting, heading: Heading): Constraint {
  const s = facing(heading);
  const points = form.rig.supports.map(({ at: [u, v] }): Box => ({ x0: s * u, x1: s * u, y0: s * v, y1: s * v }));
  return { id: "stand", kind: "stand", part: "supports", other: "pad", elements: within(terrain.pad, points, policy.footing), covered: [] };
}

/** For every hookup: not under the body, and its post clear of the body where their heights overlap. */
function reachable(setting: Setting, body: RigBox, hookup: Terrain["site"]["hookups"][number], heading: Heading, near: Near): Constraint {
  const offsets = offsetsOf(body, heading);
  const post = setting.terrain.barriers.find((b) => b.id === hookup.id);
  const point: Footprint = { shape: "disc", x: hookup.at[0], y: hookup.at[1], radius: 0 };
  const elements = apart(point, offsets, 0);
  if (post) addClear(elements, setting, body, offsets, post, near);
  return { id: `clear:body:${hookup.id}`, kind: "clear", part: "body", other: hookup.id, elements, covered: [] };
}

function addClear(elements: Element[], setting: Setting, box: RigBox, offsets: Box, barrier: Barrier, near: Near): void {
  for (const solid of barrier.solids) {
    const keep = keptClear(setting, box, solid);
    if (keep !== null && near(solid.footprint, offsets, keep)) elements.push(...apart(solid.footprint, offsets, keep));
  }
}

/** The clearance a box keeps from a solid, or null where their heights do not overlap (touching is no overlap). */
export function keptClear({ policy, rise }: Pick<Setting, "policy" | "rise">, box: Pick<RigBox, "kind" | "from" | "to">, solid: Solid): number | null {
  // A fire's heat has no ceiling, and an awning burns.
  const fire = solid.nature === "fire-ring" && box.kind === "awning";
  const kept = keptFrom(fire ? { ...solid, to: Infinity } : solid, box, policy, rise);
  return fire && kept !== null ? policy.fireClearance : kept;
}

function supportsClear(setting: Setting, barrier: Barrier, heading: Heading, near: Near): Constraint[] {
  const { form, policy } = setting;
  const s = facing(heading);
  const elements: Element[] = [], covered: Element[] = [];
  const ceiling = form.rig.body.floor + policy.headroom;
  for (const solid of barrier.solids) {
    if (solid.nature === "wheel-stop" || solid.from >= ceiling || solid.to <= 0) continue;
    let roofs: RigBox[] | null = null;
    for (const { at: [u, v] } of form.rig.supports) {
      const at: Box = { x0: s * u, x1: s * u, y0: s * v, y1: s * v };
      if (!near(solid.footprint, at, policy.clearance)) continue;
      roofs ??= form.boxes.filter((b) => b.need === "must" && (keptClear(setting, b, solid) ?? -1) >= policy.clearance);
      const under = roofs.some((b) => b.u0 <= u && u <= b.u1 && b.v0 <= v && v <= b.v1);
      (under ? covered : elements).push(...apart(solid.footprint, at, policy.clearance));
    }
  }
  return elements.length + covered.length === 0 ? [] : [{ id: `clear:supports:${barrier.id}`, kind: "clear", part: "supports", other: barrier.id, elements, covered }];
}

/** All of the boxes on the positive side of each edge, by at least `keep`: the corner that lies lowest decides. */
export function onSiteSide(edges: readonly Edge[], boxes: readonly Box[], keep: number): Element[] {
  return edges.map(({ a, b, d }) => {
    let lowest = Infinity;
    for (const { x0, x1, y0, y1 } of boxes) lowest = Math.min(lowest, Math.min(a * x0, a * x1) + Math.min(b * y0, b * y1));
    return { shape: "half", a, b, d: d + lowest - keep };
  });
}

/** All of the boxes inside the enclosure by at least `keep`: within its hull and clear of its pockets. */
export function within(enclosure: Enclosure, boxes: readonly Box[], keep: number): Element[] {
  const pockets = enclosure.pockets.flatMap((pocket) => boxes.map((box) => pieceApart(pocket, box, keep)));
  return [...onSiteSide(enclosure.edges, boxes, keep), ...pockets];
}

/** The box and the footprint at least `keep` apart in plan. */
export function apart(footprint: Footprint, box: Box, keep: number): Element[] {
  if (footprint.shape === "outline") return footprint.pieces.map((piece) => pieceApart(piece, box, keep));
  const { x, y, radius } = footprint;
  return [{
    shape: "box",
    x: x - (box.x0 + box.x1) / 2, y: y - (box.y0 + box.y1) / 2,
    ax: (box.x1 - box.x0) / 2, ay: (box.y1 - box.y0) / 2,
    r: radius + keep,
  }];
}

function pieceApart(piece: readonly Point[], box: Box, keep: number): Element {
  const upright = uprightBox(piece);
  if (!upright) return { shape: "convex", ring: ringSeenByBox(piece, box.x0, box.x1, box.y0, box.y1), r: keep };
  return {
    shape: "box",
    x: (upright.x0 + upright.x1 - box.x0 - box.x1) / 2, y: (upright.y0 + upright.y1 - box.y0 - box.y1) / 2,
    ax: (upright.x1 - upright.x0 + box.x1 - box.x0) / 2, ay: (upright.y1 - upright.y0 + box.y1 - box.y0) / 2,
    r: keep,
  };
}

/** A piece that is itself a box along the axes, which most tables, fences and pads are. */
function uprightBox(piece: readonly Point[]): Box | null {
  if (piece.length !== 4) return null;
  for (let i = 0; i < 4; i++) {
    const p = piece[i]!, q = piece[(i + 1) % 4]!;
    if (p[0] !== q[0] && p[1] !== q[1]) return null;
  }
  const [a, , c] = piece as readonly [Point, Point, Point, Point];
  return { x0: Math.min(a[0], c[0]), x1: Math.max(a[0], c[0]), y0: Math.min(a[1], c[1]), y1: Math.max(a[1], c[1]) };
}
