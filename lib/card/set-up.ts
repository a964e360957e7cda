import type { FitResult, LevelResult, NeedResult, PowerResult, Pose } from "@/lib/fit";
import { groundPlane, type Site } from "@/lib/park";
import { isMotorized, type Rig, type RigPart } from "@/lib/rig";
import { findMarks, type StopMarks } from "./marks";
import { findOverhead, type Overhead } from "./overhead";

/** The lower side or end of a rig as it stands, and the lift that levels it, mm; null within tolerance. */
export interface Tilt<Low extends string> {
  readonly low: Low;
  readonly lift: number;
  /** So many blocks of {@link blockHeight}, rounded up. */
  readonly blocks: number;
}

/** How a rig comes onto its place: backed in, or forward from the road in front or the one at the far end. */
export type Coming = "backs-in" | "drives-in" | "drives-in-from-far";

/** One thing to do, with this rig's and this site's numbers. */
export type Step =
  | { readonly does: "look"; readonly overhead: readonly Overhead[] }
  /** A car in tow comes off before the rig is backed, or where it does not stay on the hitch here. */
  | { readonly does: "uncouple"; readonly backsIn: boolean }
  | { readonly does: "stand"; readonly marks: StopMarks; readonly comes: Coming }
  | { readonly does: "check"; readonly parts: readonly RigPart[]; readonly needs: readonly NeedResult[]; readonly unhitches: boolean }
  | { readonly does: "level-side"; readonly tilt: Tilt<"left" | "right"> | null; readonly unhitches: boolean }
  /** `falls`: by how many per cent the ground falls away along the pad, where it is enough to roll on. */
  | { readonly does: "chock"; readonly falls: number | null; readonly unhitches: boolean }
  | { readonly does: "unhitch"; readonly front: Front }
  | { readonly does: "level-along"; readonly tilt: Tilt<"front" | "rear"> | null; readonly by: LevelsBy }
  | { readonly does: "stabilize"; readonly jacks: number }
  /** Leveling jacks of a motorized rig. */
  | { readonly does: "jacks"; readonly jacks: number }
  | { readonly does: "power"; readonly need: NeedResult; readonly power: PowerResult; readonly instead: readonly Instead[] }
  | { readonly does: "water"; readonly need: NeedResult; readonly rinse: boolean; /** kPa; null where nobody measured it. */ readonly pressure: number | null; readonly regulator: "wanted" | "own" | "advised" }
  | { readonly does: "sewer"; readonly need: NeedResult }
  | { readonly does: "gas" }
  | { readonly does: "slides"; readonly out: readonly RigPart[]; readonly leftIn: readonly RigPart[] }
  /** Beds, ramps, lifts: whatever opens and is neither slide, awning nor door. */
  | { readonly does: "parts"; readonly out: readonly RigPart[]; readonly leftIn: readonly RigPart[] }
  | { readonly does: "awning"; readonly out: readonly RigPart[]; readonly leftIn: readonly RigPart[] }
  /** `place`: a stall's id, or in line, overflow, or behind a rig that was backed in without the car that stays on its hitch. */
  | { readonly does: "vehicle"; readonly place: string };

/** What carries the front of a trailer off its hitch: a tongue jack, or the two legs of a fifth wheel. */
export type Front = "jack" | "legs";

/** What levels a rig front to back: the front of a trailer off its hitch, blocks under tires, or nothing while it stays hitched. */
export type LevelsBy = Front | "blocks" | "nothing";

/** A load that does not run on top of the others, and what has to be off first; null where the outlet does not carry it at all. */
export interface Instead {
  readonly load: string;
  readonly off: readonly string[] | null;
}

/** One thing to undo before the rig moves, but for the car in tow: that is hooked up after it has. */
export type Leaving = "awning" | "parts" | "slides" | "gas" | "sewer" | "water" | "power" | "steps" | "jacks" | "hitch" | "uncouple" | "chocks" | "walk" | "car";

/** How one rig is set up where it fits on one site, and how it leaves. */
export interface SetUp {
  readonly pose: Pose;
  readonly steps: readonly Step[];
  readonly leaving: readonly Leaving[];
  readonly side: Tilt<"left" | "right"> | null;
  readonly along: Tilt<"front" | "rear"> | null;
  readonly levelsBy: LevelsBy;
}

