import { groundPlane, siteSchema, surveyTarget, type MeasurementInput, type SiteInput, type SurveyMethod } from "@/lib/park";
import { placesOf } from "./chain";
import { heightByAngle, radiusByGirth } from "./heights";
import { followMoved } from "./follow";
import { withField } from "./record";
import { closeRing, type Ring, type RingDistance } from "./ring";
import { fitPlane, slopeByDegrees, slopeByLevel, type PlaneFit } from "./slopes";
import { SLOPE_BY_EYE, usualError } from "./tolerances";
import { note, refused, type Measured, type Placement, type Surveyed } from "./types";

/** One thing read at a site. Of a number that was judged by eye or read off a plan, `value` is that number itself. */
export interface Reading {
  /** No two are alike: one that is taken twice counts once. */
  readonly id: string;
  readonly of: string;
  readonly how: SurveyMethod;
  readonly on: string;
  readonly by?: string;
  readonly again?: string;
  readonly value?: number;
  readonly readings?: NonNullable<MeasurementInput["readings"]>;
}

/** What a reading came to. */
export type Found =
  | { readonly type: "place"; readonly placement: Placement & { readonly misfit?: number | null } }
  | { readonly type: "number"; readonly value: Measured }
  | { readonly type: "outline"; readonly ring: Ring }
  | { readonly type: "ground"; readonly fit: PlaneFit };

export interface Taken {
  readonly record: SiteInput;
  readonly found: Found;
}

/** Standard errors of what a hand-held thing reads: an inclinometer's angle, degrees; the height of an eye and the rise under a level, mm. */
const READ = { degrees: 0.5, tilt: 0.2, eye: 20, rise: 3 } as const;

/**
 * The record with what was read in its place and the measurement beside it, or why the reading gives nothing. Numbers in whole
 * millimetres, slopes to a hundredth of a per cent. What was measured from a point that moves by it moves along, by its own readings, and is told.
 */
export function takeReading(record: SiteInput, reading: Reading): Surveyed<Taken> {
  const target = surveyTarget(reading.of);
  if (!target) return refused(note("chain:unknown", [reading.of]));
  if (target.field === "at") return following(record, takePlace(record, reading));
  if (target.list === "" && target.field === "pad") return following(record, takeOutline(record, reading));
  if (target.list === "" && target.field === "ground") return takeGround(record, reading);
  const measured = numberFrom(reading, target.field);
  if (!measured.ok) return measured;
  const { value: { value, error } } = measured;
  const slope = target.field.startsWith("ground."), rounded = slope ? Math.round(value * 100) / 100 : Math.round(value);
  const next = slope ? withSlope(record, target.field, rounded) : inOrder(withField(record, reading.of, rounded), reading.of, rounded);
  return taken(withMeasurement(next, reading, error), { type: "number", value: { value: rounded, error } }, measured.warnings);
}

function following(before: SiteInput, taken: Surveyed<Taken>): Surveyed<Taken> {
  if (!taken.ok) return taken;
  const { record, warnings } = followMoved(before, taken.value.record);
  return { ok: true, value: { ...taken.value, record }, warnings: [...taken.warnings, ...warnings] };
}

/** Where a thing begins and where it ends: an end that nobody has measured gives way to the one that somebody has. */
const ENDS: Readonly<Record<string, readonly [other: string, below: boolean]>> = { from: ["to", true], to: ["from", false], crownFrom: ["crownTo", true], crownTo: ["crownFrom", false] };

function inOrder(record: SiteInput, of: string, value: number): SiteInput {
  const { list, id, field } = surveyTarget(of)!, [other, below] = ENDS[field] ?? [];
  if (list !== "obstacles" || other === undefined) return record;
  const end = (record.obstacles ?? []).find((thing) => thing.id === id)?.[other as "from" | "to" | "crownFrom" | "crownTo"];
  const path = of.replace(/[^.]+$/, other), known = (record.survey?.measurements ?? []).some((m) => m.of === path && m.how !== "estimated" && m.how !== "from-plan");
  return typeof end === "number" && !known && (below ? end < value : end > value) ? withField(record, path, value) : record;
}

function takePlace(record: SiteInput, reading: Reading): Surveyed<Taken> {
  const trial = siteSchema.safeParse(withMeasurement(record, reading, 0));
  const worked = trial.success ? placesOf(trial.data).worked.get(reading.of) : undefined;
  if (!worked) return refused(note("tapes:too-few"));
  if (!worked.ok) return worked;
  const { at, spread } = worked.value;
  const placed = withField(record, reading.of, [Math.round(at[0]), Math.round(at[1])]);
  return taken(withMeasurement(placed, reading, Math.sqrt(Math.max(spread.xx, spread.yy))), { type: "place", placement: worked.value }, worked.warnings);
}

