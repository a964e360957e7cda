import type { Hookup, Site } from "@/lib/park/schema";
import type { Inlet, Rig } from "@/lib/rig/schema";
import type { Policy } from "@/lib/fit/policy";
import type { Pose, Service } from "@/lib/fit/types";
import { passesThrough, pathAround, type P, type Rect } from "./geometry";
import { groundAt, groundPlane } from "./ground";
import { at, footprint } from "./solids";

/** One inlet and one hookup of a service, at a pose. */
export interface Pair {
  readonly inlet: number;
  readonly hookup: string;
  /** All of drop, path and climb (sewer: the slanted length). */
  readonly route: number;
  readonly path: number;
  /** The straight line passes under the body by more than a touch. */
  readonly under: boolean;
  readonly fall: { readonly drop: number; readonly needed: number } | null;
  /** Smallest slack of reach (and fall) with the guest's own gear; -Infinity where the pair is not usable so. */
  readonly own: number;
  /** The same with anything that may be brought. */
  readonly gear: number;
}

/** A way to plug in: one receptacle, directly or through one adapter. */
export interface Supply {
  readonly hookup: string;
  readonly receptacle: number;
  readonly through: string | null;
  /** The guest has what it takes. */
  readonly owned: boolean;
  readonly supplyVa: number;
  readonly usableVa: number;
}

/** 1/48: a quarter of an inch in a foot. */
const FALL = 1 / 48;
/** Where a site does not say, a receptacle gives the common voltage. */
const VOLTS = 120;

export function gearLength(rig: Rig, service: Service): number {
  return { power: rig.gear.powerCord, water: rig.gear.waterHose, sewer: rig.gear.sewerHose }[service];
}

/** Every pair of an inlet and a hookup of a service, usable or not. */
export function pairsOf(site: Site, rig: Rig, policy: Policy, pose: Pose, service: Service): Pair[] {
  const body = footprint(pose, { u: [0, rig.body.length], v: [-rig.body.width / 2, rig.body.width / 2] });
  const all: Pair[] = [];
  rig.inlets.forEach((inlet, index) => {
    if (inlet.kind !== service) return;
    for (const hookup of site.hookups) {
      if (hookup.kind === service) all.push(pair(site, rig, policy, pose, body, inlet, index, hookup));
    }
  });
  return all;
}

/** Where an inlet stands: on the body's edge. */
export function inletAt(rig: Rig, pose: Pose, inlet: Inlet): P {
  const half = rig.body.width / 2;
  switch (inlet.side) {
    case "left": return at(pose, inlet.u!, half);
    case "right": return at(pose, inlet.u!, -half);
    case "rear": return at(pose, 0, inlet.v!);
    case "front": return at(pose, rig.body.length, inlet.v!);
  }
}

/** Every way to plug in at a hookup that carries the must loads. */
export function suppliesOf(rig: Rig, policy: Policy, hookup: Hookup): Supply[] {
  if (!rig.electric) return [];
  const { plug, loads } = rig.electric;
  const must = loads.filter((l) => l.need === "must").reduce((sum, l) => sum + l.va, 0);
  const ways = (hookup.receptacles ?? []).map((receptacle) => {
    const through = receptacle === plug ? null : `${plug}-to-${receptacle}`;
    const rating = Math.min(plug, receptacle);
    const supplyVa = rating * (hookup.volts ?? VOLTS) * (rating === 50 ? 2 : 1);
    const owned = through === null || rig.gear.adapters.includes(through);
    return { hookup: hookup.id, receptacle, through, owned, supplyVa, usableVa: policy.continuous * supplyVa };
  });
  return ways.filter((w) => must <= w.usableVa + 1e-9);
}

/** Must loads run; nice loads in listed order as long as they fit in what is left. */
export function loadsServed(rig: Rig, usableVa: number): { runs: string[]; shed: string[] } {
  const loads = rig.electric?.loads ?? [];
  let left = usableVa - loads.filter((l) => l.need === "must").reduce((sum, l) => sum + l.va, 0);
  const shed = new Set<(typeof loads)[number]>();
  for (const load of loads) {
    if (load.need === "must") continue;
    if (load.va <= left + 1e-9) left -= load.va;
    else shed.add(load);
  }
  const ids = (keep: boolean) => loads.filter((l) => shed.has(l) !== keep).map((l) => l.id);
  return { runs: ids(true), shed: ids(false) };
}

function pair(site: Site, rig: Rig, policy: Policy, pose: Pose, body: Rect, inlet: Inlet, index: number, hookup: Hookup): Pair {
  const service = inlet.kind;
  const from = inletAt(rig, pose, inlet), to = hookup.at;
  const straight = policy.underBody.includes(service);
  const path = straight ? Math.hypot(from[0] - to[0], from[1] - to[1]) : pathAround(from, to, body);
  const route = service === "sewer" ? Math.hypot(path, inlet.height - hookup.height) : inlet.height + path + hookup.height;
  const plane = groundPlane(site);
  const drop = groundAt(plane, from) + inlet.height - (hookup.groundZ ?? groundAt(plane, to)) - hookup.height;
  const fall = service === "sewer" ? { drop, needed: path * FALL } : null;
  const usable = usableWith(rig, policy, hookup);
  const slack = (reach: number) => Math.min(reach - route, fall ? fall.drop - fall.needed : Infinity);
  const longest = policy.longest[service];
  return {
    inlet: index, hookup: hookup.id, route, path, fall,
    under: straight && passesThrough(from, to, body, 1),
    own: usable.own ? slack(Math.min(longest, gearLength(rig, service))) : -Infinity,
    gear: usable.gear ? slack(longest) : -Infinity,
  };
}

function usableWith(rig: Rig, policy: Policy, hookup: Hookup): { own: boolean; gear: boolean } {
  if (hookup.kind === "power") {
    const ways = suppliesOf(rig, policy, hookup);
    return { own: ways.some((w) => w.owned), gear: ways.length > 0 };
  }
  if (hookup.kind === "water") {
    const fine = rig.gear.regulator || (hookup.pressure ?? 0) <= policy.maxPressure;
    return { own: fine, gear: true };
  }
  return { own: true, gear: true };
}