/** A pad that falls away along itself by this many per cent is one to roll on; a rig rolls on less (common practice). */
const ROLLS_FROM = 0.5;

/** A leveling block's height, mm: one inch, as most are sold (common practice). Told beside every count. */
export const blockHeight = 25.4;

/**
 * The steps in a safe order: only those that this rig and site have. Null where the rig stands nowhere.
 *
 * Side to side is leveled before a trailer is unhitched, while the tow vehicle still holds it; wheels are chocked before
 * the hitch is let go, and after whatever drives onto blocks; slides and awning come last, on a rig that is level and still
 * (common practice; the owner's manual goes before it).
 */
export function planSetUp(site: Site, rig: Rig, result: FitResult): SetUp | null {
  const { pose, level } = result;
  if (!pose) return null;
  const motorized = isMotorized(rig.kind), hitched = result.vehicle === "hitched", unhitches = !motorized && !hitched;
  const ground = groundPlane(site.ground), facesOut = pose.heading === "tail-in";
  const comes: Coming = !facesOut ? "drives-in" : site.entry === "back-in" ? "backs-in" : "drives-in-from-far", backsIn = comes === "backs-in";
  const carInTow = motorized && rig.tow !== undefined, carComesOff = carInTow && (backsIn || !hitched), backsOut = comes === "drives-in" && site.entry === "back-in";
  const side = tiltOf(level.side, (ground.acrossGradient > 0) === facesOut ? "left" as const : "right" as const);
  const along = tiltOf(level.along, (ground.alongGradient > 0) === facesOut ? "front" as const : "rear" as const);
  const front: Front = rig.kind === "fifth-wheel" ? "legs" : "jack", levelsBy = unhitches ? front : motorized ? "blocks" : "nothing";
  const fall = Math.abs(ground.alongGradient) * 100;
  const [out, leftIn] = split(rig.parts, ({ id }) => !result.leftIn.includes(id));
  const ofKind = (test: (kind: string) => boolean) => ({ out: out.filter(({ kind }) => test(kind)), leftIn: leftIn.filter(({ kind }) => test(kind)) });
  const opened = (does: "slides" | "parts" | "awning", test: (kind: string) => boolean): Step | null => {
    const parts = ofKind(test);
    return parts.out.length + parts.leftIn.length > 0 ? { does, ...parts } : null;
  };
  const levelAlong: Step = { does: "level-along", tilt: along, by: levelsBy };
  const steps: (Step | null)[] = [
    { does: "look", overhead: findOverhead(site, rig, pose, result.leftIn) },
    carComesOff ? { does: "uncouple", backsIn } : null,
    { does: "stand", marks: findMarks(site, rig, pose, backsIn), comes },
    { does: "check", parts: out, needs: result.needs.filter(({ ok }) => ok !== "no"), unhitches },
    { does: "level-side", tilt: side, unhitches },
    unhitches ? null : levelAlong,
    { does: "chock", falls: fall >= ROLLS_FROM ? fall : null, unhitches },
    unhitches ? { does: "unhitch", front } : null,
    unhitches ? levelAlong : null,
    jacksStep(rig),
    powerStep(rig, result),
    waterStep(site, rig, result),
    serviceStep(result, "sewer"),
    { does: "gas" },
    opened("slides", (kind) => kind === "slide"),
    opened("parts", (kind) => kind !== "slide" && kind !== "awning" && kind !== "entry"),
    opened("awning", (kind) => kind === "awning"),
    vehicleStep(result, carComesOff),
  ];
  const present = steps.filter((step) => step !== null);
  return { pose, steps: present, leaving: leavingAfter(present, carInTow && hitched && backsOut), side, along, levelsBy };
}

function tiltOf<Low extends string>(lift: LevelResult["side"], low: Low): Tilt<Low> | null {
  return lift > 0 ? { low, lift, blocks: Math.ceil(lift / blockHeight - 1e-9) } : null;
}

function split<T>(all: readonly T[], test: (one: T) => boolean): [T[], T[]] {
  return [all.filter(test), all.filter((one) => !test(one))];
}

