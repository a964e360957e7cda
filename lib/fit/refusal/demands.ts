import { Envelope, type Bounds } from "@/lib/plane";
import type { Approach } from "../approach";
import { offsetsOf } from "../form";
import { hardMargin, type Margin } from "./margins";
import { slackAt, type Constraint } from "../constraints";
import type { Need, Pair } from "../needs";

/** The three ways a pair of inlet and hookup can fail; a pair has to pass all that are asked about. */
type PairTest = "reach" | "fall" | "power";

/** One thing asked of a pose, under the id that conflicts use. Needs count with whatever gear could be brought. */
export type Demand =
  | { readonly id: string; readonly kind: "hard"; readonly constraint: Constraint }
  | { readonly id: string; readonly kind: "need"; readonly need: Need; readonly test: PairTest }
  | { readonly id: string; readonly kind: "vehicle" };

/** Everything that is asked of a pose at one heading. */
export function demandsOf(approach: Approach): Demand[] {
  const hard = approach.constraints(new Set()).map((constraint): Demand => ({ id: constraint.id, kind: "hard", constraint }));
  const needs = approach.needs.flatMap((need): Demand[] => {
    const reach: Demand = { id: `reach:${need.service}`, kind: "need", need, test: "reach" };
    if (need.service === "sewer") return [reach, { id: "fall:sewer", kind: "need", need, test: "fall" }];
    return need.service === "power" ? [reach, { id: "power", kind: "need", need, test: "power" }] : [reach];
  });
  const { policy, stall, form: { rig } } = approach.setting;
  const vehicle: Demand[] = !policy.overflow && stall === null && rig.tow?.stays === "on-site" ? [{ id: "vehicle", kind: "vehicle" }] : [];
  return [...hard, ...needs, ...vehicle];
}

/** Some demands as margins that hold together or not: the hard ones as one, each service as one, the vehicle as one. */
export function marginsOf(approach: Approach, demands: readonly Demand[]): (Margin & { readonly envelope?: Envelope })[] {
  const hard = demands.flatMap((d) => (d.kind === "hard" ? [d.constraint] : []));
  const services = new Map<Need, Set<PairTest>>();
  for (const d of demands) {
    if (d.kind === "need") services.set(d.need, (services.get(d.need) ?? new Set<PairTest>()).add(d.test));
  }
  return [
    ...(hard.length > 0 ? [hardMargin(hard)] : []),
    ...[...services].map(([need, tests]) => serviceMargin(approach, need, tests)),
    ...(demands.some((d) => d.kind === "vehicle") ? [vehicleMargin(approach)] : []),
  ];
}

/** How far one demand is from holding at a position, mm of pose; negative where it fails. */
export function demandAt(approach: Approach, demand: Demand, x: number, y: number): number {
  if (demand.kind === "hard") return slackAt(demand.constraint, x, y);
  return marginsOf(approach, [demand]).reduce((least, m) => Math.min(least, m.valueAt(x, y)), Infinity);
}

function serviceMargin({ setting: { policy } }: Approach, need: Need, tests: ReadonlySet<PairTest>): Margin {
  const pairs = tests.has("power") ? need.pairs.filter((pair) => pair.power.gear !== null) : need.pairs;
  const limit = (pair: Pair) => (tests.has("reach") ? pair.pathWithin(policy.longest[need.service]) : Infinity);
  const spare = (pair: Pair, path: number, fall: number) => {
    const reach = limit(pair) - path;
    return tests.has("fall") && fall < Infinity ? Math.min(reach, fall / pair.fallSteepness()) : reach;
  };
  return {
    valueAt: (x, y) =>
      pairs.reduce((most, pair) => {
        const path = pair.pathAt(x, y);
        return Math.max(most, spare(pair, path, pair.fallAt(x, y, path)));
      }, -Infinity),
    greatestIn: (cell) =>
      pairs.reduce((most, pair) => {
        const path = pair.leastPath(cell);
        return Math.max(most, spare(pair, path, pair.greatestFall(cell, path)));
      }, -Infinity),
  };
}

function vehicleMargin(approach: Approach): Margin {
  const places = approach.inLine(new Set()).map(({ elements }) => new Envelope(elements));
  return {
    valueAt: (x, y) => places.reduce((most, place) => Math.max(most, place.valueAt(x, y)), -Infinity),
    greatestIn: ({ cx, cy, hx, hy }) => places.reduce((most, place) => Math.max(most, place.valueAt(cx, cy) + Math.hypot(hx, hy)), -Infinity),
  };
}

/** Beyond this from the pad nobody looks for a pose: as good as the whole plane for anything measured on a site, mm. */
const FAR = 200_000;

/** A box of positions that holds every pose at which the demands could hold. */
export function domainOf(approach: Approach, demands: readonly Demand[]): Bounds {
  const { terrain: { pad, lot }, form, policy } = approach.setting;
  if (demands.some((d) => d.id === "stand")) return approach.domain;
  const inLot = demands.find((d) => d.kind === "hard" && d.constraint.kind === "lot");
  if (lot && inLot?.kind === "hard") {
    const box = form.boxes.find((b) => b.id === inLot.constraint.part)!;
    const { x0, x1, y0, y1 } = offsetsOf(box, approach.heading);
    return ordered({ minX: lot.bounds.minX - x0, maxX: lot.bounds.maxX - x1, minY: lot.bounds.minY - y0, maxY: lot.bounds.maxY - y1 });
  }
  const reach = demands.find((d) => d.kind === "need" && d.test === "reach");
  if (reach?.kind === "need" && reach.need.pairs.length > 0) {
    const boxes = reach.need.pairs.map((pair) => {
      const r = Math.max(0, pair.pathWithin(policy.longest[reach.need.service]));
      return { minX: pair.qx - r, maxX: pair.qx + r, minY: pair.qy - r, maxY: pair.qy + r };
    });
    return boxes.reduce((a, b) => ({ minX: Math.min(a.minX, b.minX), maxX: Math.max(a.maxX, b.maxX), minY: Math.min(a.minY, b.minY), maxY: Math.max(a.maxY, b.maxY) }));
  }
  return { minX: pad.bounds.minX - FAR, maxX: pad.bounds.maxX + FAR, minY: pad.bounds.minY - FAR, maxY: pad.bounds.maxY + FAR };
}

function ordered({ minX, maxX, minY, maxY }: Bounds): Bounds {
  return { minX: Math.min(minX, maxX), maxX: Math.max(minX, maxX), minY: Math.min(minY, maxY), maxY: Math.max(minY, maxY) };
}
