import { terrainOf, type Site } from "@/lib/park";
import { unknownsOf } from "@/lib/survey";
import { atEnd, type Allowances } from "./allowances";
import { constraintsOf, inForce, keptClear, slackAt, type Setting } from "./constraints";
import type { RigForm } from "./form";
import { levelOf } from "./level";
import { DRAIN_FALL, needsOf, type Pair, type With } from "./needs";
import type { Policy } from "./policy";
import type { Case } from "./refusal/changes";
import { stallFor } from "./vehicle";
import type { Conflict, FitResult, LevelResult, Means, NeedResult, Pose } from "./types";

/** Things whose measured numbers could turn an answer: ids of obstacles and hookups, `pad`, `lot`, `road`, `ground`. */
export type Doubted = ReadonlySet<string>;

const NONE: ReadonlySet<string> = new Set();
const RANK: Readonly<Record<Means, number>> = { own: 0, gear: 1, no: 2 };

/**
 * For a `fits` or `gear`: what might give way at its pose if every error went against the rig at once, and what little could spare
 * bringing something. Empty: whatever the errors, the pose still holds, and the verdict with it.
 */
export function couldGiveWay({ site, rig, policy }: Case, form: RigForm, allowances: Allowances, result: FitResult, pose: Pose): Doubted {
  const by = result.verdict === "gear" ? "gear" : "own", doubted = new Set<string>();
  const level = levelOf(terrainOf(allowances.worst).ground, form, policy);
  const setting: Setting = { terrain: terrainOf(allowances.worst), form, policy, rise: level.side + level.along, stall: stallFor(site, rig, policy) };
  if (RANK[level.ok] > RANK[by]) doubted.add("ground");
  const { most } = allowances;
  if ((result.room ?? -Infinity) < most || switchesOn(setting, allowances, form, result.level)) addHardInDoubt(doubted, setting, allowances, result, pose);
  if (!result.needs.every((need) => easilyServed(need, by, site, allowances, policy, form))) addNeedsInDoubt(doubted, by, site, allowances, policy, form, pose);
  if (rig.tow?.stays === "on-site" && setting.stall === null && !policy.overflow) for (const thing of allowances.plan.keys()) doubted.add(thing);
  if (by === "gear") for (const thing of couldBeSpared(result, allowances, form, policy)) doubted.add(thing);
  return measuredAmong(doubted, allowances);
}

/** Whether errors in heights, or in the lift that slopes ask for, bring something into the rig's way that is out of it as recorded. */
function switchesOn(worst: Setting, { bare }: Allowances, form: RigForm, level: LevelResult): boolean {
  const { policy, rise, terrain } = worst, recorded = terrainOf(bare).barriers, real = level.side + level.along, must = form.boxes.filter(({ need }) => need === "must");
  const ceiling = form.rig.body.floor + policy.headroom; // below it things bar the supports
  return terrain.barriers.some(({ solids }, i) => solids.some((solid, k) => {
    const before = recorded[i]!.solids[k]!;
    if ((solid.from < ceiling && before.from >= ceiling) || (solid.to > 0 && before.to <= 0)) return true;
    return must.some((box) => keptClear({ policy, rise }, box, solid) !== null && keptClear({ policy, rise: real }, box, before) === null);
  }));
}

/** The hard constraints of the must parts that might not hold at the pose. */
function addHardInDoubt(doubted: Set<string>, setting: Setting, allowances: Allowances, result: FitResult, pose: Pose): void {
  const { form, rise } = setting, { most } = allowances;
  const set = constraintsOf(setting, pose.heading, { minX: pose.x - most, maxX: pose.x + most, minY: pose.y - most, maxY: pose.y + most });
  for (const constraint of inForce(set, form, NONE)) {
    const thing = constraint.kind === "clear" ? constraint.other : constraint.kind === "stand" ? "pad" : constraint.kind;
    if (slackAt(constraint, pose.x, pose.y) >= (allowances.plan.get(thing) ?? 0)) continue;
    doubted.add(thing);
    // Lifts raise the rig into what hangs over it.
    if (constraint.kind === "clear" && rise > result.level.side + result.level.along) doubted.add("ground");
  }
}

function addNeedsInDoubt(doubted: Set<string>, by: With, site: Site, allowances: Allowances, policy: Policy, form: RigForm, pose: Pose): void {
  for (const need of needsOf(terrainOf(site), form, policy, pose.heading)) {
    if (need.pairs.some((pair) => surelyServes(pair, by, pose, allowances, policy, form))) continue;
    for (const { hookup } of need.pairs) doubted.add(hookup.id);
    if (need.service === "sewer") doubted.add("ground");
  }
}

