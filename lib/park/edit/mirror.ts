import type { MeasurementInput } from "../survey-schema";
import type { Draft } from "./record";

/**
 * The site as in a mirror held along the pad's line: left becomes right, in everything that has a side, what was read in surveying included. Twice gives the same
 * record. Its place and bearing on the park's map stay: x still points the same way.
 */
export function mirrorSite(draft: Draft): Draft {
  const { pad, lot, roadEdge, exitEdge, approach, ground, obstacles, hookups, parking, survey } = draft;
  return {
    ...draft,
    pad: { ...pad, outline: pad.outline.map(over) },
    ...(lot && { lot: { ...lot, outline: lot.outline.map(over) } }),
    ...(roadEdge && { roadEdge: both(roadEdge) }),
    ...(exitEdge && { exitEdge: both(exitEdge) }),
    ...(approach && { approach: mirrorApproach(approach) }),
    ground: {
      ...ground,
      ...(typeof ground.across === "number" && { across: minus(ground.across) }),
      ...(ground.heights && { heights: ground.heights.map(overHeight) }),
    },
    ...(obstacles && { obstacles: obstacles.map((o) => ({ ...o, ...(o.at && { at: over(o.at) }), ...(o.outline && { outline: o.outline.map(over) }) })) }),
    ...(hookups && { hookups: hookups.map((h) => ({ ...h, at: over(h.at) })) }),
    ...(parking && { parking: parking.map((p) => ({ ...p, outline: p.outline.map(over) })) }),
    ...(survey && { survey: { ...survey, measurements: (survey.measurements ?? []).map(mirrorMeasurement) } }),
  };
}

type Pt = [number, number];
type Approach = NonNullable<Draft["approach"]>;
type ReadingsIn = NonNullable<MeasurementInput["readings"]>;

function mirrorApproach(approach: Approach): Approach {
  const { road, exitRoad, driveable, heightLimits } = approach;
  return {
    ...approach,
    road: mirrorRoad(road),
    ...(exitRoad && { exitRoad: mirrorRoad(exitRoad) }),
    ...(driveable && { driveable: driveable.map((outline) => outline.map(over)) }),
    ...(heightLimits && { heightLimits: heightLimits.map((limit) => ({ ...limit, across: both(limit.across) })) }),
  };
}

function mirrorRoad(road: Approach["road"]): Approach["road"] {
  const other = { "toward-left": "toward-right", "toward-right": "toward-left", both: "both" } as const;
  return { ...road, centreline: road.centreline.map(over), ...(road.traffic && { traffic: other[road.traffic] }) };
}

function mirrorMeasurement(measurement: MeasurementInput): MeasurementInput {
  const { readings } = measurement;
  return readings ? { ...measurement, readings: mirrorReadings(readings) } : measurement;
}

function mirrorReadings(readings: ReadingsIn): ReadingsIn {
  const { tapes, side, offset, level, degrees, percent, spots } = readings;
  return {
    ...readings,
    ...(tapes && { tapes: tapes.map((tape) => ({ ...tape, from: overKnown(tape.from) })) }),
    ...(side && { side: side === "left" ? "right" as const : "left" as const }),
    ...(offset && { offset: { ...offset, ...(offset.base && { base: [overKnown(offset.base[0]), overKnown(offset.base[1])] as [string | Pt, string | Pt] }), across: minus(offset.across) } }),
    ...(level?.across && { level: { ...level, across: { ...level.across, rise: minus(level.across.rise) } } }),
    ...(degrees && typeof degrees.across === "number" && { degrees: { ...degrees, across: minus(degrees.across) } }),
    ...(percent && typeof percent.across === "number" && { percent: { ...percent, across: minus(percent.across) } }),
    ...(spots && { spots: spots.map(overHeight) }),
  };
}

function overKnown(from: string | Pt): string | Pt {
  return typeof from === "string" ? from : over(from);
}

function over([x, y]: readonly [number, number]): Pt {
  return [x, minus(y)];
}

function overHeight([x, y, z]: readonly [number, number, number]): [number, number, number] {
  return [x, minus(y), z];
}

function both([a, b]: readonly [Pt, Pt]): [Pt, Pt] {
  return [over(a), over(b)];
}

/** Never minus zero, which would make two equal records differ. */
function minus(value: number): number {
  return value === 0 ? 0 : -value;
}
