import type { SurveyMethod } from "@/lib/park";

/** When measurements are believed, doubted and refused. Named, so that each can be argued with. */
export const surveyTolerances = {
  /** Most rounds of a least-squares solution; some four are used. */
  rounds: 60,
  /** A solution is settled when a round moves nothing by more than this, mm: far below what a tape is read to. */
  settled: 1e-6,
  /** A reading is doubted beyond so many of its own standard errors: one in a thousand is so by chance (data snooping, Baarda 1968). */
  doubt: 3.29,
  /** The same for all readings together, as a normal deviate. */
  doubtAll: 3.09,
  /** Two readings are not told apart as the culprit where their standardized misfits differ by less than this share. */
  alike: 0.05,
  /** Below so many standard errors from the line of its known points, a point's side is not known. */
  side: 3,
  /** An ellipse so many times as long as the readings' own error is worth a warning: tapes that cross at under some 15 degrees. */
  weak: 5,
  /** An ellipse so many times as long says nothing any more: tapes that cross at under a degree or two. */
  hopeless: 50,
  /** Two points nearer to each other than this are one, mm. */
  onePlace: 10,
  /** The smallest sine of an angle in a triangle of a ring that still gives a corner. */
  flat: 0.05,
  /** A plane's misfit below this is never called uneven, mm: less than a block is thick. */
  uneven: 20,
  /** Above this angle a height by angle is mostly error, degrees. */
  steep: 65,
} as const;

export type SurveyTolerances = { readonly [Name in keyof typeof surveyTolerances]: number };

const { hypot } = Math;

/**
 * The standard error that a careful person's measurement usually has, mm for lengths, per cent for slopes (common
 * practice with a hand-held tape on rough ground: 10 mm, and 1 mm for every metre). For forms to begin with.
 */
export function usualError(how: SurveyMethod, value: number): number {
  const size = Math.abs(value);
  switch (how) {
    case "tape": return hypot(10, size / 1000);
    case "offsets": return hypot(20, size / 100); // square to the base by eye: half a degree
    case "pole": return 25;
    case "angle": return hypot(50, size / 50); // half a degree up, and the distance
    case "girth": return hypot(3, size / 100); // no trunk is quite round
    case "level": return 0.25; // 3 mm under a 1.2 m level
    case "inclinometer": return 0.35; // a fifth of a degree
    case "spot-heights": return 5;
    case "gauge": return 14; // kPa: 2 psi, what a dial shows, and how pressure changes over a day
    case "from-plan": return 300;
    case "estimated": return Math.max(300, size / 5);
  }
}

/** A slope judged by eye is not known to this, per cent. */
export const SLOPE_BY_EYE = 1.5;

/** As far away lie things on a site, mm: errors grow with what is measured. */
const FAR = 10_000;

/** The same where somebody only says how they know a number, by its field; null where that tells no error: slopes taken with a tape, spot heights, a pressure that no gauge showed. `value` null: a place or an outline. */
export function errorSaid(how: SurveyMethod, of: string, value: number | null): number | null {
  if (of === "ground" || of.endsWith(".pressure")) return null;
  if (of.startsWith("ground.")) return how === "estimated" || how === "from-plan" ? SLOPE_BY_EYE : null;
  return Math.round(usualError(how, value ?? FAR) * 100) / 100;
}
