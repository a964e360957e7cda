import type { Means, Reason, Service } from "@/lib/fit/types";
import { overallLength, type Rig } from "@/lib/rig";
import type { Site } from "@/lib/park";
import type { Numbers } from "../format";
import { vehicleOf, type Thing } from "../things";
import { cap, count, list } from "./text";
import { things } from "./things";

/** What a sentence about a reason may draw on. */
export interface Telling {
  readonly reason: Reason;
  /** `reason.parts`, resolved. */
  readonly named: readonly Thing[];
  readonly site: Site;
  readonly rig: Rig;
  readonly n: Numbers;
  /** How the need behind the reason was met, where the result is at hand. */
  readonly means: Means | null;
}

const GEAR: Record<Service, string> = { power: "power cord", water: "water hose", sewer: "sewer hose" };

/** One message for each family of codes: the part of the code before the colon. */
export const reasons = {
  stand: ({ reason, n }: Telling) =>
    `The pad is ${over(reason, n)}too small for where the rig’s tires and jacks stand.`,
  road: ({ reason, named, n }: Telling) =>
    `${cap(first(named))} would reach ${over(reason, n)}over the road edge.`,
  lot: ({ reason, named, n }: Telling) =>
    `${cap(first(named))} would reach ${over(reason, n)}beyond the edge of the site.`,
  clear,
  rule,
  missing: ({ reason }: Telling) =>
    `The site has no ${tail(reason)} hookup, and the rig wants one.`,
  "no-inlet": ({ reason }: Telling) =>
    `The stay asks for ${tail(reason)}, but the rig has no ${tail(reason)} ${tail(reason) === "sewer" ? "outlet" : "inlet"}.`,
  "rinse-only": () =>
    "The only water here is a tap for rinsing tanks. It is never drinking water, so it does not count as a water hookup.",
  reach,
  fall: ({ reason, n }: Telling) =>
    `The sewer drain lies ${over(reason, n)}too high: the hose would not run downhill all the way from the rig’s outlet.`,
  plug: ({ reason, named }: Telling) => {
    const offered = named.flatMap((t): string[] => (t.type === "hookup" ? (t.hookup.receptacles ?? []).map(String) : []));
    const [plug, ...rest] = reason.parts.filter((p) => /^\d+$/.test(p));
    const has = [...new Set([...rest, ...offered.filter((a) => a !== plug || rest.includes(a))])];
    return `No receptacle here takes the rig’s ${plug} A plug, straight or through one adapter${has.length > 0 ? `: the power pedestal has ${list(has.map((a) => `${a} A`))}` : ""}.`;
  },
  adapter: ({ reason }: Telling) =>
    `The rig’s plug goes into the power pedestal only through ${adapterName(reason.parts[0] ?? "")}.`,
  loads: ({ reason, n }: Telling) =>
    `What has to run in the rig asks for ${n.powerOver(reason.short ?? 0)} more than the power pedestal may be loaded with for hours.`,
  shed: ({ reason }: Telling) =>
    `${cap(things.theLoad(reason.parts[0] ?? ""))} cannot run along with the rest on this site’s power.`,
  pressure: ({ reason, n }: Telling) =>
    `The water tap’s pressure is ${n.pressureOver(reason.short ?? 0)} above what hoses and fittings are made for: a regulator is needed.`,
  level,
  vehicle: ({ rig }: Telling) =>
    `There is no place for the ${vehicle(rig)} on the site, and the park has no overflow parking.`,
  overflow: ({ rig }: Telling) =>
    `The ${vehicle(rig)} does not fit on the site beside the rig: it goes to overflow parking.`,
  "left-in": leftIn,
  tight: ({ reason, named, n }: Telling) => {
    const room = reason.have ?? reason.short ?? 0;
    const spare = n.spare(Math.max(0, room));
    return `Tight: ${/^0 /.test(spare) ? "nothing" : `only ${spare}`} to spare between ${both(named)}, beyond the gap that is always kept.`;
  },
  wish: ({ reason }: Telling) => {
    const wish = tail(reason), met = reason.short === null;
    const known = WISHES[wish];
    if (known) return met ? `${known.met}, as you wished.` : `${known.unmet}, which you wished for.`;
    return met ? `As you wished: ${plain(wish)}.` : `You wished for this, and the site does not have it: ${plain(wish)}.`;
  },
  budget: () =>
    "The search reached its limit before this was settled. That is neither a yes nor a no: ask the park, or search again for this site alone.",
};

