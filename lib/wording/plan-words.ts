import { facing } from "@/lib/fit/frames";
import { conflictToShow, thingsInvolved } from "@/lib/fit/refusal/shown";
import type { FitResult } from "@/lib/fit/types";
import type { Units } from "@/lib/measure";
import { groundPlane, type Obstacle, type Site } from "@/lib/park";
import { boundsOf, centroid } from "@/lib/plane";
import { isMotorized, type Rig, type RigPart } from "@/lib/rig";
import { catalogueOf, numbersFor, type Language } from "./catalogue";
import { namesInConstraint } from "./sentences";
import { siteThing } from "./things";

/**
 * The plan's text alternative: the same facts as the drawing, as sentences in an order that can be followed on foot.
 * Without a rig and its result, the site alone.
 */
export function planInWords(site: Site, rig: Rig | null, result: FitResult | null, units: Units, language?: Language): string[] {
  const { plan } = catalogueOf(language);
  const rest = result?.pose && rig ? rigLines(site, rig, result, units, language) : result?.verdict === "no" && rig ? refusedLines(site, rig, result, units, language) : result ? [plan.notSettled] : [];
  return [...siteLines(site, units, language), ...rest, ...thingLines(site, units, language)];
}

function refusedLines(site: Site, rig: Rig, result: FitResult, units: Units, language?: Language): string[] {
  const { plan } = catalogueOf(language);
  const shown = conflictToShow(result)?.shown;
  if (!shown) return [plan.notDrawn];
  const missing = missingInWords(site, rig, result, units, language);
  return [plan.nearest(shown.pose, rig, numbersFor(units, language)), ...(missing === null ? [] : [missing])];
}

/** What is missing at the nearest try of a refusal; null where the plan shows none, or there is nothing to measure. */
export function missingInWords(site: Site, rig: Rig, result: FitResult, units: Units, language?: Language): string | null {
  const { plan, things } = catalogueOf(language), n = numbersFor(units, language);
  const shown = conflictToShow(result)?.shown;
  if (!shown?.gap) return null;
  const { short, line } = shown.gap;
  if (!line) {
    if (shown.dropped === "stand") return plan.missingPad(short, n);
    const between = shown.dropped === "vehicle" ? null : namesInConstraint(shown.dropped, site, rig, language);
    return between && plan.missing(between, short, n);
  }
  const [service] = thingsInvolved([shown.dropped]).services;
  const hookup = nearestHookup(site, service, line.at(-1)!);
  return service && hookup ? plan.missingRun(service, things.full(siteThing(hookup, site)!), short, shown.dropped.startsWith("fall:"), n) : null;
}

/** The hookup at the end of a run. */
function nearestHookup(site: Site, service: string | undefined, [x, y]: readonly [number, number]): string | null {
  const far = (h: Site["hookups"][number]) => Math.hypot(h.at[0] - x, h.at[1] - y);
  const [first] = site.hookups.filter((h) => h.kind === service).sort((a, b) => far(a) - far(b));
  return first?.id ?? null;
}

function siteLines(site: Site, units: Units, language?: Language): string[] {
  const { plan } = catalogueOf(language);
  const { minX, maxX, minY, maxY } = boundsOf(site.pad.outline);
  const { alongGradient, acrossGradient } = groundPlane(site.ground);
  return [plan.site(site, { long: maxX - minX, wide: maxY - minY }, numbersFor(units, language)), plan.slope(100 * alongGradient, 100 * acrossGradient)];
}

function rigLines(site: Site, rig: Rig, result: FitResult, units: Units, language?: Language): string[] {
  const { plan, things } = catalogueOf(language);
  const n = numbersFor(units, language);
  const name = (part: RigPart) => plan.named(things.full({ type: "part", part }), things.sides[part.side]);
  const inside = rig.parts.filter((p) => result.leftIn.includes(p.id)), open = rig.parts.filter((p) => !result.leftIn.includes(p.id));
  const lines = [plan.stands(result.pose!, rig, n), plan.open(open.map(name))];
  if (inside.length > 0) lines.push(plan.staysIn(inside.map(name)));
  for (const need of result.needs) {
    const target = need.hookup === null ? null : siteThing(need.hookup, site);
    if (target && need.route !== null) lines.push(plan.line(need, things.full(target), n));
  }
  lines.push(...liftLines(result, units, language));
  if (result.vehicle !== null) lines.push(plan.vehicle(result.vehicle, isMotorized(rig.kind)));
  const between = result.limit && namesInConstraint(result.limit.id, site, rig, language);
  if (result.limit && between) lines.push(plan.gap(between, result.limit, n));
  return lines;
}

/** Which end and which side is low, from the slope of the ground and the way the rig faces. */
function liftLines({ level, ground, pose }: FitResult, units: Units, language?: Language): string[] {
  const { plan } = catalogueOf(language);
  const n = numbersFor(units, language), s = facing(pose!.heading);
  const lines: string[] = [];
  if (level.side > 0) lines.push(plan.lift("side", level.side, s * ground.across > 0 ? plan.lowSide.right : plan.lowSide.left, n));
  if (level.along > 0) lines.push(plan.lift("along", level.along, s * ground.along > 0 ? plan.lowSide.rear : plan.lowSide.front, n));
  return lines;
}

function thingLines(site: Site, units: Units, language?: Language): string[] {
  const { plan, things } = catalogueOf(language);
  const n = numbersFor(units, language);
  const full = (id: string) => things.full(siteThing(id, site) ?? { type: "other", id });
  return [
    ...site.hookups.map((h) => plan.hookup(full(h.id), { into: h.at[0], left: h.at[1] }, h, n)),
    ...site.obstacles.map((o) => {
      const [into, left] = middleOf(o);
      return plan.obstacle(full(o.id), { into, left }, o, n);
    }),
  ];
}

function middleOf({ at, outline }: Obstacle): readonly [number, number] {
  return at ?? (outline ? centroid(outline) : [0, 0]);
}
