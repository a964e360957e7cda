import { z } from "zod";
import { across, coordinate, count, identifier, length, list, optional, point, sized } from "@/lib/measure";

export const trailerKinds = ["travel-trailer", "fifth-wheel", "folding-trailer", "toy-hauler"] as const;
export const motorizedKinds = ["class-a", "class-b", "class-c", "van", "truck-camper"] as const;
const kinds = [...trailerKinds, ...motorizedKinds] as const;
const sides = ["left", "right", "rear", "front"] as const;
const services = ["power", "water", "sewer"] as const;

const side = z.enum(sides, `must be one of ${sides.join(", ")}, facing forward`);
const need = z.enum(["must", "nice"], "must be must or nice");
const plug = z.literal([50, 30, 20, 15], "must be 50, 30, 20 or 15 (amperes)");
/** No body is shorter, mm: less is a number in another unit. */
const LEAST_LENGTH = 1000;
/** Names that constraints already use for the rig's own solids. */
const reserved = new Set(["body", "hitch", "tow", "supports"]);

const part = z
  .object({
    id: identifier.refine((id) => !reserved.has(id), { error: "must not be body, hitch, tow or supports: those are taken" }),
    kind: identifier.describe("slide, awning, entry, bed, ramp, …"),
    side,
    span: z.tuple([coordinate, coordinate], "must be two places along the wall in millimetres"),
    depth: length,
    from: length,
    to: length,
    need,
  })
  .check(across((p, fault) => {
    if (p.span && p.span[0] >= p.span[1]) fault(["span"], "must begin before it ends");
    if (p.from !== undefined && p.to !== undefined && p.from > p.to) fault(["to"], "must not be below from");
  }));

const inlet = z
  .object({
    kind: z.enum(services, `must be one of ${services.join(", ")}`),
    side,
    u: optional(coordinate),
    v: optional(coordinate),
    height: length,
  })
  .check(across((i, fault) => {
    const endWall = i.side === "rear" || i.side === "front";
    if (!endWall && i.u === undefined) fault(["u"], "an inlet on a side wall needs u, its distance from the rear face in millimetres");
    if (endWall && i.v === undefined) fault(["v"], "an inlet on the rear or front wall needs v, its distance left of the centreline in millimetres");
  }));

const gear = z
  .object({
    powerCord: length.default(0),
    waterHose: length.default(0),
    sewerHose: length.default(0),
    liftSide: length.default(0),
    liftAlong: length.default(0),
    adapters: z.array(z.string().regex(/^(50|30|20|15)-to-(50|30|20|15)$/, 'must read like "50-to-30"')).default([]),
    regulator: z.boolean().default(false),
  })
  .prefault({});

const load = z.object({ id: identifier, va: z.number().min(0).max(100_000), need });

/** How far wheels can be turned and a hitch can bend, degrees: outside of these it is another angle or a slip. */
const ANGLES = { least: 10, most: 120 } as const;

/**
 * What steers: the tow vehicle of a trailer, the chassis of a motorized rig (whose wheelbase and overhangs its body and tyres give). Every
 * number may be left out where nobody has measured it.
 */
const drive = z.object({
  wheelbase: optional(sized(1000, 12_000)).describe("Of the tow vehicle: front axle to (the middle of the) rear axles (mm)."),
  frontOverhang: optional(length).describe("Of the tow vehicle: ahead of its front axle (mm)."),
  rearOverhang: optional(length).describe("Of the tow vehicle: behind its rear axle (mm)."),
  track: optional(sized(500, 3000)).describe("Between the middles of its tires (mm)."),
  turningCircle: optional(sized(4000, 60_000)).describe("Diameter of the smallest circle, curb to curb, as makers print it (mm)."),
  hitchBehindAxle: optional(coordinate).describe("From its rear axle back to the hitch (mm); below zero ahead of the axle, as a fifth wheel's often is."),
  hitchToAxle: optional(sized(500, 20_000)).describe("From the hitch to the middle of the trailer's (or towed car's rear) tires (mm)."),
  maxHitchAngle: optional(z.number().min(ANGLES.least, `must be at least ${ANGLES.least} degrees`).max(ANGLES.most, `must be at most ${ANGLES.most} degrees`)).describe("The sharpest bend of the hitch before something touches (degrees)."),
  driver: z.enum(["left", "right"], "must be left or right").default("left").describe("On which side the driver sits."),
}, "must be what steers: { wheelbase, turningCircle, … }");