function takeOutline(record: SiteInput, reading: Reading): Surveyed<Taken> {
  const ring = reading.readings?.ring;
  if (!ring) return refused(note("ring:too-few"));
  const count = ring.sides.length, error = (length: number) => ring.error ?? usualError("tape", length);
  const distances: RingDistance[] = [
    ...ring.sides.map((length, i) => ({ name: `${i}-${(i + 1) % count}`, from: i, to: (i + 1) % count, length, error: error(length) })),
    ...(ring.diagonals ?? []).map(({ from, to, length }) => ({ name: `${from}-${to}`, from, to, length, error: error(length) })),
  ];
  const closed = closeRing(count, distances, { inward: ring.inward ?? [] });
  if (!closed.ok) return closed;
  const { corners, spreads } = closed.value, worst = Math.max(...spreads.map(({ xx, yy }) => Math.max(xx, yy)));
  const outline = inOrderOf(record.pad.outline, corners.map(([x, y]) => [Math.round(x), Math.round(y)] as [number, number]));
  const next: SiteInput = { ...record, pad: { ...record.pad, outline } };
  return taken(withMeasurement(next, reading, Math.sqrt(worst)), { type: "outline", ring: closed.value }, closed.warnings);
}

/** The corners begun where the old outline began and run the same way round, as tapes were held to them by their numbers. */
function inOrderOf(old: readonly (readonly [number, number])[], corners: [number, number][]): [number, number][] {
  const n = corners.length;
  if (old.length !== n) return corners;
  const turned = [corners, [...corners].reverse()].flatMap((way) => Array.from({ length: n }, (_, k) => [...way.slice(k), ...way.slice(0, k)]));
  const off = (order: [number, number][]) => order.reduce((sum, [x, y], i) => sum + (x - old[i]![0]) ** 2 + (y - old[i]![1]) ** 2, 0);
  return turned.reduce((best, order) => (off(order) < off(best) ? order : best));
}

function takeGround(record: SiteInput, reading: Reading): Surveyed<Taken> {
  const spots = reading.readings?.spots;
  if (!spots) return refused(note("ground:in-line"));
  const fit = fitPlane(spots, usualError("spot-heights", 0));
  if (!fit.ok) return fit;
  const next: SiteInput = { ...record, ground: { heights: spots.map(([x, y, z]) => [Math.round(x), Math.round(y), Math.round(z)] as [number, number, number]) } };
  return taken(withMeasurement(next, reading, Math.max(fit.value.along.error, fit.value.across.error)), { type: "ground", fit: fit.value }, fit.warnings);
}

/** A length, height, radius, slope or pressure with its standard error. */
function numberFrom({ how, value, readings = {} }: Reading, field: string): Surveyed<Measured> {
  const good = (measured: Measured): Surveyed<Measured> => (Number.isFinite(measured.value) ? { ok: true, value: measured, warnings: [] } : refused(note("chain:unknown", [field])));
  const axis = field === "ground.across" ? "across" : "along", { level, degrees, percent, angle, girth, length } = readings;
  if (value !== undefined) return good({ value, error: field.startsWith("ground.") ? SLOPE_BY_EYE : usualError(how, value) });
  if (girth !== undefined && girth !== null) return good(radiusByGirth({ value: girth, error: usualError("girth", girth) }));
  if (length !== undefined && length !== null) return good({ value: length, error: usualError(how, length) });
  if (level?.[axis]) return good(slopeByLevel({ value: level[axis].rise, error: READ.rise }, { value: level[axis].over, error: READ.rise }));
  if (typeof degrees?.[axis] === "number") return good(slopeByDegrees({ value: degrees[axis], error: READ.tilt }));
  if (typeof percent?.[axis] === "number") return good({ value: percent[axis], error: usualError("inclinometer", 0) });
  if (!angle) return refused(note("chain:unknown", [field]));
  const { distance, top, base, eye } = angle;
  return heightByAngle({
    distance: { value: distance, error: usualError("tape", distance) }, top: { value: top, error: READ.degrees },
    ...(typeof base === "number" ? { base: { value: base, error: READ.degrees } } : {}), ...(typeof eye === "number" ? { eye: { value: eye, error: READ.eye } } : {}),
  });
}

function taken(record: SiteInput, found: Found, warnings: readonly ReturnType<typeof note>[]): Surveyed<Taken> {
  return { ok: true, value: { record, found }, warnings };
}

function withMeasurement(record: SiteInput, { id, of, how, on, by, again, readings }: Reading, error: number): SiteInput {
  const measurement: MeasurementInput = {
    id, of, how, error: Math.round(error * 100) / 100, on,
    ...(by ? { by } : {}), ...(again ? { again } : {}), ...(readings ? { readings } : {}),
  };
  const others = (record.survey?.measurements ?? []).filter((m) => m.id !== id);
  return { ...record, survey: { ...record.survey, measurements: [...others, measurement] } };
}

/** The record with one slope anew; where it had spot heights, the other one is that of their plane. */
function withSlope(record: SiteInput, field: string, value: number): SiteInput {
  const plane = groundPlane(siteSchema.parse(record).ground), percent = (gradient: number) => Math.round(gradient * 10_000) / 100;
  const now = { along: percent(plane.alongGradient), across: percent(plane.acrossGradient) };
  return { ...record, ground: field === "ground.along" ? { ...now, along: value } : { ...now, across: value } };
}
