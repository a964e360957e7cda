import type { Reason, Service } from "@/lib/fit/types";
import type { Rig } from "@/lib/rig";
import type { Numbers } from "../format";
import { vehicleOf, type Thing } from "../things";
import type { Telling } from "./telling";
import { cap, list } from "./text";
import { things } from "./things";

export const GEAR: Record<Service, string> = { power: "power cord", water: "water hose", sewer: "sewer hose" };

/** What cannot be, while what, and by how much it fails: one message for each family that a conflict can name. */
export const refusals = {
  stand: ({ reason, site, n }: Telling) => {
    const size = reason.have === undefined ? null : padSide(site.pad.outline, reason.have);
    return size === null
      ? `The tires and jacks cannot all stand on the pad${by(reason, n)}.`
      : `The pad is ${amount(reason, n)} too ${size} for where the rig’s tires and jacks stand.`;
  },
  road: ({ reason, named, conditions, n }: Telling) =>
    `${cap(subject(named))} cannot stay off the road${during(conditions)}${by(reason, n)}.`,
  lot: ({ reason, named, conditions, n }: Telling) =>
    conditions.length === 0
      ? `No place on the site is large enough for ${subject(named)}${by(reason, n)}.`
      : `${cap(subject(named))} cannot stay on the site${during(conditions)}${by(reason, n)}.`,
  clear,
  reach: ({ reason, named, conditions, n }: Telling) => {
    const service = reason.code.slice("reach:".length) as Service;
    const over = `the run would be ${amount(reason, n)} longer than the park allows`;
    return conditions.length === 0
      ? `The ${GEAR[service]} cannot reach ${target(named, service)} from anywhere: ${over}.`
      : `The ${GEAR[service]} cannot reach ${target(named, service)}${during(conditions)}: ${over}.`;
  },
  fall: ({ reason, named, conditions, n }: Telling) =>
    `The sewer hose cannot run downhill to ${target(named, "sewer")}${during(conditions)}: it lies ${amount(reason, n)} too high.`,
  vehicle: ({ rig, conditions }: Telling) =>
    `The ${things.label(vehicleOf(rig))} has no place on the site${during(conditions)}, and the park has no overflow parking.`,
};

/** One other thing that has to hold at the same time. */
export interface Condition {
  readonly family: string;
  /** The part, or the service. */
  readonly what: string | undefined;
  /** The two things it is about, the rig's first. */
  readonly named: readonly Thing[];
}

/**
 * The conditions as clauses, those about the sentence's own subject first and with a pronoun: "it clears the oak",
 * "the tires and jacks stay on the pad".
 */
export function clausesOf(conditions: readonly Condition[], about: Thing | undefined, rig: Rig): string[] {
  const lots = conditions.filter((c) => c.family === "lot");
  const others = ORDER.flatMap((family) => conditions.filter((c) => c.family === family));
  const own = (thing: Thing | undefined) => thing !== undefined && about !== undefined && things.full(thing) === things.full(about);
  const told = others.map((c) => ({ own: own(c.family === "stand" ? { type: "supports" } : c.named[0]), text: clause(c, own, rig) }));
  const edges = others.filter((c) => EDGES.includes(c.family)).length;
  const onSite = lots.length === 0 ? [] : [{ own: lots.some((c) => own(c.named[0])), text: staying(lots, own) }];
  return [...told.slice(0, edges), ...onSite, ...told.slice(edges)].sort((a, b) => Number(b.own) - Number(a.own)).map(({ text }) => text).filter((text) => text !== "");
}

/** What everybody expects comes first; `lot` follows the two edges. */
const EDGES: readonly string[] = ["stand", "road"];
const ORDER: readonly string[] = [...EDGES, "clear", "reach", "fall", "power", "vehicle"];

