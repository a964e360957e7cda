import type { Mm, Radians } from "@/lib/measure";
import { sitePoint, type Point, type SitePoint } from "@/lib/plane";

/** A point of a vehicle or unit: u forward from the middle of its (rear) axle group, v to the left. Millimetres. */
export type BodyPoint = Point & { readonly __frame: "body" };

export function bodyPoint(u: number, v: number): BodyPoint {
  return [u, v] as unknown as BodyPoint;
}

/** One over a radius, per millimetre: above zero where the way bends to the left, 0 where it is straight. */
export type Curvature = number & { readonly __unit: "1/mm" };

/** Of an arc of so many millimetres; negative for one to the right. Throws `RangeError` at 0. */
export function curvatureOf(radius: number): Curvature {
  if (!(Math.abs(radius) > 0)) throw new RangeError(`a radius must not be 0 mm, got ${radius}`);
  return (1 / radius) as Curvature;
}

export const STRAIGHT = 0 as Curvature;

/** Where the axle of a vehicle or unit stands on the ground and which way it faces: counter-clockwise from the x axis. */
export interface BodyPose {
  readonly axle: SitePoint;
  readonly heading: Radians;
}

/** Where a point of a body at a pose stands on the ground. */
export function placed({ axle: [x, y], heading }: BodyPose, [u, v]: BodyPoint): SitePoint {
  const c = Math.cos(heading), s = Math.sin(heading);
  return sitePoint(x + u * c - v * s, y + u * s + v * c);
}

/** A point of the ground as a body at a pose sees it. */
export function seenFrom({ axle, heading }: BodyPose, [x, y]: SitePoint): BodyPoint {
  const c = Math.cos(heading), s = Math.sin(heading), dx = x - axle[0], dy = y - axle[1];
  return bodyPoint(dx * c + dy * s, dy * c - dx * s);
}

/** A distance along a path from its start, millimetres. */
export type Along = Mm;

/** An angle brought to -180 (excluded) to 180 degrees (included). */
export function wrapped(angle: number): Radians {
  const turn = 2 * Math.PI, rest = ((angle % turn) + turn) % turn;
  return (rest > Math.PI ? rest - turn : rest) as Radians;
}
