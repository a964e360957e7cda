import type { Hookup } from "@/lib/park";
import type { Approach } from "./approach";
import { slackAt, type Constraint } from "./constraints";
import { hardMargin, mostSubjectTo, needMargin, pairMargin, type Margin } from "./margins";
import type { Need } from "./needs";
import { powerOptions } from "./power";
import type { Reason } from "./types";

/** Things this close to the one that fails most fail just as much, mm. */
const ALIKE = 2;
/** Shortfalls are told to the half inch: a millimetre is fine enough, and what is not found by then is left out. */
const EFFORT = { resolution: 1, budget: 20_000, target: 0 } as const;

/**
 * Why no pose at this heading will do: the first thing that cannot be had once those before it hold. `roomiest` is
 * where the hard constraints come closest to holding; where they do hold there, only services are left to ask about.
 * `decisive`: nothing else stands in the way, so that what is left is the vehicle.
 */
export function whyNot(approach: Approach, roomiest: { readonly x: number; readonly y: number; readonly value: number }, decisive: boolean): Reason[] {
  const services = approach.needs.flatMap((need) => unserved(approach, need));
  const ground = roomiest.value < 0 ? blockedGround(approach, roomiest) : [];
  if (ground.length + services.length > 0) return [...ground, ...services];
  const reach = outOfReach(approach, roomiest);
  return reach.length > 0 || !decisive ? reach : [{ code: "vehicle", parts: ["vehicle", "pad"], short: null }];
}

/** A service that no pair could give, wherever the rig stood. */
export function unserved({ setting: { terrain, form, policy } }: Approach, need: Need): Reason[] {
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
  const need0 = nearest.routeOf(0), longest = policy.longest[service];
  return [{ code: `reach:${service}`, parts: [service, nearest.hookup.id], short: need0 - longest, have: longest, need: need0 }];
}

function unpowered(hookups: readonly Hookup[], optionsOf: (h: Hookup) => ReturnType<typeof powerOptions>, plug: number): Reason | null {
  const options = hookups.flatMap((h) => optionsOf(h).map((option) => ({ hookup: h.id, option })));
  if (options.length === 0) return { code: "plug", parts: [String(plug), hookups[0]?.id ?? "power"], short: null };
  const best = options.reduce((a, b) => (b.option.overload < a.option.overload ? b : a));
  if (best.option.overload <= 0) return null;
  const { usableVa } = best.option.result;
  return { code: "loads", parts: ["loads", best.hookup], short: best.option.overload, have: usableVa, need: usableVa + best.option.overload };
}

/** Ground before obstacles: the first kind of hard constraint that cannot hold together with those before it. */
function blockedGround(approach: Approach, { x, y }: { readonly x: number; readonly y: number }): Reason[] {
  const all = approach.constraints(new Set());
  const before: Margin[] = [];
  for (const kind of ["stand", "road", "lot", "clear"] as const) {
    const group = all.filter((c) => c.kind === kind);
    if (group.length === 0) continue;
    const margin = hardMargin(group);
    const held = [...before, margin].every((m) => m.valueAt(x, y) >= 0);
    before.push(margin);
    if (held) continue;
    const search = mostSubjectTo({ ...EFFORT, objective: margin, subject: before.slice(0, -1), domain: approach.domain });
    if (search.best !== null && search.best.value >= 0) continue;
    const found = search.best ?? search.loose;
    return found === null ? [] : failing(approach, group, found.x, found.y);
  }
  return [];
}

function failing(approach: Approach, group: readonly Constraint[], x: number, y: number): Reason[] {
  const slacks = group.map((constraint) => ({ constraint, slack: slackAt(constraint, x, y) }));
  const least = Math.min(...slacks.map(({ slack }) => slack));
  return slacks
    .filter(({ slack }) => slack <= least + ALIKE && slack < 0)
    .map(({ constraint: { id, part, other }, slack }) => ({ code: id, parts: [part, other], short: id === "stand" ? padShortBy(approach, -slack) : -slack }));
}

/** By how much the pad is too short or too narrow; where it is neither, the least move of the worst support. */
function padShortBy({ setting: { terrain: { pad }, form, policy } }: Approach, worst: number): number {
  const us = form.rig.supports.map((s) => s.at[0]), vs = form.rig.supports.map((s) => s.at[1]);
  const over = (values: readonly number[], available: number) => Math.max(...values) - Math.min(...values) + 2 * policy.footing - available;
  const short = Math.max(over(us, pad.bounds.maxX - pad.bounds.minX), over(vs, pad.bounds.maxY - pad.bounds.minY));
  return short > 0 ? short : worst;
}

/** The hard constraints hold somewhere; the first service that cannot be had there as well. */
function outOfReach(approach: Approach, { x, y }: { readonly x: number; readonly y: number }): Reason[] {
  const before: Margin[] = [hardMargin(approach.constraints(new Set()))];
  for (const need of approach.needs) {
    const margin = needMargin(need, "gear");
    if (margin.valueAt(x, y) >= 0 && before.every((m) => m.valueAt(x, y) >= 0)) {
      before.push(margin);
      continue;
    }
    const search = mostSubjectTo({ ...EFFORT, objective: margin, subject: before, domain: approach.domain });
    before.push(margin);
    if (search.best !== null && search.best.value >= 0) continue;
    const found = search.best ?? search.loose;
    return found === null ? [] : [shortOfReach(approach, need, found.x, found.y)];
  }
  return [];
}

function shortOfReach({ setting: { policy } }: Approach, need: Need, x: number, y: number): Reason {
  const pair = need.pairs.filter((p) => p.limit.gear >= 0).reduce((a, b) => (pairMargin(b, "gear", x, y) > pairMargin(a, "gear", x, y) ? b : a));
  const path = pair.pathAt(x, y);
  const parts = [need.service, pair.hookup.id];
  const fall = pair.fallAt(x, y, path);
  const longest = policy.longest[need.service];
  const route = pair.routeOf(path);
  if (route > longest) return { code: `reach:${need.service}`, parts, short: route - longest, have: longest, need: route };
  const drop = pair.dropAt(x, y);
  return { code: "fall:sewer", parts, short: Math.max(0, -fall), have: drop, need: drop - fall };
}
