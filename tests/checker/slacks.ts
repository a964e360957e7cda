import type { Site } from "@/lib/park/schema";
import type { Rig } from "@/lib/rig/schema";
import type { Policy } from "@/lib/fit/policy";
import type { Pose } from "@/lib/fit/types";
import { centreOfArea, corners, depthInOutline, pointToRect, rectInsideOutline, rectToDisc, rectToOutline, type P, type Rect } from "./geometry";
import { liftAsked } from "./ground";
import { at, footprint, solidsInForce, type Solid } from "./solids";

export interface Slack {
  readonly id: string;
  readonly slack: number;
}

/** One solid of something that stands on the site: a disc or a polygon between two heights. */
export interface Standing {
  readonly shape: { readonly centre: P; readonly radius: number } | { readonly outline: readonly P[] };
  readonly from: number;
  readonly to: number;
  readonly crown: boolean;
}

/** A thing on the site, by its id, with all its solids. */
export interface Thing {
  readonly id: string;
  readonly kind: string;
  readonly solids: readonly Standing[];
}

/**
 * Every hard constraint at one pose, by its id. `nice` names the nice parts that are in force; must parts always
 * are. A clearance whose heights do not overlap is not listed. With `exact` false, values below zero keep only
 * their sign.
 */
export function slacks(site: Site, rig: Rig, policy: Policy, pose: Pose, nice: readonly string[], exact = true): Slack[] {
  const solids = solidsInForce(rig, nice);
  const list: Slack[] = [stand(site, rig, policy, pose), ...roads(site, policy, pose, solids)];
  if (site.lot) {
    const { outline } = site.lot;
    for (const s of solids) list.push({ id: `lot:${s.id}`, slack: rectInsideOutline(footprint(pose, s), outline) });
  }
  const lift = liftAsked(site, rig, policy);
  const rise = lift.side + lift.along;
  for (const thing of things(site)) {
    for (const s of solids) {
      const slack = clear(s, footprint(pose, s), thing, rise, policy, exact);
      if (slack !== null) list.push({ id: `clear:${s.id}:${thing.id}`, slack });
    }
    const slack = clearSupports(rig, pose, thing, policy);
    if (slack !== null) list.push({ id: `clear:supports:${thing.id}`, slack });
  }
  return withHookupsBesideBody(site, list, footprint(pose, solids[0]!));
}

export function leastSlack(list: readonly Slack[]): Slack {
  return list.reduce((least, s) => (s.slack < least.slack ? s : least));
}

/** Obstacles, and the posts of hookups. */
export function things(site: Site): Thing[] {
  const all: Thing[] = site.obstacles.map((o) => {
    if (o.kind === "tree") {
      const trunk: Standing = { shape: { centre: o.at!, radius: o.trunkRadius! }, from: 0, to: o.crownTo!, crown: false };
      const crown: Standing = { shape: { centre: o.at!, radius: o.crownRadius! }, from: o.crownFrom!, to: o.crownTo!, crown: true };
      return { id: o.id, kind: o.kind, solids: [trunk, crown] };
    }
    const shape = o.outline ? { outline: o.outline } : { centre: o.at!, radius: o.radius! };
    return { id: o.id, kind: o.kind, solids: [{ shape, from: o.from!, to: o.to!, crown: false }] };
  });
  for (const h of site.hookups) {
    if (h.postRadius === undefined) continue;
    const post: Standing = { shape: { centre: h.at, radius: h.postRadius }, from: 0, to: h.postHeight!, crown: false };
    all.push({ id: h.id, kind: "hookup", solids: [post] });
  }
  return all;
}

/** Slack of one of the rig's solids to one thing; null where no heights overlap. A tree's two solids count once. */
export function clear(solid: Solid, rect: Rect, thing: Thing, rise: number, policy: Policy, exact: boolean): number | null {
  const awningAtFire = solid.kind === "awning" && thing.kind === "fire-ring";
  const kept = thing.kind === "wire" ? policy.wireClearance : awningAtFire ? policy.fireClearance : policy.clearance;
  let least: number | null = null;
  for (const piece of thing.solids) {
    const room = piece.crown ? policy.limbRoom : thing.kind === "wire" ? policy.wireRoom : policy.headroom;
    const top = awningAtFire ? Infinity : piece.to;
    if (!(solid.to + rise + room > piece.from && solid.from - policy.headroom < top)) continue;
    const apart = "outline" in piece.shape ? rectToOutline(rect, piece.shape.outline, exact) : rectToDisc(rect, piece.shape.centre, piece.shape.radius);
    least = Math.min(least ?? Infinity, apart - kept);
  }
  return least;
}

/** Signed distance of a point to a road's edge, positive on the side where the pad lies. */
export function insideRoad(site: Site, edge: readonly [P, P], p: P): number {
  const [a, b] = edge;
  const long = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const signed = (q: P) => ((b[0] - a[0]) * (q[1] - a[1]) - (b[1] - a[1]) * (q[0] - a[0])) / long;
  return signed(p) * Math.sign(signed(centreOfArea(site.pad.outline)));
}

/** The edge in front, and on a pull-through the one at the far end where there is one. */
export function roadEdges(site: Site): (readonly [P, P])[] {
  const front: readonly [P, P] = site.roadEdge ?? [[0, -1], [0, 1]];
  return site.entry === "pull-through" && site.exitEdge ? [front, site.exitEdge] : [front];
}

function stand(site: Site, rig: Rig, policy: Policy, pose: Pose): Slack {
  const depths = rig.supports.map((s) => depthInOutline(at(pose, ...s.at), site.pad.outline));
  return { id: "stand", slack: Math.min(...depths) - policy.footing };
}

function roads(site: Site, policy: Policy, pose: Pose, solids: readonly Solid[]): Slack[] {
  const inside = (s: Solid) => {
    const all = roadEdges(site).flatMap((edge) => corners(footprint(pose, s)).map((c) => insideRoad(site, edge, c)));
    return Math.min(...all) - policy.roadSetback;
  };
  const must = Math.min(...solids.filter((s) => s.must).map(inside));
  const nice = solids.filter((s) => !s.must).map((s) => ({ id: `road:${s.id}`, slack: inside(s) }));
  return [{ id: "road", slack: must }, ...nice];
}

/** Only for what reaches into the heights from the ground to floor + headroom; tyres may touch a wheel stop. */
function clearSupports(rig: Rig, pose: Pose, thing: Thing, policy: Policy): number | null {
  if (thing.kind === "wheel-stop") return null;
  let least: number | null = null;
  for (const piece of thing.solids) {
    if (!(piece.from < rig.body.floor + policy.headroom && piece.to > 0)) continue;
    for (const s of rig.supports) {
      const p = at(pose, ...s.at);
      const { shape } = piece;
      const apart = "outline" in shape ? -depthInOutline(p, shape.outline) : Math.hypot(p[0] - shape.centre[0], p[1] - shape.centre[1]) - shape.radius;
      least = Math.min(least ?? Infinity, apart - policy.clearance);
    }
  }
  return least;
}

/** No hookup may lie under the body; where its post already keeps a clearance to the body, that one stands. */
function withHookupsBesideBody(site: Site, list: Slack[], body: Rect): Slack[] {
  const missing = site.hookups.filter((h) => !list.some((s) => s.id === `clear:body:${h.id}`));
  return [...list, ...missing.map((h) => ({ id: `clear:body:${h.id}`, slack: pointToRect(h.at, body) }))];
}
