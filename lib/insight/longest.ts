import type { Site } from "@/lib/park";
import { lengthClassesOf, typicalRig, type Rig, type RigKind } from "@/lib/rig";
import type { LengthVariant } from "./types";

/** How lengths are stepped through, mm: the coarse ones are what a post says, the fine ones how far it is settled. */
export interface LengthSteps {
  readonly coarse: number;
  readonly fine: number;
}

export const lengthSteps = {
  "ft-in": { coarse: 304.8, fine: 25.4 },
  metric: { coarse: 500, fine: 50 },
} as const satisfies Record<string, LengthSteps>;

/** The longest rig of a kind that a site takes. Lengths are overall, hitch included, mm. */
export interface LongestFit {
  readonly kind: RigKind;
  readonly variant: LengthVariant;
  /** To the fine step: this long fits, and one fine step more does not. Null where not even the shortest class fits. */
  readonly longest: number | null;
  /** To the coarse step, tried as well: what a post may say. */
  readonly posted: number | null;
  /** The search began here, longer than such rigs are built, and even that fits: there is no limit to tell. */
  readonly beyondAll: boolean;
}

/** Looked at beyond the longest class, in coarse steps: now and then one is built longer. */
const MARGIN = 4;

/**
 * The longest typical rig of a kind that fits. Longer is not always worse (an inlet moves toward its hookup, say), so it is
 * not found by halving alone: from beyond the longest class down in coarse steps to the first that fits, then halved
 * between that and the one above.
 *
 * What it can miss: a length that fits between two coarse steps neither of which does; and above the length found,
 * within that one coarse step, a longer one that fits again. Both would be a rig that fits while those a little shorter
 * do not, which nobody should post. Between the shortest class and the length found, lengths are not looked at.
 */
export function longestFit(kind: RigKind, variant: LengthVariant, fitsAt: (rig: Rig) => boolean, { coarse, fine }: LengthSteps): LongestFit {
  const classes = lengthClassesOf(kind);
  const fits = (overall: number) => fitsAt(variantOf(typicalRig(kind, overall), variant));
  const lowest = Math.ceil(classes[0]! / coarse - NOISE), highest = Math.ceil(classes.at(-1)! / coarse - NOISE) + MARGIN;
  let steps = highest;
  while (steps >= lowest && !fits(steps * coarse)) steps--;
  if (steps < lowest) return { kind, variant, longest: null, posted: null, beyondAll: false };
  const posted = steps * coarse;
  if (steps === highest) return { kind, variant, longest: posted, posted, beyondAll: true };
  // Counted in fine steps above the coarse one, so that no sum of roundings drifts: `low` fits, `high` does not.
  let low = 0, high = Math.round(coarse / fine);
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (fits(posted + middle * fine)) low = middle;
    else high = middle;
  }
  return { kind, variant, longest: posted + low * fine, posted, beyondAll: false };
}

/** The rig with only the slides of the variant: one that has none, or has them on one side. */
export function variantOf(rig: Rig, variant: LengthVariant): Rig {
  if (variant === "slides") return rig;
  const kept = { "slides-left": "left", "slides-right": "right", "no-slides": null }[variant];
  return { ...rig, parts: rig.parts.filter((part) => part.kind !== "slide" || part.side === kept) };
}

/** Whether some length of the kind has a slide at all: else with and without are the same. */
export function hasSlides(kind: RigKind): boolean {
  return typicalRig(kind, lengthClassesOf(kind).at(-1)!).parts.some((part) => part.kind === "slide");
}

/**
 * The site as its ground is, for finding what could be posted: without the limit that is posted now, and open to every
 * guest. Everything else counts: pad, lot, roads, obstacles, hookups, slope, vehicles.
 */
export function groundAlone(site: Site): Site {
  return { ...site, rules: { ...site.rules, maxLength: undefined, accessible: false } as Site["rules"] };
}

/** The rig asking for no service that the site has not: a site without water takes those who do without. */
export function askingFor(rig: Rig, site: Site): Rig {
  return { ...rig, wants: rig.wants.filter((service) => site.hookups.some(({ kind }) => kind === service)) };
}

/** A class length is a whole number of feet but for rounding. */
const NOISE = 1e-6;
