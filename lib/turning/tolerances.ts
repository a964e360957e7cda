import type { Mm, Radians } from "@/lib/measure";

/** How exactly a drive is followed and looked at. Each is passed in; these are the ones for ground that people measure. */
export interface TurningTolerances {
  /** Error of every angle over a whole drive forwards, as estimated step by step. A drive in reverse multiplies errors: see the README. */
  readonly angle: Radians;
  /** How closely extremes are located along the way, and how far two ways of finding one may differ. */
  readonly extreme: Mm;
  /** By how much a shape made of pieces may stand off the swept area, to either side. */
  readonly outline: Mm;
  /** Between a distance that is given and one that is proven. */
  readonly distance: Mm;
  /** By how much a hitch angle at its limit may be told beyond it by rounding: it has to exceed this to pass the limit. */
  readonly hitch: Radians;
  /** Steps tried, poses looked at or pieces made before an answer is left open. */
  readonly budget: number;
}

/** 1e-8 rad at the end of a 100 m train is a thousandth of a millimetre; a tape shows one. */
export const defaultTolerances: TurningTolerances = {
  angle: 1e-8 as Radians,
  extreme: 0.01 as Mm,
  outline: 20 as Mm,
  distance: 5 as Mm,
  hitch: 1e-7 as Radians,
  budget: 200_000,
};