/** One rig as it is. Rig frame: u forward from the rear face of the body, v to the left of the centreline, w up. */
export const rigSchema = z
  .object({
    id: identifier,
    kind: z.enum(kinds, `must be one of ${kinds.join(", ")}`),
    body: z.object({
      length: sized(LEAST_LENGTH, 30_000),
      width: sized(500, 10_000),
      height: sized(500, 10_000).describe("To the highest thing on the roof."),
      floor: length.describe("The lowest fixed part anywhere."),
    }, "must be the body: { length, width, height, floor }"),
    hitch: optional(z.object({ length, width: length, from: length, to: length })),
    supports: z.array(z.object({ kind: z.enum(["tyre", "jack"], "must be tyre or jack"), at: point }), "must be the list of tyres and jacks").min(1, "needs at least one tyre").max(100),
    parts: list(part, 100, "must be a list of parts"),
    inlets: list(inlet, 50, "must be a list of inlets"),
    wants: list(z.enum(services, `must be one of ${services.join(", ")}`), 10, "must be a list of services"),
    gear,
    electric: optional(z.object({ plug, loads: z.array(load).max(100).default([]) })),
    tow: optional(z.object({
      length: sized(500, 30_000),
      width: sized(200, 10_000),
      height: sized(200, 10_000),
      overlap: optional(length).describe("How far a hitched vehicle reaches under the nose (mm)."),
      stays: z.enum(["on-site", "elsewhere", "hitched"], "must be on-site, elsewhere or hitched"),
    })),
    drive: optional(drive).describe("What steers, for the way in; null or left out where nobody has measured it."),
    party: z.object({
      adults: count.default(1),
      children: count.default(0),
      pets: count.default(0),
      tents: count.default(0),
      accessible: z.boolean().default(false),
    }).prefault({}),
    wishes: list(z.string("must be a text").max(80), 50, "must be a list of wishes"),
  })
  .check(across((rig, fault) => {
    const { body, hitch, supports, parts } = rig;
    if (body && body.floor >= body.height) fault(["body", "floor"], "must be below the height");
    if (hitch && hitch.from > hitch.to) fault(["hitch", "to"], "must not be below from");
    if (Array.isArray(supports) && !supports.some((s) => s?.kind === "tyre")) fault(["supports"], "needs at least one tyre");
    tightCircle(rig.drive, fault);
    if (Array.isArray(rig.wants) && rig.wants.includes("power") && !rig.electric) fault(["electric"], "a rig that wants power needs its plug and loads");
    offTheBody(rig, fault);
    if (!Array.isArray(parts)) return;
    const seen = new Set<string>();
    parts.forEach((p, i) => {
      if (typeof p?.id !== "string") return;
      if (seen.has(p.id)) fault(["parts", i, "id"], `"${p.id}" is already the id of a part`);
      seen.add(p.id);
    });
  }));

/** An inlet may stand out from a bumper or a hitch, but no further than this beyond the walls, mm. */
const BEYOND = 1000;

/** What is fixed to no wall: a part all of whose span lies off the body, an inlet well away from it. */
function offTheBody({ body, hitch, parts, inlets }: Partial<Parsed>, fault: (path: PropertyKey[], message: string) => void): void {
  if (!(body && body.length >= LEAST_LENGTH && body.width > 0)) return; // a wall in another unit has no end to be off
  const { length: long, width } = body, ends = { side: [0, long + (hitch?.length ?? 0)], end: [-width / 2, width / 2] } as const;
  const wallOf = (on: unknown) => (on === "left" || on === "right" ? ends.side : on === "rear" || on === "front" ? ends.end : null);
  const told = ([low, high]: readonly [number, number]) => `which reaches from ${low} to ${high}`;
  if (Array.isArray(parts)) parts.forEach((p, i) => {
    const wall = wallOf(p?.side), span = p?.span;
    if (wall && Array.isArray(span) && (span[0] >= wall[1] || span[1] <= wall[0])) fault(["parts", i, "span"], `[${span.join(", ")}] lies wholly off that wall, ${told(wall)} (millimetres)`);
  });
  if (Array.isArray(inlets)) inlets.forEach((inlet, i) => {
    const wall = wallOf(inlet?.side), field = wall === ends.side ? "u" : "v", at = inlet?.[field];
    if (wall && typeof at === "number" && (at < wall[0] - BEYOND || at > wall[1] + BEYOND)) fault(["inlets", i, field], `is ${at}, more than ${BEYOND} mm off that wall, ${told(wall)}`);
  });
}

/** No vehicle turns within a circle that its wheelbase alone does not fit. */
function tightCircle(given: Partial<NonNullable<Rig["drive"]>> | undefined, fault: (path: PropertyKey[], message: string) => void): void {
  const { wheelbase, turningCircle, track = 0 } = given ?? {};
  if (typeof wheelbase !== "number" || typeof turningCircle !== "number" || typeof track !== "number") return;
  const least = 2 * Math.hypot(wheelbase, track);
  if (turningCircle < least) fault(["drive", "turningCircle"], `must be at least ${Math.ceil(least)} mm with that wheelbase and track, got ${turningCircle}: is it a radius?`);
}

/** What the fields of a rig parse to, before they are checked against each other. */
type Parsed = {
  readonly body: { readonly length: number; readonly width: number };
  readonly hitch: { readonly length: number } | undefined;
  readonly parts: readonly z.infer<typeof part>[];
  readonly inlets: readonly z.infer<typeof inlet>[];
};

export type Rig = z.infer<typeof rigSchema>;
export type RigInput = z.input<typeof rigSchema>;
export type RigPart = Rig["parts"][number];
export type Inlet = Rig["inlets"][number];

export function isMotorized(kind: Rig["kind"]): boolean {
  return (motorizedKinds as readonly string[]).includes(kind);
}