/** The same as `surelyServes`, by the run that the answer tells: enough where there is plenty to spare. */
function easilyServed({ service, hookup: id, route, own, ok, fall }: NeedResult, by: With, { hookups, ground }: Site, { plan, height, pressure, slope }: Allowances, policy: Policy, { rig }: RigForm): boolean {
  const hookup = hookups.find((one) => one.id === id);
  if (!hookup || route === null || RANK[ok] > RANK[by]) return false;
  if (service === "water" && ok === "own" && !rig.gear.regulator && (hookup.pressure ?? 0) + (pressure.get(hookup.id) ?? 0) > policy.maxPressure) return false;
  const off = plan.get(hookup.id) ?? 0, up = height.get(hookup.id) ?? 0, longest = policy.longest[service];
  if (route + off + up > (ok === "own" ? Math.min(own, longest) : longest)) return false;
  if (service !== "sewer" || !fall) return true;
  if (hookup.groundZ !== undefined || ground.heights) return false;
  const steepness = (Math.abs(ground.along ?? 0) + Math.abs(ground.across ?? 0)) / 100 + 2 * DRAIN_FALL;
  return fall.drop - fall.needed >= up + (slope.along + slope.across) * (route + off) + off * steepness;
}

/** Whether a pair serves at the pose even with its hookup, and the ground between, as far off as their errors allow. */
function surelyServes(pair: Pair, by: With, { x, y }: Pose, { plan, height, pressure, slope }: Allowances, policy: Policy, { rig }: RigForm): boolean {
  const { hookup, rise } = pair, off = plan.get(hookup.id) ?? 0, up = height.get(hookup.id) ?? 0, limit = pair.limit[by];
  if (limit < 0) return false;
  if (by === "own" && hookup.kind === "water" && !rig.gear.regulator && (hookup.pressure ?? 0) + (pressure.get(hookup.id) ?? 0) > policy.maxPressure) return false;
  const path = pair.pathAt(x, y), long = path + off;
  if (pair.service !== "sewer") return long + up <= limit;
  const reach = long <= limit && Math.hypot(long, Math.abs(rise) + up) <= Math.hypot(limit, rise);
  // Where the ground at the hookup has a height of its own, the plane counts from the origin; else from one end of the run to the other.
  const arm = hookup.groundZ === undefined ? long : Math.hypot(...hookup.at) + long;
  const fallOff = up + (slope.along + slope.across) * arm + off * (pair.fallSteepness() + DRAIN_FALL);
  return reach && pair.fallAt(x, y, path) >= fallOff;
}

/** A shortfall this many times as large as the errors behind it is still looked at: elsewhere on the pad the same errors may do more. */
const REACH = 4;

/** What has to be brought by so little that the errors might spare it. */
function couldBeSpared({ needs, level, bring }: FitResult, { plan, height, pressure, slope }: Allowances, { spread, rig }: RigForm, policy: Policy): string[] {
  const near = (need: NeedResult) => need.hookup !== null && need.ok === "gear" && need.extra <= REACH * ((plan.get(need.hookup) ?? 0) + (height.get(need.hookup) ?? 0));
  const runs = needs.filter(near).map(({ hookup }) => hookup!);
  const wild = bring.some(({ code }) => code === "regulator") ? [...pressure.keys()] : [];
  const lifts = bring.some(({ code }) => code === "lift-side" || code === "lift-along") && liftsNear(level, slope, spread, rig.gear, policy);
  return [...runs, ...wild, ...(lifts ? ["ground"] : [])];
}

function liftsNear(level: LevelResult, slope: Allowances["slope"], spread: RigForm["spread"], own: { readonly liftSide: number; readonly liftAlong: number }, policy: Policy): boolean {
  const near = (lift: number, has: number, off: number, reach: number) => lift > has && (lift - has <= off * reach || lift <= (policy.levelWithin / 100 + off) * reach);
  return near(level.side, own.liftSide, slope.across, spread.across) || near(level.along, own.liftAlong, slope.along, spread.along);
}

/**
 * For a `no`: what by itself might turn it. At some heading it has to be part of every conflict that stands there; and no slack changes
 * by more than what its number moves by, so that where the roomiest pose is short by more only heights, slopes and runs can help.
 */
