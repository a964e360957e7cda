import { mm, type Mm, type Radians } from "@/lib/measure";
import { bodyPoint, type BodyPoint } from "./frames";

/**
 * A front-steered vehicle and what it draws, as the low-speed model sees them. Millimetres. Where an axle group has
 * several axles, "the axle" is the middle of the group: on hard ground at walking pace the group turns about it.
 */
export interface Vehicle {
  /** Front axle to rear axle, above zero. */
  readonly wheelbase: Mm;
  /** Body ahead of the front axle. */
  readonly frontOverhang: Mm;
  /** Body behind the rear axle. */
  readonly rearOverhang: Mm;
  readonly width: Mm;
  /** Between the middles of the outer tires of one axle. */
  readonly track: Mm;
  /** First to last axle of the rear group; 0 for a single axle. */
  readonly axleSpread: Mm;
  /** Diameter of the smallest circle that the outer front tire can roll along (curb to curb), or null where nobody knows. */
  readonly turningCircle: Mm | null;
}

/** One drawn unit: a trailer, or a dolly. */
export interface Unit {
  /** Behind the axle of whatever draws it; negative for a hitch ahead of that axle, as a fifth wheel's. */
  readonly hitchBehindAxle: Mm;
  /** Above zero. */
  readonly hitchToAxle: Mm;
  /** Body ahead of the hitch: 0 where it begins there, negative where a bare tongue leads, positive for a nose over the truck's bed. */
  readonly frontOverhang: Mm;
  /** Body behind the axle. */
  readonly rearOverhang: Mm;
  readonly width: Mm;
  readonly track: Mm;
  readonly axleSpread: Mm;
}

/** Body and wheels of one vehicle or unit in its own frame. */
export interface Body {
  /** Left front, right front, right rear, left rear. */
  readonly corners: readonly [BodyPoint, BodyPoint, BodyPoint, BodyPoint];
  /** Where its tires meet the ground. */
  readonly wheels: readonly BodyPoint[];
}

export interface Combination {
  readonly vehicle: Vehicle;
  readonly units: readonly Unit[];
  /** The vehicle's first, then those of the units in their order. */
  readonly bodies: readonly Body[];
}

/** Plain numbers; what may be left out is a single axle, a track as wide as the body, no body ahead of the hitch, no known circle. */
export interface CombinationInput {
  readonly vehicle: Readonly<Record<"wheelbase" | "frontOverhang" | "rearOverhang" | "width", number>> & { readonly track?: number; readonly axleSpread?: number; readonly turningCircle?: number | null };
  readonly units: readonly (Readonly<Record<"hitchBehindAxle" | "hitchToAxle" | "rearOverhang" | "width", number>> & { readonly frontOverhang?: number; readonly track?: number; readonly axleSpread?: number })[];
}

/** Throws `RangeError`, with the value, on a length that cannot be. */
export function makeCombination(input: CombinationInput): Combination {
  const vehicle = makeVehicle(input.vehicle), units = input.units.map(makeUnit);
  return { vehicle, units, bodies: [bodyOfVehicle(vehicle), ...units.map(bodyOfUnit)] };
}

/** Front axle to the last axle with everything in line: no shorter way leads from one to the other along the drawbars. */
export function drawnLength({ vehicle, units }: Combination): Mm {
  return mm(units.reduce((sum, u) => sum + Math.abs(u.hitchBehindAxle) + u.hitchToAxle, vehicle.wheelbase as number));
}

/** How far a body reaches beyond front axle, or beyond its own axle, at the most. */
export function longestOverhang({ vehicle, units }: Combination): Mm {
  return mm(Math.max(vehicle.frontOverhang, vehicle.rearOverhang, ...units.flatMap((u) => [u.frontOverhang, u.rearOverhang])));
}

/**
 * The smallest radius that the middle of the front axle can follow, from the smallest turning circle; null where that
 * is unknown. The outer front tire of a vehicle turning about a point in line with its rear axle rolls at
 * `hypot(wheelbase, rear radius + track / 2)`. The offset of a tire from its steering pin is left out (a few centimetres).
 */
