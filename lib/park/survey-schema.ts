import { z } from "zod";
import { across, coordinate, count, extent, identifier, length, list, optional, percent, point, repeatedIds } from "@/lib/measure";

/** How a number was come by. The last two were not measured at the site: read off a drawing, or judged by eye. */
export const surveyMethods = ["tape", "offsets", "pole", "angle", "girth", "level", "inclinometer", "spot-heights", "gauge", "from-plan", "estimated"] as const;
export type SurveyMethod = (typeof surveyMethods)[number];

/** The fields of a site that a measurement may give, by the list they stand in; things in lists are named by their ids. */
export const measurable = {
  "": ["pad", "lot", "ground", "ground.along", "ground.across", "roadEdge", "exitEdge", "approach"],
  obstacles: ["at", "outline", "radius", "from", "to", "trunkRadius", "crownRadius", "crownFrom", "crownTo"],
  hookups: ["at", "height", "groundZ", "pressure", "postRadius", "postHeight"],
  parking: ["outline"],
  "approach.heightLimits": ["across", "height"],
} as const satisfies Record<string, readonly string[]>;

/** What a measurement gives: a field of the site itself (`list` empty), or of the thing with this id in one of its lists. */
export interface SurveyTarget {
  readonly list: keyof typeof measurable;
  readonly id: string | null;
  readonly field: string;
}

/** Reads a path such as `pad`, `obstacles.oak.crownFrom` or `hookups.ped.at`; null where no record has such a field. Whether a thing of that id is there is not asked. */
export function surveyTarget(of: string): SurveyTarget | null {
  if (measurable[""].some((field) => field === of)) return { list: "", id: null, field: of };
  const last = of.lastIndexOf("."), field = of.slice(last + 1);
  for (const list of ["obstacles", "hookups", "parking", "approach.heightLimits"] as const) {
    const id = of.slice(list.length + 1, last);
    if (of.startsWith(`${list}.`) && id.length > 0 && measurable[list].some((one) => one === field)) return { list, id, field };
  }
  return null;
}

const day = z.iso.date("must be a day such as 2026-11-26");

const of = z.string("must be a text").min(1, "must not be empty").max(200).superRefine((path, ctx) => {
  if (path.length > 0 && !surveyTarget(path)) {
    ctx.addIssue({ code: "custom", message: "must name what was measured, such as pad, ground, lot, approach, obstacles.<id>.at or hookups.<id>.height" });
  }
});

/** Where a tape was held: a place on the site, or one that the record knows by name. */
export const knownPoint = z.union([point, z.string().min(1).max(200).regex(/^(origin|pad\.\d{1,3}|obstacles\..+\.at|hookups\..+\.at)$/)], {
  error: "must be a point [x, y], or origin, pad.<corner from 0>, obstacles.<id>.at or hookups.<id>.at",
});

const tapeReading = z.object({
  from: knownPoint,
  distance: extent.describe("As read (mm)."),
  add: optional(coordinate).describe("What the middle lies beyond the face that the tape was held to: the radius of a trunk or a post (mm)."),
  error: optional(length).describe("Standard error of this reading (mm), where it is not the method's own."),
});

const diagonal = z.object({ from: count, to: count, length: extent, error: optional(length) });
const riseOver = z.object({ rise: coordinate.describe("Of the end toward +x or +y over the other (mm)."), over: extent.describe("Length of the level or board (mm).") });
const tilt = z.number("must be an angle in degrees").gt(-90).lt(90);
const spot = z.tuple([coordinate, coordinate, coordinate], "must be a spot height [x, y, z] in millimetres");

/** What each method may read. */
const READ_BY: Readonly<Record<SurveyMethod, readonly string[]>> = {
  tape: ["tapes", "ring", "length"], offsets: ["offset"], pole: ["length"], angle: ["angle"], girth: ["girth"],
  level: ["level"], inclinometer: ["degrees", "percent"], "spot-heights": ["spots"], gauge: [], "from-plan": [], estimated: [],
};

