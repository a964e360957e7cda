import type { Hookup } from "@/lib/park";
import type { Domain } from "@/lib/search";
import type { Approach } from "../approach";
import { clashAt, conflictsOf, type Clash } from "./conflicts";
import { demandAt, demandsOf, domainOf, marginsOf, type Demand } from "./demands";
import { closestPair, mostSubjectTo } from "./margins";
import { missingAt } from "./missing";
import { slackAt } from "../constraints";
import type { Need } from "../needs";
import { powerOptions } from "../power";
import type { Conflict, Reason, Shown } from "../types";

export interface Refusal {
  readonly reasons: readonly Reason[];
  readonly conflicts: readonly Conflict[];
}

/** Shortfalls are told to the half inch: a millimetre is fine enough. */
const EFFORT = { level: 0, resolution: 1, budget: 20_000, target: 0 } as const;

/**
 * Why no pose will do. `fixed` are the rules and lifts that fail whatever the pose, each a conflict by itself; so is a
 * service that no pair could give. What is left is a clash of demands, looked for at every heading and told for the
 * one where the rig comes closest.
 */
export function refuse(approaches: readonly Approach[], roomiest: Approach, fixed: readonly Reason[]): Refusal {
  const services = roomiest.needs.flatMap((need) => unserved(roomiest, need).map((reason) => ({ need, reason })));
  const hopeless = new Set(services.map(({ need }) => need.service));
  // Where not even the hard constraints hold together, the clash is among them: services would only cloud it.
  const askable = (approach: Approach) => demandsOf(approach).filter((d) => (approach.best.bound < 0 ? d.kind === "hard" : d.kind !== "need" || !hopeless.has(d.need.service)));
  const told = [roomiest, ...approaches.filter((a) => a !== roomiest)].flatMap((approach) => {
    const clash = clashAt(approach, askable(approach), fixed.length + services.length === 0);
    return clash ? [{ approach, clash, ...easiest(approach, clash) }] : [];
  });
  const reasons = [...fixed, ...services.map(({ reason }) => reason), ...told.slice(0, 1).map(({ reason }) => reason)];
  return {
    reasons: reasons.length > 0 ? reasons : [closest(roomiest)],
    conflicts: [
      ...fixed.map(({ code }) => ({ heading: null, constraints: [code], shown: null })),
      ...services.map(({ need, reason }) => ({ heading: null, constraints: [reason.code === "plug" || reason.code === "loads" ? "power" : `reach:${need.service}`], shown: null })),
      ...conflictsOf(told, approaches.length),
    ],
  };
}

/** A service that no pair could give, wherever the rig stood. */
function unserved({ setting: { terrain, form, policy } }: Approach, need: Need): Reason[] {
  const { service, pairs } = need;
  if (pairs.some((pair) => pair.limit.gear >= 0)) return [];
  const { hookups } = terrain.site;
  if (!form.rig.inlets.some((i) => i.kind === service)) return [{ code: `no-inlet:${service}`, parts: [service], short: null }];
  if (pairs.length === 0) {
    const rinse = service === "water" && hookups.find((h) => h.kind === "rinse-water");
    return rinse ? [{ code: "rinse-only:water", parts: [rinse.id], short: null }] : [{ code: `missing:${service}`, parts: [service], short: null }];
  }
  if (service === "power") {
    const reason = unpowered(pairs.map((p) => p.hookup), (h) => powerOptions(form.rig, h, policy), form.rig.electric?.plug ?? 0);
    if (reason) return [reason];
  }
  const nearest = pairs.reduce((a, b) => (b.routeOf(0) < a.routeOf(0) ? b : a));
  const needed = nearest.routeOf(0), longest = policy.longest[service];
  return [{ code: `reach:${service}`, parts: [service, nearest.hookup.id], short: needed - longest, have: longest, need: needed }];
}

function unpowered(hookups: readonly Hookup[], optionsOf: (h: Hookup) => ReturnType<typeof powerOptions>, plug: number): Reason | null {
  const options = hookups.flatMap((h) => optionsOf(h).map((option) => ({ hookup: h.id, option })));
  if (options.length === 0) return { code: "plug", parts: [String(plug), hookups[0]?.id ?? "power"], short: null };
  const best = options.reduce((a, b) => (b.option.overload < a.option.overload ? b : a));
  if (best.option.overload <= 0) return null;
  const { usableVa } = best.option.result;
  return { code: "loads", parts: ["loads", best.hookup], short: best.option.overload, have: usableVa, need: usableVa + best.option.overload };
}

/** Where the last millimetre decides and no clash could be proven: what is nearest to failing where there is most room. */
function closest(approach: Approach): Reason {
  const { x, y } = approach.best.best ?? { x: 0, y: 0 };
  const demand = demandsOf(approach).reduce((a, b) => (demandAt(approach, b, x, y) < demandAt(approach, a, x, y) ? b : a));
  return shortfall(approach, demand, x, y);
}

