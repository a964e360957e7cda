import { terrainOf, type Site } from "@/lib/park";
import { isMotorized, type Rig } from "@/lib/rig";
import type { SearchResult } from "@/lib/search";
import { Approach } from "./approach";
import type { Setting } from "./constraints";
import { formOf, type RigForm } from "./form";
import { Workspace } from "./landscapes";
import { levelOf } from "./level";
import { limitOf } from "./limit";
import { liftReasons, partsLeftIn, shortOfGear, thingsToBring, tightness, wishReasons } from "./notes";
import type { Policy } from "./policy";
import type { Case } from "./refusal/changes";
import { refuse, type Refusal } from "./refusal/reasons";
import { brokenRules } from "./rules";
import { scoreOf } from "./score";
import { servedAt, type Served } from "./served";
import { anyPose, settle, type Placed } from "./solve";
import type { FitResult, Heading, LevelResult, Limit, Pose, PowerResult, Reason } from "./types";
import { stallFor } from "./vehicle";

/** Ample: a hard case takes some thousands. */
export const DEFAULT_BUDGET = 200_000;

interface Roomiest {
  readonly approach: Approach;
  readonly search: SearchResult;
}

/** The headings a rig may take on a site. */
export function headingsFor(site: Site, rig: Rig): Heading[] {
  if (site.entry === "pull-through") return site.enterFrom === "either" ? ["nose-in", "tail-in"] : ["nose-in"];
  return isMotorized(rig.kind) ? ["tail-in", "nose-in"] : ["tail-in"];
}

/** A case made ready: its setting and approaches, and what fails whatever the pose. */
export interface Prepared {
  readonly setting: Setting;
  readonly level: LevelResult;
  readonly approaches: readonly Approach[];
  readonly broken: readonly Reason[];
}

export function prepare(site: Site, form: RigForm, policy: Policy, budget: number, work: Workspace): Prepared {
  const { rig } = form;
  const terrain = terrainOf(site);
  const level = levelOf(terrain.ground, form, policy);
  const setting: Setting = { terrain, form, policy, rise: level.side + level.along, stall: stallFor(site, rig, policy) };
  const approaches = headingsFor(site, rig).map((heading) => new Approach(setting, heading, work, budget));
  return { setting, level, approaches, broken: brokenRules(site, rig, policy) };
}

/** What rules and slope leave open, whatever the pose. */
export function allowedBy(broken: readonly Reason[], level: LevelResult) {
  return { own: broken.length === 0 && level.ok === "own", gear: broken.length === 0 && level.ok !== "no" };
}

export function isPossible({ approaches, broken, level }: Prepared): boolean {
  return broken.length === 0 && level.ok !== "no" && anyPose(approaches);
}

export function answer(site: Site, form: RigForm, policy: Policy, { budget = DEFAULT_BUDGET }: { readonly budget?: number }, work: Workspace): FitResult {
  const { setting, level, approaches, broken } = prepare(site, form, policy, budget, work);
  const searches: Roomiest[] = approaches.map((approach) => ({ approach, search: approach.best }));
  const roomiest = searches.reduce((a, b) => ((b.search.best?.value ?? -Infinity) > (a.search.best?.value ?? -Infinity) ? b : a));
  const best = { room: roomiest.search.best?.value ?? -Infinity, bound: Math.max(...searches.map(({ search }) => search.bound)) };

  const { verdict, placed } = settle(approaches, allowedBy(broken, level));
  const at = placed ?? { approach: roomiest.approach, pose: { x: roomiest.search.best?.x ?? 0, y: roomiest.search.best?.y ?? 0 } };
  const served = servedAt(at.approach, at.pose.x, at.pose.y, placed === null || placed.strict ? 0 : policy.touch);
  const shared = { site: site.id, verdict, best, needs: served.map((s) => s.result), level, ground: groundOf(setting), power: powerAt(served), conflicts: [], remedies: [], asks: [], access: null } as const;

  if (!placed) {
    const score = scoreAt(setting, best.bound, served, level, [], 0);
    const { reasons, conflicts } = verdict === "unsettled" ? UNSETTLED : refuse(approaches, roomiest.approach, [...broken, ...liftsBeyond(setting, level)]);
    return { ...shared, tight: false, score, pose: null, room: null, limit: null, vehicle: vehicleAt(setting, null), leftIn: [], bring: [], reasons, conflicts };
  }
  return { ...shared, ...placedAnswer(setting, placed, served, level) };
}

/** The answer for standing at another pose; null where the verdict, what is out and `room` do not hold there. */
export type Elsewhere = (pose: Pose, room: number) => FitResult | null;

