import { radiansFromDegrees } from "@/lib/measure";
import { workedOut } from "./propagation";
import { surveyTolerances, type SurveyTolerances } from "./tolerances";
import { note, refused, type Measured, type Surveyed } from "./types";

/** A height by angle and distance. Angles in degrees, up above zero; lengths in mm. */
export interface AngleReading {
  /** From below the point to where one stands. With `base` and `eye`: as the tape lies on the ground; else level. */
  readonly distance: Measured;
  /** Up to the point. */
  readonly top: Measured;
  /** To the ground below the point, under zero where that lies lower than the eye; left out on level ground. */
  readonly base?: Measured;
  /** Height of the eye above the ground one stands on. */
  readonly eye?: Measured;
}

/**
 * How high a limb or wire hangs above the ground below it. On level ground: eye + distance × tan(top). With an angle to the base: level
 * distance × (tan(top) − tan(base)), the level distance being the taped one where no eye height is given. Refused where
 * the point is not above its base, where no eye height and no base angle is given, or where one stands so near that the angle says little.
 */
export function heightByAngle(reading: AngleReading, { steep }: Pick<SurveyTolerances, "steep"> = surveyTolerances): Surveyed<Measured> {
  const { distance, top, base, eye } = reading;
  if (!base && !eye) return refused(note("angle:short"));
  if (top.value >= steep) return refused(note("angle:steep", [], distance.value));
  const given = [distance, top, ...(base ? [base] : []), ...(eye ? [eye] : [])];
  const value = workedOut((v) => {
    const [d, up] = [v[0]!, tangent(v[1]!)];
    if (!base) return v[2]! + d * up;
    const down = tangent(v[2]!);
    return (eye ? levelDistance(d, down, v[3]!) : d) * (up - down);
  }, given);
  return value.value > 0 && Number.isFinite(value.value) ? { ok: true, value, warnings: [] } : refused(note("angle:below"));
}

/** The radius of a round thing by its girth: all the way around over 2 π. */
export function radiusByGirth({ value, error }: Measured): Measured {
  return { value: value / (2 * Math.PI), error: error / (2 * Math.PI) };
}

function tangent(degrees: number): number {
  return Math.tan(radiansFromDegrees(degrees));
}

/**
 * The level distance where the tape lies on ground that slopes evenly: the base is as far below the eye as the angle says, so
 * taped² = d² + (eye + d × tan(base))².
 */
function levelDistance(taped: number, down: number, eye: number): number {
  const a = 1 + down * down, b = eye * down, c = eye * eye - taped * taped;
  return (-b + Math.sqrt(b * b - a * c)) / a;
}
