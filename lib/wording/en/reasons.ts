import type { Reason, Service } from "@/lib/fit/types";
import { overallLength, type Rig } from "@/lib/rig";
import type { Numbers } from "../format";
import { vehicleOf, type Thing } from "../things";
import { GEAR, refusals } from "./refusals";
import type { Telling } from "./telling";
import { cap, count, list } from "./text";
import { things } from "./things";

/** One message for each family of codes: the part of the code before the colon. */
export const reasons = {
  stand: refusals.stand,
  road: refusals.road,
  lot: refusals.lot,
  clear: refusals.clear,
  rule,
  missing: ({ reason }: Telling) =>
    `The site has no ${tail(reason)} hookup, and the rig wants one.`,
  "no-inlet": ({ reason }: Telling) =>
    `The stay asks for ${tail(reason)}, but the rig has no ${tail(reason)} ${tail(reason) === "sewer" ? "outlet" : "inlet"}.`,
  "rinse-only": () =>
    "The only water here is a tap for rinsing tanks. It is never drinking water, so it does not count as a water hookup.",
  reach,
  fall: refusals.fall,
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
  vehicle: refusals.vehicle,
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
  access,
  budget: () =>
    "The search reached its limit before this was settled. That is neither a yes nor a no: ask the park, or search again for this site alone.",
};

export type ReasonFamily = keyof typeof reasons;

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

function access({ reason, named, rig, n }: Telling): string {
  const name = (thing: Thing) => (thing.type === "other" ? `the ${plain(thing.id)}` : things.full(thing)), names = (rest: readonly Thing[]) => list(rest.map(name));
  switch (tail(reason)) {
    case "not-found":
      return "No way in was found from the road. That is not proof that there is none: staff to check on the ground.";
    case "barred-overhead":
      return `The rig cannot get to the pad: it is too tall to pass under ${names(named)}.`;
    case "barred-between":
      return `The rig cannot get to the pad: it is too wide to pass ${named.length === 2 ? `between ${names(named)}` : names(named)}.`;
    case "no-ground":
      return "The rig cannot get to the pad: no firm ground wide enough for its tires leads there from the road.";
    case "tight": {
      const spare = n.spare(reason.have ?? 0), [part, other] = reason.parts;
      const what = part === "wheels" ? "the tires" : part === "vehicle" ? `the ${rig.tow ? vehicle(rig) : "vehicle"}` : part === "body" ? "the rig" : name(named[0]!);
      return `Getting in is tight: ${/^0 /.test(spare) ? "nothing" : `only ${spare}`} to spare between ${what} and ${other === "ground" ? "the edge of the firm ground" : name(named[1]!)}.`;
    }
    case "blind":
      return `The rig turns in to the driver’s blind side, coming from the ${reason.parts[0] ?? "road"}: have a helper who can see it.`;
    case "moved":
      return `It stands ${n.lacking(reason.have ?? 0)} from where it would have most room, as no way in was found to there.`;
    case "leave":
      return "No way out was found over the road at the far end: staff to check on the ground, or back out the way you came.";
    default:
      return `Nobody has measured how high ${names(named)} hangs over the way in: stop and look up.`;
  }
}

function rule({ reason, site, rig, n }: Telling): string {
  const { rules } = site, { party } = rig;
  switch (tail(reason)) {
    case "maxLength":
      return `The rig is ${n.lacking(overallLength(rig))} overall, ${n.lackingInBoth(reason.short ?? 0)} longer than the site takes.`;
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

function reach(telling: Telling): string {
  const { reason, named, rig, n, means } = telling;
  if (means === "no" || reason.while !== undefined) return refusals.reach(telling);
  const service = tail(reason) as Service;
  const own = { power: rig.gear.powerCord, water: rig.gear.waterHose, sewer: rig.gear.sewerHose }[service];
  const to = named.find((t) => t.type === "hookup");
  const target = to ? things.full(to) : `a ${service} hookup`;
  const short = n.lacking(reason.short ?? 0);
  return own > 0
    ? `Your ${GEAR[service]} is ${short} too short to reach ${target}.`
    : `You have no ${GEAR[service]}: ${short} is needed to reach ${target}.`;
}

function level({ reason, n, means, rig }: Telling): string {
  const way = tail(reason) === "side" ? "side to side" : "front to back";
  const own = tail(reason) === "side" ? rig.gear.liftSide : rig.gear.liftAlong;
  const short = n.lacking(reason.short ?? 0);
  if (means === "no") return `The pad slopes so much ${way} that leveling asks for ${n.lackingInBoth(reason.short ?? 0)} more lift than the park allows.`;
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

function vehicle(rig: Rig): string {
  return things.label(vehicleOf(rig));
}

function tail(reason: Reason): string {
  return reason.code.slice(reason.code.indexOf(":") + 1);
}

function plain(id: string): string {
  return id.replace(/[_-]+/g, " ");
}