/** What a person would name as failing, before what it fails against: obstacles, then lot and road, services, the pad. */
function rank(demand: Demand): number {
  if (demand.kind === "vehicle") return 0;
  if (demand.kind === "need") return 3;
  return { clear: 1, lot: 2, road: 2, stand: 4 }[demand.constraint.kind];
}

/**
 * The clash as one fact, and where to see it: of the demands that a person would name first, the one that fails by
 * least while the others hold.
 */
function easiest(approach: Approach, clash: Clash): { reason: Reason; shown: Shown } {
  const first = Math.min(...clash.demands.map(rank));
  const [easy, ...more] = clash.demands.filter((d) => rank(d) === first).map((demand) => {
    const others = clash.demands.filter((d) => d !== demand);
    const { x, y } = nearestTry(approach, clash, demand, others);
    return { demand, others, x, y, short: -demandAt(approach, demand, x, y) };
  });
  const { demand, others, x, y } = more.reduce((a, b) => (b.short < a.short ? b : a), easy!);
  const pose = { x, y, heading: approach.heading };
  const small = others.length === 0 && demand.id === "stand" ? tooSmall(approach, demand, x, y) : null;
  if (small) return { reason: { ...small.reason, while: [] }, shown: { dropped: demand.id, pose: { ...pose, ...small.at }, gap: missingAt(approach, demand, small.at.x, small.at.y) } };
  return {
    reason: { ...shortfall(approach, demand, x, y), while: others.map((d) => d.id) },
    shown: { dropped: demand.id, pose, gap: missingAt(approach, demand, x, y) },
  };
}

/**
 * A pad too short or too narrow by itself. It is missed least with half too little at either end, and understood
 * when one end is right and all that is missing shows at the other: the one away from the road, or either side. Null
 * for pads of a shape where that cannot be told by one number; `have` and `need` are the pad's size and the size asked for.
 */
function tooSmall(approach: Approach, demand: Demand, x: number, y: number): { reason: Reason; at: { x: number; y: number } } | null {
  const { terrain: { pad: { bounds } }, form: { rig }, policy } = approach.setting;
  const needed = (values: readonly number[]) => Math.max(...values) - Math.min(...values) + 2 * policy.footing;
  const long = { have: bounds.maxX - bounds.minX, need: needed(rig.supports.map((s) => s.at[0])) };
  const wide = { have: bounds.maxY - bounds.minY, need: needed(rig.supports.map((s) => s.at[1])) };
  const short = Math.max(long.need - long.have, wide.need - wide.have);
  if (short <= 0) return null;
  const lengthwise = short === long.need - long.have, half = short / 2;
  const places = lengthwise ? [{ x: x + half, y }, { x: x - half, y }] : [{ x, y: y + half }, { x, y: y - half }];
  const at = places.find((p) => Math.abs(-demandAt(approach, demand, p.x, p.y) - short) <= SAME);
  return at ? { reason: { code: "stand", parts: ["supports", "pad"], short, ...(lengthwise ? long : wide) }, at } : null;
}

/** Shortfalls this close are the same, mm. */
const SAME = 2;

/** The pose at which the others hold and this one fails least. */
function nearestTry(approach: Approach, clash: Clash, demand: Demand, others: readonly Demand[]): { x: number; y: number } {
  const [objective] = marginsOf(approach, [demand]);
  // The others may hold only where this one could not: the search has to cover both.
  const domain = around(domainOf(approach, others), domainOf(approach, [demand]));
  const search = mostSubjectTo({ ...EFFORT, objective: objective!, subject: marginsOf(approach, others), domain });
  // The search may end short of a thin strip of poses; the clash itself knows one.
  return search.best ?? clash.without[clash.demands.indexOf(demand)]!;
}

function around(a: Domain, b: Domain): Domain {
  return { minX: Math.min(a.minX, b.minX), maxX: Math.max(a.maxX, b.maxX), minY: Math.min(a.minY, b.minY), maxY: Math.max(a.maxY, b.maxY) };
}

function shortfall(approach: Approach, demand: Demand, x: number, y: number): Reason {
  if (demand.kind === "vehicle") return { code: "vehicle", parts: ["vehicle", "pad"], short: null };
  if (demand.kind === "need") return shortOfReach(approach, demand.need, x, y);
  const { constraint } = demand;
  return { code: constraint.id, parts: [constraint.part, constraint.other], short: Math.max(0, -slackAt(constraint, x, y)) };
}

function shortOfReach({ setting: { policy } }: Approach, need: Need, x: number, y: number): Reason {
  const pair = closestPair(need, x, y)!;
  const path = pair.pathAt(x, y);
  const parts = [need.service, pair.hookup.id];
  const longest = policy.longest[need.service];
  const route = pair.routeOf(path);
  if (route > longest) return { code: `reach:${need.service}`, parts, short: route - longest, have: longest, need: route };
  const drop = pair.dropAt(x, y), fall = pair.fallAt(x, y, path);
  return { code: "fall:sewer", parts, short: Math.max(0, -fall), have: drop, need: drop - fall };
}