/** Looks at other poses than the one of `result`, a `fits` or `gear`, with the same parts out. */
export function elsewhere({ site, rig, policy }: Case, result: FitResult): { readonly at: Elsewhere; readonly roomiest: readonly Pose[] } {
  const { setting, level, approaches } = prepare(site, formOf(rig), policy, DEFAULT_BUDGET, new Workspace());
  const nice = new Set(setting.form.boxes.filter((b) => b.need === "nice" && !result.leftIn.includes(b.id)).map((b) => b.id));
  const by = result.verdict === "gear" ? "gear" : "own";
  const at: Elsewhere = (pose, room) => {
    const approach = approaches.find(({ heading }) => heading === pose.heading);
    if (!approach || approach.envelope(nice).valueAt(pose.x, pose.y) < room) return null;
    const served = servedAt(approach, pose.x, pose.y, 0);
    if (served.some(({ result: { ok } }) => ok === "no" || (by === "own" && ok === "gear"))) return null;
    const there = placedAnswer(setting, { approach, pose, by, strict: true, nice }, served, level);
    return there.vehicle === "no" ? null : { ...result, ...there, needs: served.map((s) => s.result), power: powerAt(served) };
  };
  const roomiest = approaches.flatMap((approach): Pose[] => {
    if (approach.heading === result.pose?.heading) return [result.pose];
    const { best } = approach.place(by, nice, []);
    return best ? [{ x: best.x, y: best.y, heading: approach.heading }] : [];
  });
  return { at, roomiest };
}

function placedAnswer(setting: Setting, placed: Placed, served: readonly Served[], level: LevelResult) {
  const { form: { rig, boxes }, policy, terrain: { site } } = setting;
  const { approach, pose, nice } = placed;
  const { constraint, slack: room } = approach.tightest(nice, pose.x, pose.y);
  const limit: Limit = limitOf(setting, constraint, room, pose);
  const tight = room < policy.tight;
  const niceParts = boxes.filter((b) => b.need === "nice").map((b) => b.id);
  const leftIn = niceParts.filter((id) => !nice.has(id));
  const vehicle = vehicleAt(setting, placed);
  const wishes = wishReasons(site, rig.wishes);
  const power = powerAt(served);
  const reasons: Reason[] = [
    ...(placed.by === "gear" ? shortOfGear(setting, served, level) : []),
    ...(tight ? [tightness(limit, [constraint.part, constraint.other])] : []),
    ...partsLeftIn(placed, leftIn),
    ...(power?.shed ?? []).map((load) => ({ code: "shed", parts: [load], short: null })),
    ...(vehicle === "overflow" ? [{ code: "overflow", parts: ["vehicle"], short: null }] : []),
    ...wishes,
  ];
  const score = scoreAt(setting, room, served, level, wishes, nice.size);
  return { tight, score, pose, room, limit, vehicle, leftIn, bring: placed.by === "gear" ? thingsToBring(setting, served, level) : [], reasons };
}

const UNSETTLED: Refusal = { reasons: [{ code: "budget", parts: [], short: null }], conflicts: [] };

/** Lifts that not even what the park lets be brought would make. */
function liftsBeyond({ form: { rig: { gear } }, policy }: Setting, level: LevelResult): Reason[] {
  return liftReasons(level, gear, { liftSide: policy.maxLiftSide, liftAlong: policy.maxLiftAlong }, "no");
}

function powerAt(served: readonly Served[]): PowerResult | null {
  const entry = served.find(({ result }) => result.service === "power");
  if (!entry?.pair) return null;
  const { own, gear } = entry.pair.power;
  return (entry.result.ok === "own" ? own : own ?? gear)?.result ?? null;
}

/** Where the tow vehicle or towed car stands. */
function vehicleAt(setting: Setting, placed: Placed | null): string | null {
  const { form: { rig: { tow } }, policy, stall } = setting;
  if (!tow || tow.stays === "elsewhere") return null;
  if (tow.stays === "hitched") return "hitched";
  if (stall !== null) return stall;
  if (placed) {
    const { approach, pose, nice, strict } = placed;
    if (approach.inLineHolds(nice, pose.x, pose.y, strict ? 0 : policy.touch)) return "in line";
  }
  return policy.overflow ? "overflow" : "no";
}

function groundOf({ terrain: { ground } }: Setting) {
  return { along: 100 * ground.alongGradient, across: 100 * ground.acrossGradient, worstResidual: ground.worstResidual };
}

function scoreAt(setting: Setting, room: number, served: readonly Served[], level: LevelResult, wishes: readonly Reason[], niceOut: number): number {
  const { form: { rig, boxes }, policy } = setting;
  const power = powerAt(served);
  return scoreOf({
    room, comfort: policy.comfort,
    runs: served.map(({ result }) => ({ route: result.route, longest: policy.longest[result.service], own: result.ok === "own" })),
    side: level.side, along: level.along, maxSide: policy.maxLiftSide, maxAlong: policy.maxLiftAlong,
    loads: rig.electric?.loads.length ?? 0, loadsServed: power ? power.runs.length : 0,
    niceParts: boxes.filter((b) => b.need === "nice").length, nicePartsOut: niceOut,
    wishes: wishes.length, wishesMet: wishes.filter((w) => w.short === null).length,
  });
}