export function smallestFrontRadius({ turningCircle, wheelbase, track }: Vehicle): Mm | null {
  if (turningCircle === null) return null;
  return mm(Math.hypot(wheelbase, Math.sqrt((turningCircle / 2) ** 2 - wheelbase ** 2) - track / 2));
}

/** How far the wheels turn at that radius, as the one wheel in the middle of the axle that stands for both. */
export function largestSteer(vehicle: Vehicle): Radians | null {
  const radius = smallestFrontRadius(vehicle);
  return radius === null ? null : (Math.asin(vehicle.wheelbase / radius) as Radians);
}

function makeVehicle(v: CombinationInput["vehicle"]): Vehicle {
  const wheelbase = above("wheelbase", v.wheelbase), width = above("width", v.width), track = atLeast("track", v.track ?? v.width, 0);
  const turningCircle = v.turningCircle ?? null;
  const least = 2 * Math.hypot(wheelbase, track / 2);
  if (turningCircle !== null && !(turningCircle >= least)) throw new RangeError(`turningCircle must be at least ${least.toFixed(0)} mm for this wheelbase and track, got ${turningCircle}`);
  return {
    wheelbase, width, track,
    frontOverhang: atLeast("frontOverhang", v.frontOverhang, 0),
    rearOverhang: atLeast("rearOverhang", v.rearOverhang, 0),
    axleSpread: atLeast("axleSpread", v.axleSpread ?? 0, 0),
    turningCircle: turningCircle === null ? null : mm(turningCircle),
  };
}

function makeUnit(u: CombinationInput["units"][number], i: number): Unit {
  const name = (field: string) => `units[${i}].${field}`;
  const hitchToAxle = above(name("hitchToAxle"), u.hitchToAxle), rearOverhang = atLeast(name("rearOverhang"), u.rearOverhang, 0);
  return {
    hitchToAxle, rearOverhang,
    hitchBehindAxle: mm(u.hitchBehindAxle),
    frontOverhang: atLeast(name("frontOverhang"), u.frontOverhang ?? 0, -hitchToAxle - rearOverhang),
    width: above(name("width"), u.width),
    track: atLeast(name("track"), u.track ?? u.width, 0),
    axleSpread: atLeast(name("axleSpread"), u.axleSpread ?? 0, 0),
  };
}

function above(name: string, value: number): Mm {
  if (!(value > 0)) throw new RangeError(`${name} must be more than 0 mm, got ${value}`);
  return mm(value);
}

function atLeast(name: string, value: number, least: number): Mm {
  if (!(value >= least)) throw new RangeError(`${name} must be at least ${least} mm, got ${value}`);
  return mm(value);
}

function bodyOfVehicle({ wheelbase, frontOverhang, rearOverhang, width, track, axleSpread }: Vehicle): Body {
  return { corners: cornersOf(wheelbase + frontOverhang, -rearOverhang, width), wheels: [...axle(wheelbase, track), ...group(axleSpread, track)] };
}

function bodyOfUnit({ hitchToAxle, frontOverhang, rearOverhang, width, track, axleSpread }: Unit): Body {
  return { corners: cornersOf(hitchToAxle + frontOverhang, -rearOverhang, width), wheels: group(axleSpread, track) };
}

function cornersOf(front: number, rear: number, width: number): Body["corners"] {
  return [bodyPoint(front, width / 2), bodyPoint(front, -width / 2), bodyPoint(rear, -width / 2), bodyPoint(rear, width / 2)];
}

function group(spread: number, track: number): BodyPoint[] {
  return spread === 0 ? axle(0, track) : [...axle(spread / 2, track), ...axle(-spread / 2, track)];
}

function axle(u: number, track: number): BodyPoint[] {
  return [bodyPoint(u, track / 2), bodyPoint(u, -track / 2)];
}