export function couldTurnRefusal({ site, policy }: Case, form: RigForm, allowances: Allowances, { conflicts, level, best }: FitResult): Doubted {
  if (conflicts.length === 0) return NONE;
  const headings = new Set(conflicts.map(({ heading }) => heading));
  const everywhere = conflicts.filter(({ heading }) => heading === null);
  const rise = level.side + level.along, doubted = new Set<string>();
  let openings: Openings | null = null;
  const opened = () => (openings ??= openingsOf(site, allowances, form, policy, rise));
  for (const heading of headings) {
    if (heading === null && headings.size > 1) continue;
    const here = [...everywhere, ...conflicts.filter((conflict) => heading !== null && conflict.heading === heading)];
    const sets = here.map((conflict) => thingsThatMightTurn(conflict, site, allowances));
    for (const thing of sets[0] ?? []) if (sets.every((set) => set.has(thing))) doubted.add(thing);
    const mayLift = rise > 0 && allowances.slope.along + allowances.slope.across > 0 && sets.every((set) => set.size > 0);
    if (mayLift && sets.every((set) => set.has("ground") || [...opened().byLift].some((thing) => set.has(thing)))) doubted.add("ground");
  }
  const short = -best.bound - policy.touch;
  const canHelp = (thing: string) => thing === "ground" || short <= (allowances.plan.get(thing) ?? 0) || opened().byHeight.has(thing);
  return new Set([...measuredAmong(doubted, allowances)].filter(canHelp));
}

/** The things whose numbers some constraint of the conflict hangs on, but for hookups that a run misses by more than their errors come to. */
function thingsThatMightTurn({ constraints, shown }: Conflict, site: Site, { plan, height }: Allowances): Set<string> {
  const hookups = (service: string) => site.hookups.filter(({ id, kind }) => {
    const missed = shown?.dropped === `reach:${service}` && !constraints.includes(`fall:${service}`) ? (shown.gap?.short ?? 0) : 0;
    return kind === service && missed <= (plan.get(id) ?? 0) + (height.get(id) ?? 0);
  }).map(({ id }) => id);
  return new Set(constraints.flatMap((constraint): string[] => {
    const [family, what = "", ...rest] = constraint.split(":");
    switch (family) {
      case "stand": return ["pad"];
      case "road": case "lot": return [family];
      case "clear": return [rest.join(":")];
      case "reach": return hookups(what);
      case "fall": return [...hookups(what), "ground"];
      case "level": return ["ground"];
      case "vehicle": return [...plan.keys()];
      default: return [];
    }
  }));
}

/** Obstacles and posts in the rig's way now that would hang over it, or lie under it: at the other end of their own ranges, or with the ground's as level as it may be. */
interface Openings {
  readonly byHeight: Doubted;
  readonly byLift: Doubted;
}

function openingsOf(site: Site, { bare }: Allowances, form: RigForm, policy: Policy, rise: number): Openings {
  const best = terrainOf(bestOf(site, bare)), now = terrainOf(bare), must = form.boxes.filter(({ need }) => need === "must");
  const level = levelOf(best.ground, form, policy), leastRise = level.side + level.along;
  const byHeight = new Set<string>(), byLift = new Set<string>();
  now.barriers.forEach(({ id, solids }, i) => solids.forEach((solid, k) => {
    for (const box of must) {
      if (keptClear({ policy, rise }, box, solid) === null) continue;
      if (keptClear({ policy, rise }, box, best.barriers[i]!.solids[k]!) === null) byHeight.add(id);
      if (keptClear({ policy, rise: leastRise }, box, solid) === null) byLift.add(id);
    }
  }));
  return { byHeight, byLift };
}

const bests = new WeakMap<Site, Site>();

function bestOf(site: Site, bare: Site): Site {
  let best = bests.get(site);
  if (!best) bests.set(site, (best = atEnd(bare, unknownsOf(site), "best")));
  return best;
}

/** Of what was measured exactly, or not at all, nothing is in doubt. */
function measuredAmong(things: ReadonlySet<string>, { plan, height, pressure, slope, worst, bare }: Allowances): Doubted {
  const upright = (thing: string) => bare.obstacles.some((o, i) => o.id === thing && o !== worst.obstacles[i]) || bare.hookups.some((h, i) => h.id === thing && h !== worst.hookups[i]);
  const measured = (thing: string) => (thing === "ground" ? slope.along + slope.across > 0 : plan.has(thing) || height.has(thing) || pressure.has(thing) || upright(thing));
  return new Set([...things].filter(measured));
}