export type ReasonFamily = keyof typeof reasons;

/** One other condition that has to hold at the same time: something gives only where this is let go. Null for what needs no saying. */
export function condition(id: string, named: readonly Thing[], rig: Rig): string | null {
  const [family = "", what = ""] = id.split(":");
  const [one, other] = named;
  const stays = one?.type === "supports" ? "stay" : "stays";
  switch (family) {
    case "stand": return "the tires and jacks stand on the pad";
    case "road": return `${one ? things.full(one) : "the rig"} stays off the road`;
    case "lot": return `${one ? things.full(one) : "the rig"} stays on the site`;
    case "clear": return one && other ? `${things.full(one)} ${stays} clear of ${things.full(other)}` : null;
    case "reach": return what in GEAR ? `the ${GEAR[what as Service]} reaches` : null;
    case "fall": return "the sewer hose runs downhill";
    case "power": return "the power pedestal suits the rig";
    case "level": return "the rig can be leveled";
    case "vehicle": return `the ${vehicle(rig)} has a place`;
    default: return null;
  }
}

export function asLongAs(text: string, conditions: readonly string[]): string {
  return conditions.length > 0 ? `${text} That is so as long as ${list(conditions)}.` : text;
}

const WISHES: Record<string, { met: string; unmet: string }> = {
  "pull-through": { met: "A pull-through", unmet: "Not a pull-through" },
  "back-in": { met: "A back-in", unmet: "Not a back-in" },
  shade: { met: "Has shade", unmet: "No shade" },
  sun: { met: "Open to the sun", unmet: "Shaded, not in the sun" },
  sewer: { met: "Has a sewer hookup", unmet: "No sewer hookup" },
  "50-amp": { met: "Has 50 A power", unmet: "No 50 A power" },
  paved: { met: "The pad is paved", unmet: "The pad is not paved" },
  room: { met: "Plenty of room", unmet: "Not much room" },
};

export const wishLabels: Record<string, string> = { "pull-through": "A pull-through", shade: "Shade", sun: "Sun", paved: "A paved pad", room: "Plenty of room" };

function clear({ reason, named, rig, n }: Telling): string {
  const [what, against] = named;
  if (!what || !against) return `Something comes ${over(reason, n)}too close.`;
  if (what.type === "body" && against.type === "hookup" && !reachesBody(against, rig)) {
    return `${cap(things.full(against))} would lie ${over(reason, n)}under the rig’s body, where nobody can get at it.`;
  }
  const limbs = limbNote(what, against, rig, n);
  return `${cap(things.full(what))} would come ${over(reason, n)}too close to ${things.full(against)}${limbs}.`;
}

/** A hookup with a post is an obstacle; one without only may not lie underneath. */
function reachesBody(against: Extract<Thing, { type: "hookup" }>, rig: Rig): boolean {
  return against.hookup.postRadius !== undefined && (against.hookup.postHeight ?? 0) > rig.body.floor;
}

/** A trunk or low limbs: which of the two it was matters less than how high the limbs are and how high the rig. */
function limbNote(what: Thing, against: Thing, rig: Rig, n: Numbers): string {
  if (against.type !== "obstacle" || against.obstacle.kind !== "tree" || what.type === "supports") return "";
  const { crownFrom } = against.obstacle;
  if (crownFrom === undefined) return "";
  const high = what.type === "body" ? `; the rig is ${n.lacking(rig.body.height)} high` : what.type === "part" ? `; it reaches ${n.lacking(what.part.to)} up` : "";
  return `, whose limbs begin ${n.spare(crownFrom)} up${high}`;
}

