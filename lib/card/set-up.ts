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
  | { readonly does: "level-side"; readonly tilt: Tilt<"left" | "right"> | null }
  /** `falls`: by how many per cent the ground falls away along the pad, beyond what is taken as level. */
  | { readonly does: "chock"; readonly falls: number | null; readonly unhitches: boolean }
  | { readonly does: "unhitch" }
  | { readonly does: "level-along"; readonly tilt: Tilt<"front" | "rear"> | null; readonly trailer: boolean }
  | { readonly does: "stabilize"; readonly jacks: number }
  | { readonly does: "power"; readonly need: NeedResult; readonly power: PowerResult; readonly adapterBrought: boolean }
  | { readonly does: "water"; readonly need: NeedResult; readonly rinse: boolean; /** kPa; null where nobody measured it. */ readonly pressure: number | null; readonly regulator: "wanted" | "own" | "advised" }
  | { readonly does: "sewer"; readonly need: NeedResult }
  | { readonly does: "gas" }
  | { readonly does: "slides"; readonly out: readonly RigPart[]; readonly leftIn: readonly RigPart[] }
  | { readonly does: "awning"; readonly out: readonly RigPart[]; readonly leftIn: readonly RigPart[] }
  | { readonly does: "vehicle"; readonly place: string };

/** One thing to undo before the rig moves. */
export type Leaving = "awning" | "slides" | "sewer" | "water" | "power" | "gas" | "steps" | "jacks" | "hitch" | "chocks" | "car" | "walk";

/** How one rig is set up where it fits on one site, and how it leaves. */
export interface SetUp {
  readonly pose: Pose;
  readonly steps: readonly Step[];
  readonly leaving: readonly Leaving[];
  readonly side: Tilt<"left" | "right"> | null;
  readonly along: Tilt<"front" | "rear"> | null;
  /** It pivots on its axles, and is leveled front to back by its tongue jack. */
  readonly trailer: boolean;
}

/** A leveling block's height, mm: one inch, as most are sold (common practice). Told beside every count. */
export const blockHeight = 25.4;

/**
 * The steps in a safe order: only those that this rig and site have. Null where the rig stands nowhere.
 *
 * Side to side is leveled before a trailer is unhitched, while the tow vehicle still holds it; wheels are chocked before
 * the hitch is let go; slides and awning come last, on a rig that is level and still (common practice; the owner's manual
 * goes before it).
 */
export function planSetUp(site: Site, rig: Rig, result: FitResult): SetUp | null {
  const { pose, level } = result;
  if (!pose) return null;
  const trailer = !isMotorized(rig.kind), unhitches = trailer && result.vehicle !== "hitched";
  const ground = groundPlane(site.ground), facesOut = pose.heading === "tail-in";
  const comes: Coming = !facesOut ? "drives-in" : site.entry === "back-in" ? "backs-in" : "drives-in-from-far", backsIn = comes === "backs-in";
  const carInTow = !trailer && rig.tow !== undefined && (backsIn || result.vehicle !== "hitched");
  const side = tiltOf(level.side, (ground.acrossGradient > 0) === facesOut ? "left" as const : "right" as const);
  const along = tiltOf(level.along, (ground.alongGradient > 0) === facesOut ? "front" as const : "rear" as const);
  // The tongue jack is not one of them: it carries the trailer.
  const jacks = rig.supports.filter(({ kind, at: [u] }) => kind === "jack" && u <= rig.body.length).length;
  const [out, leftIn] = split(rig.parts, ({ id }) => !result.leftIn.includes(id));
  const ofKind = (kind: string) => ({ out: out.filter((part) => part.kind === kind), leftIn: leftIn.filter((part) => part.kind === kind) });
  const slides = ofKind("slide"), awnings = ofKind("awning");
  const steps: (Step | null)[] = [
    { does: "look", overhead: findOverhead(site, rig, pose, result.leftIn) },
    carInTow ? { does: "uncouple", backsIn } : null,
    { does: "stand", marks: findMarks(site, rig, pose, backsIn), comes },
    { does: "check", parts: out, needs: result.needs.filter(({ ok }) => ok !== "no"), unhitches },
    { does: "level-side", tilt: side },
    { does: "chock", falls: along || level.along > 0 ? Math.abs(ground.alongGradient) * 100 : null, unhitches },
    unhitches ? { does: "unhitch" } : null,
    { does: "level-along", tilt: along, trailer },
    jacks > 0 ? { does: "stabilize", jacks } : null,
    powerStep(result),
    waterStep(site, rig, result),
    serviceStep(result, "sewer"),
    { does: "gas" },
    slides.out.length + slides.leftIn.length > 0 ? { does: "slides", ...slides } : null,
    awnings.out.length + awnings.leftIn.length > 0 ? { does: "awning", ...awnings } : null,
    result.vehicle !== null && result.vehicle !== "hitched" && result.vehicle !== "no" ? { does: "vehicle", place: result.vehicle } : null,
  ];
  const present = steps.filter((step) => step !== null);
  return { pose, steps: present, leaving: leavingAfter(present), side, along, trailer };
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

function powerStep(result: FitResult): Step | null {
  const need = needOf(result, "power"), { power } = result;
  return need && power ? { does: "power", need, power, adapterBrought: result.bring.some(({ code }) => code === "adapter") } : null;
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

/** What was set up is taken down in the reverse order, and whoever drives walks around last. */
function leavingAfter(steps: readonly Step[]): Leaving[] {
  const has = (does: Step["does"]) => steps.some((step) => step.does === does);
  const order: readonly (readonly [Leaving, boolean])[] = [
    ["awning", has("awning")], ["slides", has("slides")], ["sewer", has("sewer")], ["water", has("water")], ["power", has("power")], ["gas", true], ["steps", true],
    ["jacks", has("stabilize")], ["hitch", has("unhitch")], ["chocks", true], ["car", has("uncouple")], ["walk", true],
  ];
  return order.filter(([, there]) => there).map(([what]) => what);
}