const readings = z.object({
  tapes: optional(z.array(tapeReading).min(1, "needs at least one tape").max(20)).describe("Distances to a point, each from a known one."),
  side: optional(z.enum(["left", "right"], "must be left or right")).describe("With tapes: on which side of the line from the first known point to the second."),
  ring: optional(z.object({
    sides: z.array(extent).min(3, "needs at least three sides").max(30).describe("From corner 0 to 1, 1 to 2, and round (mm)."),
    diagonals: list(diagonal, 100).describe("Between corners by their numbers from 0."),
    inward: list(count, 30).describe("Corners that point into the outline."),
    error: optional(length),
  }).check(across((ring, fault) => {
    const corners = Array.isArray(ring.sides) ? ring.sides.length : Infinity;
    if (!Array.isArray(ring.diagonals)) return;
    ring.diagonals.forEach((d, i) => {
      for (const end of ["from", "to"] as const) if (d?.[end] >= corners) fault(["diagonals", i, end], `has no such corner: they are numbered from 0 to ${corners - 1}`);
      if (d?.from === d?.to) fault(["diagonals", i, "to"], "must be another corner than the one it comes from");
    });
  }))).describe("An outline by its sides and diagonals."),
  offset: optional(z.object({
    base: optional(z.tuple([knownPoint, knownPoint])).describe("From the first toward the second; the site's own x axis from its origin where left out."),
    along: coordinate, across: coordinate.describe("To the left of who looks along the base (mm)."),
  })),
  length: optional(length).describe("A length read straight off a tape or a pole (mm)."),
  angle: optional(z.object({
    distance: extent.describe("Along level ground to below the point (mm)."),
    top: tilt.describe("Up to the point (degrees)."),
    base: optional(tilt).describe("To the ground below it (degrees, under zero downhill); else the height of the eye on level ground counts."),
    eye: optional(length).describe("Height of the eye above the ground (mm)."),
  })),
  girth: optional(extent).describe("All the way around (mm)."),
  level: optional(z.object({ along: optional(riseOver), across: optional(riseOver) })).describe("A level held along and across, and the rise under its low end."),
  degrees: optional(z.object({ along: optional(tilt), across: optional(tilt) })),
  percent: optional(z.object({ along: optional(percent), across: optional(percent) })),
  spots: optional(z.array(spot).min(3, "needs at least three spot heights").max(1000)),
});

/** One measurement: what it gives, how, how well, when, by whom, and when to look again. */
export const measurementSchema = z
  .object({
    id: identifier,
    of: of.describe("The field of the site that it gives, things by their ids: pad, ground, lot, approach, obstacles.<id>.crownFrom, hookups.<id>.at, …"),
    how: z.enum(surveyMethods, `must be one of ${surveyMethods.join(", ")}`),
    error: z.number("must be the standard error: a number").min(0, "must not be negative").max(100_000).describe("Standard error: mm; per cent for slopes, kPa for a pressure."),
    on: day.describe("The day it was taken."),
    by: optional(z.string().min(1, "must not be empty").max(80)).describe("Initials or a short word."),
    again: optional(day).describe("The day by which to look again."),
    readings: optional(readings).describe("What was read, so that it can be worked out anew."),
  })
  .check(across((m, fault) => {
    // ISO days compare as texts.
    if (typeof m.on === "string" && typeof m.again === "string" && m.again < m.on) fault(["again"], "must not be before the day it was taken");
    const may = m.how === undefined ? undefined : READ_BY[m.how];
    if (!may || typeof m.readings !== "object") return;
    for (const [key, read] of Object.entries(m.readings)) {
      if (read !== undefined && key !== "side" && !may.includes(key)) fault(["readings", key], `is not read by ${m.how}${may.length > 0 ? `: that gives ${may.join(" or ")}` : ""}`);
    }
  }));

/** What is known of how a site was measured. */
export const surveySchema = z
  .object({
    measurements: list(measurementSchema, 5000, "must be a list of measurements"),
    removed: optional(z.array(identifier).max(20_000)).describe("What has been done and left nothing here: ids of measurements that went with their things, and of the steps that took those off. None is taken again."),
  }, "must be the survey: { measurements }")
  .check(across((survey, fault) => {
    for (const { at, id } of repeatedIds(survey.measurements)) fault(["measurements", at, "id"], `"${id}" is already the id of another measurement of this site`);
  }));

export type Survey = z.infer<typeof surveySchema>;
export type Measurement = z.infer<typeof measurementSchema>;
export type MeasurementInput = z.input<typeof measurementSchema>;
export type KnownPoint = z.infer<typeof knownPoint>;
export type Readings = z.infer<typeof readings>;