function rule({ reason, site, rig, n }: Telling): string {
  const { rules } = site, { party } = rig;
  switch (tail(reason)) {
    case "maxLength":
      return `The rig is ${n.lacking(overallLength(rig))} overall, ${n.lacking(reason.short ?? 0)} longer than the site takes.`;
    case "maxGuests":
      return `The site takes ${count(rules?.maxGuests ?? 0, "guest", "guests")}; your party is ${party.adults + party.children}.`;
    case "maxVehicles":
      return `You bring ${count(reason.short ?? 1, "vehicle", "vehicles")} more than the ${rules?.maxVehicles ?? 0} allowed on the site.`;
    case "tents":
      return rules?.tents === 0 ? "No tents may be pitched on the site." : `You bring ${count(reason.short ?? 1, "tent", "tents")} more than the ${rules?.tents ?? 0} allowed on the site.`;
    case "pets":
      return "Pets are not allowed on the site.";
    case "accessible":
      return reason.parts[0] === "site"
        ? "The site is kept for guests who need an accessible one."
        : "You need an accessible site, and this is not one.";
    default:
      return `A rule of the site stands against it: ${plain(tail(reason))}.`;
  }
}

function reach({ reason, named, rig, n, means }: Telling): string {
  const service = tail(reason) as Service;
  const own = { power: rig.gear.powerCord, water: rig.gear.waterHose, sewer: rig.gear.sewerHose }[service];
  const to = named.find((t) => t.type === "hookup");
  const target = to ? things.full(to) : `a ${service} hookup`;
  const short = n.lacking(reason.short ?? 0);
  if (means === "no") return `The run to ${target} would be ${short} longer than the park allows for a ${GEAR[service]}.`;
  return own > 0
    ? `Your ${GEAR[service]} is ${short} too short to reach ${target}.`
    : `You have no ${GEAR[service]}: ${short} is needed to reach ${target}.`;
}

function level({ reason, n, means, rig }: Telling): string {
  const way = tail(reason) === "side" ? "side to side" : "front to back";
  const own = tail(reason) === "side" ? rig.gear.liftSide : rig.gear.liftAlong;
  const short = n.lacking(reason.short ?? 0);
  if (means === "no") return `The pad slopes so much ${way} that leveling asks for ${short} more lift than the park allows.`;
  return own > 0
    ? `The pad slopes: leveling ${way} asks for ${short} more lift than you have.`
    : `The pad slopes: leveling ${way} asks for ${short} of lift.`;
}

function leftIn({ reason, named, n }: Telling): string {
  const [what, against] = named;
  const part = what?.type === "part" ? what.part : null;
  const stays: Record<string, string> = { awning: "stay rolled up", entry: "stay shut", bed: "stay folded", ramp: "stay up" };
  const rest = against && reason.short !== null && against.type !== "other" ? `: ${meeting(against, reason, n)}` : "";
  return `${what ? cap(things.full(what)) : "A part"} has to ${stays[part?.kind ?? ""] ?? "stay in"}${rest}.`;
}

function meeting(against: Thing, reason: Reason, n: Numbers): string {
  const by = over(reason, n);
  if (against.type === "lot") return `it would reach ${by}beyond the edge of the site`;
  if (against.type === "pad") return `it would reach ${by}beyond the pad`;
  if (against.type === "road") return `it would reach ${by}over the road edge`;
  return `it would come ${by}too close to ${things.full(against)}`;
}

/** The shortfall with a space after it, or nothing where it is not known. */
function over(reason: Reason, n: Numbers): string {
  return reason.short === null ? "" : `${n.lacking(Math.max(reason.short, 1))} `;
}

export function adapterName(id: string): string {
  const match = /^(\d+)-to-(\d+)$/.exec(id);
  return match ? `a ${match[1]} A to ${match[2]} A adapter` : `the adapter ${id}`;
}

function both(named: readonly Thing[]): string {
  return named.length >= 2 ? `${things.full(named[0]!)} and ${things.full(named[1]!)}` : named[0] ? `${things.full(named[0])} and what is next to it` : "the rig and what is next to it";
}

function first(named: readonly Thing[]): string {
  const rig = named.find((t) => t.type !== "road" && t.type !== "lot" && t.type !== "rig");
  return rig ? things.full(rig) : "the rig";
}

function vehicle(rig: Rig): string {
  return things.label(vehicleOf(rig));
}

function tail(reason: Reason): string {
  return reason.code.slice(reason.code.indexOf(":") + 1);
}

function plain(id: string): string {
  return id.replace(/[_-]+/g, " ");
}
