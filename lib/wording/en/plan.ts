import type { NeedResult, Pose, Service } from "@/lib/fit/types";
import type { Hookup, Obstacle, Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import type { Numbers } from "../format";
import { cap, list } from "./text";

/** Where something lies, as a person walking in from the road would say it. */
export interface Where {
  /** From the pad's entry edge into the site, mm. */
  readonly into: number;
  /** Left of the pad's centerline, looking in from the road, mm; negative to the right. */
  readonly left: number;
}

const LINES: Record<Service, string> = { power: "power cord", water: "water hose", sewer: "sewer hose" };

/** Closer to the centerline than this counts as on it: a wheel's width. */
const ON_LINE = 100;

/** The plan told in sentences, for those who cannot see it. */
export const plan = {
  title: (label: string, verdict: string | null) => (verdict === null ? `Plan of site ${label}` : `Plan of site ${label}: ${verdict}`),

  site: (site: Site, size: { long: number; wide: number }, n: Numbers) =>
    `The site is a ${site.entry}. Its pad${site.pad.surface ? `, ${site.pad.surface},` : ""} is ${n.measured(size.long)} long and ${n.measured(size.wide)} wide at its longest and widest.`,

  slope: (along: number, across: number) => {
    const parts = [
      Math.abs(along) >= 0.05 ? `${along > 0 ? "rises" : "falls"} ${percent(along)} going in from the road` : null,
      Math.abs(across) >= 0.05 ? `${across > 0 ? "rises" : "falls"} ${percent(across)} toward the left, looking in from the road` : null,
    ].filter((p) => p !== null);
    return parts.length > 0 ? `The ground ${list(parts)}.` : "The ground is level.";
  },

  stands: (pose: Pose, rig: Rig, n: Numbers) => {
    const how = pose.heading === "tail-in" ? "Back in, so that the front faces the road." : "Drive in nose first, so that the rear faces the road.";
    return `${how} The ${endOf(pose)} wall stands ${n.measured(deepOf(pose, rig))} in from the pad’s entry edge, the rig’s centerline ${aside(pose.y, n)}.`;
  },

  notDrawn: "The plan shows the site without the rig, since there is no place for it.",

  /** The nearest try of a refusal: where it is drawn, and what is missing there. */
  nearest: (pose: Pose, rig: Rig, n: Numbers) =>
    `There is no place for the rig. The plan shows the nearest try, dashed: not a place to park. ${pose.heading === "tail-in" ? "Backed in" : "Driven in nose first"}, the ${endOf(pose)} wall would stand ${n.measured(Math.abs(deepOf(pose, rig)))} ${deepOf(pose, rig) >= 0 ? "in from" : "before"} the pad’s entry edge, the rig’s centerline ${aside(pose.y, n)}.`,
  missing: (between: readonly [string, string], short: number, n: Numbers) =>
    `Missing there: ${n.lackingInBoth(short)} between ${between[0]} and ${between[1]}.`,
  missingPad: (short: number, n: Numbers) => `Missing there: ${n.lackingInBoth(short)} of pad under the tires and jacks.`,
  missingRun: (service: Service, target: string, short: number, fall: boolean, n: Numbers) =>
    fall ? `${cap(target)} lies ${n.lackingInBoth(short)} too high there for the ${LINES[service]} to run downhill.` : `The ${LINES[service]} would run ${n.lackingInBoth(short)} further to ${target} than the park allows.`,
  nearestCaption: (missing: string) => `Nearest try, not a place to park. ${missing}`,
  notSettled: "The plan shows the site without the rig, since no place was found in the time allowed.",

  open: (names: readonly string[]) => (names.length > 0 ? `Open: ${list(names)}.` : "Nothing opens out."),
  staysIn: (names: readonly string[]) => `Has to stay in: ${list(names)}.`,
  named: (name: string, side: string) => `${name} (${side})`,

  line: (need: NeedResult, target: string, n: Numbers) =>
    `The ${LINES[need.service]} takes ${n.lacking(need.route ?? 0)} in all to ${target}${need.underBody ? ", passing under the rig" : ""}${need.extra > 0 ? `, ${n.lacking(need.extra)} more than yours` : ""}.`,

  lift: (way: "side" | "along", amount: number, low: string, n: Numbers) =>
    `Level ${way === "side" ? "side to side" : "front to back"}: raise the ${low} by ${n.lacking(amount)}.`,
  lowSide: { left: "road side", right: "curb side", front: "front", rear: "rear" },

  vehicle: (where: string, towed: boolean) => {
    const what = `The ${towed ? "towed car" : "tow vehicle"}`;
    if (where === "hitched") return `${what} stays hitched.`;
    if (where === "in line") return `${what} stands in line with the rig.`;
    if (where === "overflow") return `${what} goes to overflow parking.`;
    if (where === "no") return `${what} has no place.`;
    return `${what} stands in the parking stall ${where}.`;
  },

  /** Where least is left over, the gap itself and how much of it is always kept. */
  gap: (between: readonly [string, string], { distance, slack }: { distance: number; slack: number }, n: Numbers) => {
    const keep = distance - slack;
    return `Closest: ${between[0]} to ${between[1]}, ${n.spare(Math.max(0, distance))}${keep > 1 ? ` (at least ${n.lacking(keep)} is kept here)` : ""}.`;
  },

  obstacle: (name: string, { into, left }: Where, obstacle: Obstacle, n: Numbers) =>
    `${cap(name)} stands ${n.measured(into)} in, ${aside(left, n)}${heights(obstacle, n)}.`,

  hookup: (name: string, { into, left }: Where, hookup: Hookup, n: Numbers) =>
    `${cap(name)} is ${n.measured(into)} in, ${aside(left, n)}${hookup.receptacles?.length ? `, with ${list(hookup.receptacles.map((a) => `${a} A`))}` : ""}.`,

  /** Words and marks on the drawing itself. */
  drawing: {
    road: "road",
    exit: "road at the far end",
    front: "front",
    rear: "rear",
    roadSide: "road side",
    curbSide: "curb side",
    north: "N",
    staysIn: "stays in",
    parking: "parking",
    vehicle: (towed: boolean) => (towed ? "car" : "truck"),
    limbsFrom: (height: string) => `limbs from ${height}`,
    fromTo: (from: string | null, to: string) => (from ? `${from} to ${to}` : `${to} high`),
    receptacles: (amperes: readonly number[]) => `${amperes.join(", ")} A`,
    gap: (size: string) => `gap ${size}`,
    short: (size: string) => `${size} short`,
    over: (size: string) => `${size} over`,
    tooHigh: (size: string) => `${size} too high`,
    notAPlace: "not a place to park",
  },

  inWords: "The plan in words",
  legend: "How to read it",
  legendLines: [
    "Drawn to scale, seen from above, the road at the bottom.",
    "Heavy outline: the rig. Light outlines beside it: what opens out. Dashed: what has to stay in.",
    "A tree is drawn as its trunk (solid) and the edge of its limbs (scalloped ring).",
    "Square: power. Drop: water. Ring: sewer. Crossed drop: rinse water, not for drinking.",
    "Long dashes: power cord. Dots: water hose. Double line: sewer hose.",
    "Red line with end ticks: the gap with least to spare, and its size.",
  ],
  refusedLegendLines: [
    "Drawn to scale, seen from above, the road at the bottom.",
    "Dashed outline: the nearest try. It is not a place to park. Parts that may stay in are left out.",
    "Heavy: what stands against it. Faint: all the rest.",
    "Red line with end ticks: what is missing, from the rig to where it would have to be.",
    "A tree is drawn as its trunk (solid) and the edge of its limbs (scalloped ring).",
    "Square: power. Drop: water. Ring: sewer. Crossed drop: rinse water, not for drinking.",
  ],
};

/** The end of the rig that lies away from the road, and how far in it stands, mm. */
function endOf({ heading }: Pose): string {
  return heading === "tail-in" ? "rear" : "front";
}

function deepOf({ heading, x }: Pose, rig: Rig): number {
  return heading === "tail-in" ? x : x + rig.body.length;
}

function heights(o: Obstacle, n: Numbers): string {
  if (o.kind === "tree") return `; its limbs begin ${n.spare(o.crownFrom ?? 0)} up and reach ${n.measured(o.crownRadius ?? 0)} out from the trunk`;
  const from = o.from ?? 0, to = o.to ?? 0;
  return from > 0 ? `, from ${n.spare(from)} to ${n.lacking(to)} up` : `, ${n.lacking(to)} high`;
}

function aside(left: number, n: Numbers): string {
  if (Math.abs(left) < ON_LINE) return "on the pad’s centerline";
  return `${n.measured(Math.abs(left))} ${left > 0 ? "left" : "right"} of the pad’s centerline`;
}

function percent(value: number): string {
  return `${Math.abs(value).toFixed(1)} %`;
}
