import { isMotorized, type Rig, type RigPart } from "@/lib/rig";
import { typicalRig } from "@/lib/rig/typical";
import type { CalledKind, Call } from "./read-call";

/**
 * What a caller knows of a rig beside its kind and length, each a question to be answered with yes or no. Until it is
 * answered, the usual answer for that kind and length holds.
 */
export const factIds = ["accessible", "sewer", "hookups", "plug-50", "left-slide", "right-slide", "tall", "vehicle", "pets"] as const;
export type FactId = (typeof factIds)[number];
export type Answers = Readonly<Partial<Record<FactId, boolean>>>;

/** How much taller a rig counts whose height is more than the usual: a second air conditioner, a rack, an antenna. Millimetres. */
export const TALLER_BY = 300;

/** The questions that make sense for a kind. */
export function factsOf({ kind, overall }: Call): FactId[] {
  const rig = typicalRig(kind, overall);
  return factIds.filter((id) => {
    if (id === "sewer") return rig.inlets.some((inlet) => inlet.kind === "sewer");
    if (id === "plug-50") return MAY_HAVE_50.has(kind);
    if (id === "left-slide" || id === "right-slide") return MAY_SLIDE.has(kind);
    return true;
  });
}

/** The usual answer for a rig of that kind and length. */
export function usualAnswer({ kind, overall }: Call, id: FactId): boolean {
  const rig = typicalRig(kind, overall);
  switch (id) {
    case "accessible": return rig.party.accessible;
    case "hookups": return rig.wants.length > 0;
    case "sewer": return rig.wants.includes("sewer");
    case "plug-50": return rig.electric?.plug === 50;
    case "left-slide": return hasSlide(rig, "left");
    case "right-slide": return hasSlide(rig, "right");
    case "tall": return false;
    case "vehicle": return rig.tow?.stays === "on-site";
    case "pets": return rig.party.pets > 0;
  }
}

/** The usual rig of the call, changed by what the caller answered. */
export function rigOf(call: Call, answers: Answers): Rig {
  return factIds.reduce((rig, id) => {
    const answer = answers[id];
    return answer === undefined || answer === usualAnswer(call, id) ? rig : changed(rig, id, answer);
  }, typicalRig(call.kind, call.overall));
}

const MAY_HAVE_50: ReadonlySet<CalledKind> = new Set(["class-a", "travel-trailer", "fifth-wheel", "toy-hauler"]);
const MAY_SLIDE: ReadonlySet<CalledKind> = new Set(["class-a", "class-c", "travel-trailer", "fifth-wheel", "toy-hauler"]);

function changed(rig: Rig, id: FactId, yes: boolean): Rig {
  switch (id) {
    case "accessible": return { ...rig, party: { ...rig.party, accessible: yes } };
    // After the drain in the list: one who can do without any hookup needs no drain either, whatever was answered first.
    case "hookups": return { ...rig, wants: [] };
    case "sewer": return { ...rig, wants: yes ? [...rig.wants, "sewer"] : rig.wants.filter((w) => w !== "sewer") };
    case "plug-50": return rig.electric ? { ...rig, electric: { ...rig.electric, plug: yes ? 50 : 30 } } : rig;
    case "left-slide": case "right-slide": return withSlide(rig, id === "left-slide" ? "left" : "right", yes);
    case "tall": return { ...rig, body: { ...rig.body, height: rig.body.height + TALLER_BY } };
    case "vehicle": return withVehicle(rig, yes);
    case "pets": return { ...rig, party: { ...rig.party, pets: yes ? 1 : 0 } };
  }
}

function hasSlide(rig: Rig, side: RigPart["side"]): boolean {
  return rig.parts.some((part) => part.kind === "slide" && part.side === side);
}

/** Where a slide usually sits, as shares of the body from its rear, and how far it comes out (mm): a lounge on the road side, a bed on the curb side. */
const SLIDES = { left: { from: 0.5, to: 0.8, depth: 900 }, right: { from: 0.06, to: 0.28, depth: 750 } } as const;

function withSlide(rig: Rig, side: "left" | "right", yes: boolean): Rig {
  if (!yes) return { ...rig, parts: rig.parts.filter((part) => part.kind !== "slide" || part.side !== side) };
  const { from, to, depth } = SLIDES[side];
  const along = (share: number) => Math.round(rig.body.length * share);
  const slide: RigPart = { id: `${side}-slide`, kind: "slide", side, span: [along(from), along(to)], depth, from: 750, to: Math.min(2_850, rig.body.height - 250), need: "must" };
  return { ...rig, parts: [slide, ...rig.parts] };
}

/** A car of middling size, towed behind a motorhome. Millimetres. */
const CAR = { length: 4_800, width: 1_900, height: 1_750, overlap: undefined, stays: "on-site" } as const;

function withVehicle(rig: Rig, yes: boolean): Rig {
  if (isMotorized(rig.kind)) return { ...rig, tow: yes ? CAR : undefined };
  return { ...rig, tow: rig.tow && { ...rig.tow, stays: yes ? "on-site" : "elsewhere" } };
}
