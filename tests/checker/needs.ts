import type { Site } from "@/lib/park/schema";
import { isMotorized, type Rig } from "@/lib/rig/schema";
import type { Policy } from "@/lib/fit/policy";
import type { Heading, Pose, Service } from "@/lib/fit/types";
import { liftAsked, liftMeans } from "./ground";
import { hitchLength } from "./solids";
import { pairsOf, type Pair } from "./services";
import { inLineSlack, stallsFor, vehicleCount } from "./vehicle";

/** Where the rules leave a choice: `sure` holds under every reading, `possible` under some. */
export type Reading = "sure" | "possible";

export interface ServiceReading {
  readonly service: Service;
  readonly pairs: readonly Pair[];
  /** The best slack of any pair, with the guest's own gear and with anything brought. */
  readonly own: number;
  readonly gear: number;
  /**
   * The shortest route among the pairs that hold (slack at least `floor`) with own gear; and with gear, where own
   * gear is taken as long as it does.
   */
  readonly shortest: { readonly own: number; readonly gear: number };
}

/** All needs at a pose: smallest slack with the guest's own gear and with brought gear (-Infinity: cannot be). */
export interface Needs {
  readonly services: readonly ServiceReading[];
  readonly own: number;
  readonly gear: number;
  /** Sum of the shortest routes. */
  readonly run: { readonly own: number; readonly gear: number };
}

export function headingsAllowed(site: Site, rig: Rig): Heading[] {
  if (site.entry === "pull-through") return site.enterFrom === "either" ? ["nose-in", "tail-in"] : ["nose-in"];
  return isMotorized(rig.kind) ? ["tail-in", "nose-in"] : ["tail-in"];
}

/** Rules that are broken, by id. */
export function rulesBroken(site: Site, rig: Rig, policy: Policy): string[] {
  const rules: Partial<NonNullable<Site["rules"]>> = site.rules ?? {}, { party } = rig;
  const broken: string[] = [];
  const over = (id: string, value: number, most: number | undefined) => {
    if (most !== undefined && value > most) broken.push(id);
  };
  over("rule:maxLength", rig.body.length + hitchLength(rig), rules.maxLength);
  over("rule:maxGuests", party.adults + party.children, rules.maxGuests);
  over("rule:maxVehicles", vehicleCount(rig), rules.maxVehicles);
  if (rules.pets === false && party.pets > 0) broken.push("rule:pets");
  over("rule:tents", party.tents, rules.tents);
  const accessible = rules.accessible === true;
  if (party.accessible ? !accessible : accessible && policy.keepAccessible) broken.push("rule:accessible");
  return broken;
}

/** What does not depend on where the rig stands: rules and level. 0 where met, -Infinity where not. */
export function anywhere(site: Site, rig: Rig, policy: Policy): { own: number; gear: number } {
  if (rulesBroken(site, rig, policy).length > 0) return { own: -Infinity, gear: -Infinity };
  const lift = liftAsked(site, rig, policy);
  const side = liftMeans(lift.side, rig.gear.liftSide, policy.maxLiftSide);
  const along = liftMeans(lift.along, rig.gear.liftAlong, policy.maxLiftAlong);
  const holds = (ok: boolean) => (ok ? Infinity : -Infinity);
  return { own: holds(side === "own" && along === "own"), gear: holds(side !== "no" && along !== "no") };
}

/** Services and vehicle at a pose. `floor`: from which slack on a pair counts as holding. */
export function needsAt(site: Site, rig: Rig, policy: Policy, pose: Pose, nice: readonly string[], reading: Reading, floor: number): Needs {
  const services = wanted(rig).map((service) => readService(site, rig, policy, pose, service, floor));
  const vehicle = vehicleSlack(site, rig, policy, pose, nice, reading);
  const sum = (k: "own" | "gear") => services.reduce((total, s) => total + s.shortest[k], 0);
  return {
    services,
    own: Math.min(vehicle, ...services.map((s) => s.own)),
    gear: Math.min(vehicle, ...services.map((s) => s.gear)),
    run: { own: sum("own"), gear: sum("gear") },
  };
}

export function wanted(rig: Rig): Service[] {
  return [...new Set(rig.wants)];
}

/** Infinity where there is no vehicle to place, or where overflow parking takes it. */
export function vehicleSlack(site: Site, rig: Rig, policy: Policy, pose: Pose, nice: readonly string[], reading: Reading): number {
  if (rig.tow?.stays !== "on-site" || policy.overflow) return Infinity;
  const stalls = stallsFor(site, rig).map((s) => s.slack);
  if (stalls.some((s) => s >= 0)) return Infinity;
  const inLine = (["strict", "loose"] as const).map((r) => inLineSlack(site, rig, policy, pose, nice, r));
  return reading === "sure" ? Math.min(...inLine) : Math.max(...inLine, ...stalls);
}

function readService(site: Site, rig: Rig, policy: Policy, pose: Pose, service: Service, floor: number): ServiceReading {
  const pairs = pairsOf(site, rig, policy, pose, service);
  const best = (k: "own" | "gear") => Math.max(-Infinity, ...pairs.map((p) => p[k]));
  const shortest = (k: "own" | "gear") => Math.min(Infinity, ...pairs.filter((p) => p[k] >= floor).map((p) => p.route));
  const own = shortest("own");
  return { service, pairs, own: best("own"), gear: best("gear"), shortest: { own, gear: own < Infinity ? own : shortest("gear") } };
}