function clause({ family, what, named: [one, other] }: Condition, own: (thing: Thing | undefined) => boolean, rig: Rig): string {
  switch (family) {
    case "stand": return own({ type: "supports" }) ? "they stay on the pad" : "the tires and jacks stay on the pad";
    case "road": return own(one) ? `${pronoun(one)} off the road` : `${one ? things.full(one) : "the rig"} stays off the road`;
    case "clear": {
      if (!one || !other) return "";
      if (own(one)) return `${one.type === "supports" ? "they clear" : "it clears"} ${things.full(other)}`;
      return `${things.full(one)} ${one.type === "supports" ? "clear" : "clears"} ${things.full(other)}`;
    }
    case "reach": return what !== undefined && what in GEAR ? `the ${GEAR[what as Service]} reaches` : "";
    case "fall": return "the sewer hose runs downhill";
    case "power": return "the power pedestal suits the rig";
    case "vehicle": return `the ${things.label(vehicleOf(rig))} has a place`;
    default: return "";
  }
}

function staying(lots: readonly Condition[], own: (thing: Thing | undefined) => boolean): string {
  const names = lots.map(({ named: [one] }) => (own(one) ? "it" : one ? things.full(one) : "the rig")).sort((a, b) => Number(b === "it") - Number(a === "it"));
  return `${list(names)} ${names.length === 1 ? "stays" : "stay"} on the site`;
}

function pronoun(thing: Thing | undefined): string {
  return thing?.type === "supports" ? "they stay" : "it stays";
}

function clear({ reason, named, rig, conditions, n }: Telling): string {
  const [what, against] = named;
  if (!what || !against) return `Something is in the way${during(conditions)}${by(reason, n)}.`;
  if (what.type === "body" && against.type === "hookup" && !reachesBody(against, rig)) {
    return `The rig’s body cannot keep off ${things.full(against)}${during(conditions)}${by(reason, n)}. A hookup under the rig cannot be got at.`;
  }
  return `${cap(things.full(what))} cannot clear ${things.full(against)}${during(conditions)}${by(reason, n)}.${limbNote(what, against, rig, n)}`;
}

/** A hookup with a post is an obstacle; one without only may not lie underneath. */
function reachesBody(against: Extract<Thing, { type: "hookup" }>, rig: Rig): boolean {
  return against.hookup.postRadius !== undefined && (against.hookup.postHeight ?? 0) > rig.body.floor;
}

/** Limbs further above the rig than this are not what stops it, whatever room a park keeps below them and blocks raise it by, mm. */
const FAR_ABOVE = 1200;

/** Where limbs may be what stands in the way: how high they begin, and how high the rig reaches. */
function limbNote(what: Thing, against: Thing, rig: Rig, n: Numbers): string {
  if (against.type !== "obstacle" || against.obstacle.kind !== "tree") return "";
  const top = what.type === "body" ? rig.body.height : what.type === "part" ? what.part.to : null;
  const { crownFrom } = against.obstacle;
  if (top === null || crownFrom === undefined || crownFrom - top > FAR_ABOVE) return "";
  return ` Its limbs begin ${n.spare(crownFrom)} up; ${what.type === "body" ? `the rig is ${n.lacking(top)} high` : `${things.full(what)} reaches ${n.lacking(top)} up`}${crownFrom > top ? ", and room is kept below limbs" : ""}.`;
}

/** Which side of the pad has this size; null where neither does. */
function padSide(outline: readonly (readonly [number, number])[], size: number): "short" | "narrow" | null {
  const extent = (axis: 0 | 1) => Math.max(...outline.map((p) => p[axis])) - Math.min(...outline.map((p) => p[axis]));
  if (Math.abs(extent(0) - size) < 1) return "short";
  return Math.abs(extent(1) - size) < 1 ? "narrow" : null;
}

function during(conditions: readonly string[]): string {
  return conditions.length > 0 ? ` while ${list(conditions)}` : "";
}

/** ": 6 in (15 cm) short", or nothing where it is not known. */
function by(reason: Reason, n: Numbers): string {
  return reason.short === null ? "" : `: ${amount(reason, n)} short`;
}

/** Never nothing: what is refused fails by something, if by less than a step of the rounding. */
function amount(reason: Reason, n: Numbers): string {
  return n.lackingInBoth(Math.max(reason.short ?? 0, 1));
}

function subject(named: readonly Thing[]): string {
  const thing = named.find((t) => t.type !== "road" && t.type !== "lot" && t.type !== "rig");
  return thing ? things.full(thing) : "the rig";
}

function target(named: readonly Thing[], service: Service): string {
  const to = named.find((t) => t.type === "hookup");
  return to ? things.full(to) : `a ${service} hookup`;
}