function needOf(result: FitResult, service: NeedResult["service"]): NeedResult | null {
  return result.needs.find((need) => need.service === service && need.hookup !== null && need.ok !== "no") ?? null;
}

/** Jacks that carry no hitch: a trailer's stabilizers, or what a motorized rig is leveled with. A fifth wheel's ahead of its axles are its legs. */
function jacksStep({ kind, body, supports }: Rig): Step | null {
  const foremostTire = Math.max(...supports.filter((support) => support.kind === "tyre").map(({ at: [u] }) => u));
  const jacks = supports.filter((support) => support.kind === "jack" && support.at[0] <= (kind === "fifth-wheel" ? foremostTire : body.length)).length;
  return jacks > 0 ? { does: isMotorized(kind) ? "jacks" : "stabilize", jacks } : null;
}

/** Where the car stands: one that stays on the hitch of a rig that was backed in has its room behind it, and has to be there first. */
function vehicleStep({ vehicle }: FitResult, comesOff: boolean): Step | null {
  if (vehicle === null || vehicle === "no") return null;
  if (vehicle === "hitched") return comesOff ? { does: "vehicle", place: "behind" } : null;
  return { does: "vehicle", place: vehicle };
}

function powerStep({ electric }: Rig, result: FitResult): Step | null {
  const need = needOf(result, "power"), { power } = result;
  return need && power ? { does: "power", need, power, instead: power.shed.map((load) => ({ load, off: offFor(load, electric!.loads, power) })) } : null;
}

/**
 * What has to be off before a load that does not run on top of the others is turned on: one thing if one is enough, the
 * smallest that is, what is only nice to have first; else the largest ones until it is enough.
 */
function offFor(id: string, loads: NonNullable<Rig["electric"]>["loads"], { runs, usableVa }: PowerResult): string[] | null {
  const own = loads.find((load) => load.id === id)!, running = loads.filter((load) => runs.includes(load.id));
  let over = own.va + running.reduce((sum, { va }) => sum + va, 0) - usableVa;
  const niceFirst = (a: { need: string }, b: { need: string }) => Number(a.need === "must") - Number(b.need === "must");
  const [one] = running.filter(({ va }) => va >= over).sort((a, b) => niceFirst(a, b) || a.va - b.va);
  if (one) return [one.id];
  const off: string[] = [];
  for (const load of [...running].sort((a, b) => niceFirst(a, b) || b.va - a.va)) {
    if (over <= 0) break;
    off.push(load.id);
    over -= load.va;
  }
  return over <= 0 ? off : null;
}

function waterStep(site: Site, rig: Rig, result: FitResult): Step | null {
  const need = needOf(result, "water");
  if (!need) return null;
  const tap = site.hookups.find(({ id }) => id === need.hookup), pressure = tap?.pressure ?? null;
  const regulator = result.bring.some(({ code }) => code === "regulator") ? "wanted" : rig.gear.regulator ? "own" : "advised";
  return { does: "water", need, rinse: site.hookups.some(({ kind }) => kind === "rinse-water"), pressure, regulator };
}

function serviceStep(result: FitResult, service: "sewer"): Step | null {
  const need = needOf(result, service);
  return need && { does: service, need };
}

/** What was set up is taken down in the reverse order, and whoever drives walks around last, before anything moves. */
function leavingAfter(steps: readonly Step[], carComesOffFirst: boolean): Leaving[] {
  const has = (does: Step["does"]) => steps.some((step) => step.does === does), opened = (does: "slides" | "parts" | "awning") => steps.some((step) => step.does === does && step.out.length > 0);
  const order: readonly (readonly [Leaving, boolean])[] = [
    ["awning", opened("awning")], ["parts", opened("parts")], ["slides", opened("slides")], ["gas", true], ["sewer", has("sewer")], ["water", has("water")], ["power", has("power")], ["steps", true],
    ["jacks", has("stabilize") || has("jacks")], ["hitch", has("unhitch")], ["uncouple", carComesOffFirst], ["chocks", true], ["walk", true], ["car", has("uncouple") || carComesOffFirst],
  ];
  return order.filter(([, there]) => there).map(([what]) => what);
}
