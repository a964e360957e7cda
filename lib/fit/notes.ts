import { nearestOnOutline } from "@/lib/plane";
import type { Site } from "@/lib/park";
import type { Policy } from "./policy";
import { slackAt } from "./constraints";
import { meansFor } from "./level";
import type { Placed } from "./solve";
import type { Served } from "./served";
import type { Bring, LevelResult, Limit, Reason } from "./types";
import type { Setting } from "./constraints";

/** What has to be brought for a fit that own gear does not make. */
export function thingsToBring(setting: Setting, served: readonly Served[], level: LevelResult): Bring[] {
  const { form: { rig: { gear } }, policy } = setting;
  const out: Bring[] = [];
  for (const { result, pair } of served) {
    if (result.ok !== "gear" || !pair) continue;
    if (result.extra > 0) out.push({ code: HOSE[result.service], amount: result.route, what: null });
    const option = result.service === "power" && !pair.power.own ? pair.power.gear : null;
    if (option?.bringAdapter) out.push({ code: "adapter", amount: null, what: option.result.through });
    if (wantsRegulator(result.service, pair.hookup.pressure, policy) && !gear.regulator) out.push({ code: "regulator", amount: null, what: null });
  }
  if (level.side > 0 && meansFor(level.side, gear.liftSide, policy.maxLiftSide) === "gear") out.push({ code: "lift-side", amount: level.side, what: null });
  if (level.along > 0 && meansFor(level.along, gear.liftAlong, policy.maxLiftAlong) === "gear") out.push({ code: "lift-along", amount: level.along, what: null });
  return out;
}

const HOSE = { power: "cord", water: "hose", sewer: "sewer-hose" } as const;

function wantsRegulator(service: string, pressure: number | undefined, policy: Policy): boolean {
  return service === "water" && (pressure ?? 0) > policy.maxPressure;
}

/** Why gear is needed: one reason for each thing own gear falls short of. */
export function shortOfGear(setting: Setting, served: readonly Served[], level: LevelResult): Reason[] {
  const { form: { rig: { gear } }, policy } = setting;
  const out: Reason[] = [];
  for (const { result, pair } of served) {
    if (result.ok !== "gear" || !pair) continue;
    const parts = [result.service, pair.hookup.id];
    if (result.extra > 0) out.push({ code: `reach:${result.service}`, parts, short: result.extra, have: result.own, need: result.route ?? 0 });
    const option = result.service === "power" && !pair.power.own ? pair.power.gear : null;
    if (option?.bringAdapter) out.push({ code: "adapter", parts: [option.result.through ?? "", pair.hookup.id], short: null });
    const { pressure = 0 } = pair.hookup;
    if (wantsRegulator(result.service, pressure, policy) && !gear.regulator) {
      out.push({ code: "pressure", parts: ["water", pair.hookup.id], short: pressure - policy.maxPressure, have: policy.maxPressure, need: pressure });
    }
  }
  return [...out, ...liftReasons(level, gear, { liftSide: policy.maxLiftSide, liftAlong: policy.maxLiftAlong }, "gear")];
}

interface Lifts {
  readonly liftSide: number;
  readonly liftAlong: number;
}

/** Where the lift asked for exceeds what the guest has (`gear`) or what the park lets be brought (`no`). */
export function liftReasons(level: LevelResult, own: Lifts, most: Lifts, which: "gear" | "no"): Reason[] {
  const each = [["level:side", level.side, own.liftSide, most.liftSide], ["level:along", level.along, own.liftAlong, most.liftAlong]] as const;
  return each.flatMap(([code, lift, has, max]) => {
    if (meansFor(lift, has, max) !== which) return [];
    const have = which === "gear" ? has : Math.max(has, max);
    return [{ code, parts: ["rig", "ground"], short: lift - have, have, need: lift }];
  });
}

/** Nice parts that stay in, each with what it would meet at this pose. */
export function partsLeftIn({ approach, pose, nice }: Placed, parts: readonly string[]): Reason[] {
  return parts.map((part) => {
    const blocks = (approach.set.byBox.get(part) ?? []).map((constraint) => ({ constraint, slack: slackAt(constraint, pose.x, pose.y) }));
    const worst = blocks.filter((b) => b.slack < 0).sort((a, b) => a.slack - b.slack)[0];
    // With other nice parts out, or at the pose chosen for other reasons, nothing may be in the way here and now.
    if (!worst) return { code: "left-in", parts: [part, [...nice].at(-1) ?? "site"], short: null };
    return { code: "left-in", parts: [part, worst.constraint.other], short: -worst.slack };
  });
}

export function tightness(limit: Limit, parts: readonly string[]): Reason {
  return { code: "tight", parts, short: null, have: limit.slack };
}

/** Shade is counted where a crown reaches over the pad or this near to it, mm. */
const SHADE_REACH = 2000;

/** The wishes this site can be judged by, met or not. Unknown wishes are passed over. */
export function wishReasons(site: Site, wishes: readonly string[]): Reason[] {
  return wishes.flatMap((wish) => {
    const met = wishMet(site, wish);
    return met === null ? [] : [{ code: `wish:${wish}`, parts: [wish], short: met ? null : 1 }];
  });
}

function wishMet(site: Site, wish: string): boolean | null {
  switch (wish) {
    case "pull-through":
    case "back-in":
      return site.entry === wish;
    case "shade":
      return site.obstacles.some(({ kind, at, crownRadius = 0 }) => {
        if (kind !== "tree" || !at) return false;
        const [px, py] = nearestOnOutline(at, site.pad.outline);
        return Math.hypot(at[0] - px, at[1] - py) <= crownRadius + SHADE_REACH;
      });
    default:
      return null;
  }
}
