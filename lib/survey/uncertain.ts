import { groundPlane, surveyTarget, type Measurement, type Site } from "@/lib/park";
import { placesOf } from "./chain";
import { isThere } from "./due";
import { latestOf, measurementOf } from "./latest";

/** A number of the record that its measurement's error leaves open, in the shape in which lib/fit takes numbers that are not known. */
export interface UncertainNumber {
  /** By index, such as `site.obstacles.0.crownFrom`. */
  readonly field: string;
  readonly min: number;
  readonly max: number;
  /** As recorded. */
  readonly typical: number;
  readonly measurement: Measurement;
}

/** Ranges are so many standard errors to either side: some nineteen in twenty hold the true value. */
export const RANGE_ERRORS = 2;

const made = new WeakMap<Site, readonly UncertainNumber[]>();

/**
 * The numbers of a site that were measured with an error, each with its range. Positions get the error that their readings and all
 * the points behind them give. Where the ground is given by spot heights its slopes are named all the same (`site.ground.along`), as those of the plane: see
 * `withSlopes` in lib/fit. The way in, parking stalls and things that are gone are left out. Worked out once a record.
 */
export function unknownsOf(site: Site): readonly UncertainNumber[] {
  let unknowns = made.get(site);
  if (!unknowns) {
    const measured = [...latestOf(site).values()].filter(({ error, of }) => error > 0 && isThere(of, site));
    unknowns = [...slopeRanges(site), ...measured.flatMap((measurement) => rangesOf(measurement, site))];
    made.set(site, unknowns);
  }
  return unknowns;
}

function slopeRanges(site: Site): UncertainNumber[] {
  const plane = groundPlane(site.ground), slopes = { along: 100 * plane.alongGradient, across: 100 * plane.acrossGradient };
  return (["along", "across"] as const).flatMap((way) => {
    const measurement = measurementOf(site, `ground.${way}`), typical = slopes[way];
    if (!measurement || measurement.error === 0) return [];
    return [{ field: `site.ground.${way}`, min: typical - RANGE_ERRORS * measurement.error, max: typical + RANGE_ERRORS * measurement.error, typical, measurement }];
  });
}

function rangesOf(measurement: Measurement, site: Site): UncertainNumber[] {
  const { list, id, field } = surveyTarget(measurement.of)!;
  const range = (path: string, typical: number | undefined, error: number, least = -Infinity): UncertainNumber[] =>
    (typical === undefined || error === 0 ? [] : [{ field: `site.${path}`, min: Math.max(least, typical - RANGE_ERRORS * error), max: typical + RANGE_ERRORS * error, typical, measurement }]);
  const corners = (path: string, points: readonly (readonly [number, number])[] | undefined) => (points ?? []).flatMap((point, k) => point.flatMap((value, axis) => range(`${path}.${k}.${axis}`, value, measurement.error)));
  if (list === "obstacles" || list === "hookups") {
    const i = site[list].findIndex((one) => one.id === id), thing: Readonly<Record<string, unknown>> = site[list][i]!;
    if (field === "outline") return corners(`${list}.${i}.outline`, site.obstacles[i]?.outline);
    if (field === "at") return placeRanges(`${list}.${i}.at`, measurement.of, site, range);
    const value = thing[field];
    return typeof value === "number" ? range(`${list}.${i}.${field}`, value, measurement.error, field === "groundZ" ? -Infinity : 0) : [];
  }
  if (list !== "") return [];
  switch (field) {
    case "pad": return corners("pad.outline", site.pad.outline);
    case "lot": return corners("lot.outline", site.lot?.outline);
    case "roadEdge": case "exitEdge": return corners(field, site[field]);
    default: return [];
  }
}

function placeRanges(path: string, of: string, site: Site, range: (path: string, typical: number, error: number) => UncertainNumber[]): UncertainNumber[] {
  const place = placesOf(site).known.get(of);
  if (!place) return [];
  const { at: [x, y], spread: { xx, yy } } = place;
  return [...range(`${path}.0`, x, Math.sqrt(xx)), ...range(`${path}.1`, y, Math.sqrt(yy))];
}
