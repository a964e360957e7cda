import { isMotorized, type Inlet, type Rig, type RigPart } from "@/lib/rig";
import { addedPart } from "./added-parts";
import { list, one, type Params } from "./params";

type Service = Inlet["kind"];
export const services = ["power", "water", "sewer"] as const satisfies readonly Service[];
export type Need = "must" | "nice" | "off";
export const plugs = [50, 30, 20, 15] as const;
export const adapters = ["50-to-30", "50-to-20", "30-to-50", "30-to-20", "15-to-20", "15-to-30", "20-to-30"] as const;

export interface OutlinePart {
  readonly part: RigPart;
  readonly need: Need;
  /** Put there by the guest, and gone when they take it away. */
  readonly added: boolean;
  /** Its place in the rig's list; null for what stays in. */
  readonly index: number | null;
}

export interface OutlineInlet {
  /** Its name in the address: the service, with a number from the second of its kind on. */
  readonly key: string;
  readonly service: Service;
  /** Null where the rig has none. */
  readonly inlet: Inlet | null;
  readonly index: number | null;
}

/** What the rig has and what it goes without, before any of it is measured. */
export interface Outline {
  /** In the size it was given, with what stays in taken out: its numbers stand until others are typed. */
  readonly rig: Rig;
  readonly parts: readonly OutlinePart[];
  readonly inlets: readonly OutlineInlet[];
}

/** A car behind a motorhome, until it is measured. */
const CAR = { length: 4800, width: 1900, height: 1750 } as const;

export function outlineOf(base: Rig, params: Params): Outline {
  const parts = partsOf(base, params), inlets = inletsOf(base, params);
  const electric = electricOf(base, params);
  const found = inlets.flatMap(({ inlet }) => (inlet ? [inlet] : []));
  const able = services.filter((s) => found.some((i) => i.kind === s) && (s !== "power" || electric !== undefined));
  const wants = (params.want === undefined ? base.wants : list(params.want)).filter((w): w is Service => able.some((s) => s === w));
  const rig: Rig = {
    ...base,
    parts: parts.flatMap(({ part, index }) => (index === null ? [] : [part])),
    inlets: found,
    electric,
    wants: asUsual(params.want === undefined ? wants : able.filter((s) => wants.includes(s)), base.wants),
    gear: {
      ...base.gear,
      adapters: params.adapter === undefined ? base.gear.adapters : asUsual(adaptersOf(base).filter((a) => list(params.adapter).includes(a)), base.gear.adapters),
      regulator: params.regulator === undefined ? base.gear.regulator : list(params.regulator).includes("1"),
    },
    tow: towOf(base, params),
    party: { ...base.party, accessible: params.accessible === undefined ? base.party.accessible : list(params.accessible).includes("1") },
    wishes: params.wish === undefined ? base.wishes : asUsual([...new Set(list(params.wish))].filter((w) => w !== NONE), base.wishes),
  };
  return { rig, parts, inlets };
}

/** What stands in the address for a list with nothing in it, where leaving it out would mean the usual one. */
export const NONE = "none";

/** Where the same things were ticked as are usual, in whichever order, they are the usual ones. */
function asUsual<T extends string>(now: T[], usual: T[]): T[] {
  return now.length === usual.length && now.every((entry) => usual.includes(entry)) ? usual : now;
}

/** The adapters that can be ticked: the common ones, and whatever else the rig is known to carry. */
export function adaptersOf(base: Rig): string[] {
  return [...new Set([...adapters, ...base.gear.adapters])];
}

/** A service can be asked for where the rig has a place to connect it. */
export function canWant({ inlets, electric }: Rig, service: Service): boolean {
  return inlets.some((i) => i.kind === service) && (service !== "power" || electric !== undefined);
}

function partsOf(base: Rig, params: Params): OutlinePart[] {
  const own = base.parts.map((part) => ({ part, added: false }));
  const taken = new Set(base.parts.map(({ id }) => id));
  const added = list(params.part).flatMap((text) => {
    const part = addedPart(text, base);
    if (!part || taken.has(part.id)) return [];
    taken.add(part.id);
    return [{ part, added: true }];
  });
  let index = 0;
  return [...own, ...added].map(({ part, added: put }) => {
    const need = needOf(one(params[`part-${part.id}`]), part.need);
    return { part: need === "off" ? part : { ...part, need }, need, added: put, index: need === "off" ? null : index++ };
  });
}

export function needOf(text: string | undefined, usual: Need): Need {
  return text === "must" || text === "nice" || text === "off" ? text : usual;
}

function inletsOf(base: Rig, params: Params): OutlineInlet[] {
  let index = 0;
  return services.flatMap((service) => {
    const own: (Inlet | null)[] = base.inlets.filter((i) => i.kind === service);
    return (own.length > 0 ? own : [null]).map((inlet, i) => {
      const key = i === 0 ? service : `${service}-${i + 1}`;
      return { key, service, inlet: inletOn(base, service, inlet, one(params[`inlet-${key}.side`])) };
    });
  }).map((entry) => ({ ...entry, index: entry.inlet ? index++ : null }));
}

/** Where an inlet of a service sits until somebody looks: shares of the body's length from its rear, and heights. */
const USUAL = { power: { share: 0.12, height: 700 }, water: { share: 0.2, height: 750 }, sewer: { share: 0.3, height: 420 } } as const;
/** On a rear or front wall: this far from the driver's side. */
const FROM_CORNER = 400;

function inletOn({ body }: Rig, service: Service, known: Inlet | null, side: string | undefined): Inlet | null {
  if (side === NONE) return null;
  if (side !== "left" && side !== "right" && side !== "rear" && side !== "front") return known;
  if (known?.side === side) return known;
  const height = known?.height ?? USUAL[service].height;
  if (side === "rear" || side === "front") return { kind: service, side, u: undefined, v: Math.max(0, body.width / 2 - FROM_CORNER), height };
  return { kind: service, side, u: known?.u ?? Math.round(body.length * USUAL[service].share), v: undefined, height };
}

/** What commonly draws enough to matter, in volt-amperes, beside what the rig is known to have. */
const LOADS = [["microwave", 1500], ["coffee-maker", 1000], ["space-heater", 1500], ["hair-dryer", 1500]] as const;

export function loadsOf(base: Rig): { readonly id: string; readonly va: number; readonly need: Need }[] {
  const own = base.electric?.loads ?? [];
  return [...own, ...LOADS.filter(([id]) => !own.some((l) => l.id === id)).map(([id, va]) => ({ id, va, need: "off" as const }))];
}

function electricOf(base: Rig, params: Params): Rig["electric"] {
  const asked = one(params.plug);
  const plug = asked === NONE ? null : (plugs.find((p) => String(p) === asked) ?? base.electric?.plug ?? null);
  if (plug === null) return undefined;
  const loads = loadsOf(base).flatMap(({ id, va, need }) => {
    const now = needOf(one(params[`load-${id}`]), need);
    return now === "off" ? [] : [{ id, va, need: now }];
  });
  return { plug, loads };
}

function towOf(base: Rig, params: Params): Rig["tow"] {
  const asked = one(params.tow);
  if (asked === NONE && isMotorized(base.kind)) return undefined;
  if (asked !== "on-site" && asked !== "hitched" && asked !== "elsewhere") return base.tow;
  if (base.tow) return { ...base.tow, stays: asked };
  return isMotorized(base.kind) ? { ...CAR, overlap: undefined, stays: asked } : undefined;
}
