import { contains, nearestOfOutlines, nearestOfRims, nearestOnOutline, nearestToDisc, sitePoint, type Nearest, type Point } from "@/lib/plane";
import type { Edge, Footprint, Solid } from "@/lib/park";
import { keptClear, type Constraint, type Setting } from "./constraints";
import { place, placeBox } from "./frames";
import type { Limit, Pose } from "./types";

interface Gap extends Nearest {
  /** What has to be left of the distance, mm. */
  readonly keep: number;
}

/** Where a constraint is tightest at a pose: the two points between which its gap is measured. */
export function limitOf(setting: Setting, constraint: Constraint, slack: number, pose: Pose): Limit {
  const { distance, a, b } = gapsOf(setting, constraint, pose).reduce((least, gap) => (gap.distance - gap.keep < least.distance - least.keep ? gap : least));
  return { id: constraint.id, slack, distance, from: sitePoint(a[0], a[1]), to: sitePoint(b[0], b[1]) };
}

function gapsOf(setting: Setting, constraint: Constraint, pose: Pose): Gap[] {
  const { terrain, policy } = setting;
  switch (constraint.kind) {
    case "stand":
      return supportsAt(setting, pose).map((p) => {
        const b = nearestOnOutline(p, terrain.pad.outline);
        const distance = Math.hypot(p[0] - b[0], p[1] - b[1]);
        return { distance: contains(terrain.pad.outline, p) ? distance : -distance, a: p, b, keep: policy.footing };
      });
    case "road":
      return terrain.roads.flatMap((edge) => boxesOf(setting, constraint.part).flatMap((box) => placeBox(pose, box).map((p) => toEdge(p, edge, policy.roadSetback))));
    case "lot":
      return boxesOf(setting, constraint.part).map((box) => insideLot(placeBox(pose, box), terrain.lot?.outline ?? []));
    case "clear":
      return constraint.part === "supports" ? supportGaps(setting, constraint.other, pose) : boxGaps(setting, constraint, pose);
  }
}

/** The boxes a constraint speaks of: one part, or ("rig") all that has to be out. */
function boxesOf({ form }: Setting, part: string) {
  return form.boxes.filter((b) => (part === "rig" ? b.need === "must" : b.id === part));
}

function supportsAt({ form }: Setting, pose: Pose): Point[] {
  return form.rig.supports.map(({ at: [u, v] }) => place(pose, u, v));
}

function toEdge(p: Point, { a, b, d }: Edge, keep: number): Gap {
  const distance = a * p[0] + b * p[1] + d;
  return { distance, a: p, b: [p[0] - a * distance, p[1] - b * distance], keep };
}

function insideLot(box: readonly Point[], lot: readonly Point[]): Gap {
  const nearest = nearestOfRims(box, lot);
  const inside = box.every((p) => contains(lot, p));
  return { ...nearest, distance: inside ? nearest.distance : -nearest.distance, keep: 0 };
}

function supportGaps(setting: Setting, barrier: string, pose: Pose): Gap[] {
  const { terrain, form, policy } = setting;
  const ceiling = form.rig.body.floor + policy.headroom;
  const solids = terrain.barriers.find((b) => b.id === barrier)?.solids ?? [];
  const low = solids.filter((s) => s.nature !== "wheel-stop" && s.from < ceiling && s.to > 0);
  return low.flatMap((solid) => supportsAt(setting, pose).map((p) => ({ ...between([p], solid.footprint), keep: policy.clearance })));
}

function boxGaps(setting: Setting, { part, other }: Constraint, pose: Pose): Gap[] {
  const { terrain } = setting;
  const solids: readonly Solid[] = terrain.barriers.find((b) => b.id === other)?.solids ?? [];
  const hookup = terrain.site.hookups.find((h) => h.id === other);
  return boxesOf(setting, part).flatMap((box) => {
    const outline = placeBox(pose, box);
    const gaps = solids.flatMap((solid) => {
      const keep = keptClear(setting, box, solid);
      return keep === null ? [] : [{ ...between(outline, solid.footprint), keep }];
    });
    return hookup ? [...gaps, { ...nearestToDisc(outline, hookup.at, 0), keep: 0 }] : gaps;
  });
}

function between(shape: readonly Point[], footprint: Footprint): Nearest {
  return footprint.shape === "disc" ? nearestToDisc(shape, [footprint.x, footprint.y], footprint.radius) : nearestOfOutlines(shape, footprint.outline);
}
