import type { Point } from "@/lib/plane";

/** A place on the drawing: pixels from its top left corner. */
export type Spot = readonly [number, number];

/** What part of the ground is shown: its middle, mm, and pixels per mm. */
export interface Look {
  readonly middle: Point;
  readonly scale: number;
}

/** How a drawing of some size shows the ground, both ways. */
export interface Lens {
  readonly groundAt: (look: Look, spot: Spot) => Point;
  /** The look at which `ground` lies at `spot`, at that scale or, where it is beyond what can be read or worked on, at the nearest that is not. */
  readonly lookWith: (scale: number, ground: Point, spot: Spot) => Look;
  /** The middle of the drawing. */
  readonly centre: Spot;
}

/** Nearer, or with `by` below 1 farther, with the ground at `spot` staying where it is. */
export function zoomAt(lens: Lens, look: Look, by: number, spot: Spot = lens.centre): Look {
  return lens.lookWith(look.scale * by, lens.groundAt(look, spot), spot);
}

/** One or two fingers on the drawing, and what they hold. */
export interface Grasp {
  /** The ground half-way between the fingers, or under the one. */
  readonly ground: Point;
  /** Pixels from one finger to the other; null: there is only one. */
  readonly apart: number | null;
  readonly scale: number;
}

export function grasp(lens: Lens, look: Look, fingers: readonly Spot[]): Grasp {
  const { spot, apart } = between(fingers);
  return { ground: lens.groundAt(look, spot), apart, scale: look.scale };
}

/** The look once the fingers have moved: the ground between them stays between them, and grows as they part. */
export function drawn(lens: Lens, { ground, apart, scale }: Grasp, fingers: readonly Spot[]): Look {
  const now = between(fingers);
  return lens.lookWith(apart === null || now.apart === null ? scale : scale * (now.apart / apart), ground, now.spot);
}

/** Fingers on one spot, as a glass may report them, are still a finger's skin apart. Pixels. */
const SKIN = 8;

function between([a, b]: readonly Spot[]): { spot: Spot; apart: number | null } {
  if (!a) throw new Error("no finger is on the drawing");
  if (!b) return { spot: a, apart: null };
  return { spot: [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2], apart: Math.max(SKIN, Math.hypot(b[0] - a[0], b[1] - a[1])) };
}
