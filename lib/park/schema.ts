import { z } from "zod";
import { across, coordinate, count, freeWord, identifier, length, list, optional, percent, point, sized, wrongUnit } from "@/lib/measure";
import { boundsOf, outlineFault, turn, type Point } from "@/lib/plane";
import { surveySchema } from "./survey-schema";

const outline = z
  .array(point, "must be a list of points [x, y] in millimetres")
  .min(3, "needs at least three corners")
  .max(500)
  .superRefine((corners, ctx) => {
    const fault = corners.length >= 3 ? outlineFault(corners) : null;
    if (fault) ctx.addIssue({ code: "custom", message: `must be a simple outline: ${fault}` });
  });

/** The longest side of a pad that a vehicle could stand on at all, and of one that is a site and no parking lot, mm. */
const PAD = { least: 1000, most: 400_000 } as const;

const padOutline = outline.superRefine((corners, ctx) => {
  if (corners.length < 3 || !corners.every((corner) => corner.every(Number.isFinite))) return;
  const { minX, maxX, minY, maxY } = boundsOf(corners), longest = Math.max(maxX - minX, maxY - minY);
  if (longest < PAD.least || longest > PAD.most) ctx.addIssue({ code: "custom", message: `from end to end the pad ${wrongUnit(longest, PAD.least, PAD.most)}` });
});

const line = z.tuple([point, point], "must be two points on the edge of the road").superRefine(([a, b], ctx) => {
  if (a[0] === b[0] && a[1] === b[1]) ctx.addIssue({ code: "custom", message: "must be two different points" });
});

const spot = z.tuple([coordinate, coordinate, coordinate], "must be a spot height [x, y, z] in millimetres");
const spotHeights = z
  .array(spot)
  .min(3, "needs at least three spot heights")
  .max(1000)
  .superRefine((spots, ctx) => {
    if (spots.length >= 3 && onOneLine(spots.map(([x, y]) => [x, y] as const))) {
      ctx.addIssue({ code: "custom", message: "must not lie on one line: they cannot give a plane" });
    }
  });
const ground = z
  .object({ along: optional(percent), across: optional(percent), heights: optional(spotHeights) }, "must be the ground: { along, across } in per cent, or { heights }")
  .check(across((g, fault) => {
    if (g.heights !== undefined) {
      if (g.along !== undefined || g.across !== undefined) fault(["heights"], "has slopes and spot heights: give one of the two");
      return;
    }
    for (const field of ["along", "across"] as const) {
      if (g[field] === undefined) fault([field], "needs the slope in per cent, or the ground needs heights: [[x, y, z], …]");
    }
  }));

export const obstacleSchema = z
  .object({
    id: identifier,
    kind: freeWord,
    at: optional(point),
    radius: optional(length),
    outline: optional(outline),
    from: optional(length),
    to: optional(length),
    trunkRadius: optional(length),
    crownRadius: optional(length),
    crownFrom: optional(length),
    crownTo: optional(length),
    removable: optional(z.boolean()),
  })
  .check(across((o, fault) => {
    const need = (field: string, message: string) => fault([field], message);
    if (o.kind === "tree") {
      if (!o.at) need("at", "a tree needs its place [x, y]");
      for (const field of ["trunkRadius", "crownRadius", "crownFrom", "crownTo"] as const) {
        if (o[field] === undefined) need(field, "a tree needs this length in millimetres");
      }
      if (o.crownFrom !== undefined && o.crownTo !== undefined && o.crownFrom > o.crownTo) need("crownTo", "must not be below crownFrom");
      return;
    }
    if (!o.outline && !o.at) need("outline", "needs an outline, or at and radius");
    if (o.outline && o.at) need("outline", "has an outline and a place: give one of the two");
    if (o.at && !o.outline && o.radius === undefined) need("radius", "a round obstacle needs its radius in millimetres");
    if (o.from === undefined) need("from", "needs the height it begins at, millimetres above the ground");
    if (o.to === undefined) need("to", "needs the height it reaches up to, millimetres above the ground");
    if (o.from !== undefined && o.to !== undefined && o.from > o.to) need("to", "must not be below from");
  }));

const hookupKinds = ["power", "water", "sewer", "rinse-water"] as const;
const receptacle = z.literal([50, 30, 20, 15], "must be 50, 30, 20 or 15 (amperes)");

export const hookupSchema = z
  .object({
    id: identifier,
    kind: z.enum(hookupKinds, `must be one of ${hookupKinds.join(", ")}`),
    at: point,
    height: length.describe("Above the ground where it stands."),
    receptacles: optional(z.array(receptacle)),
    volts: optional(z.number().gt(0).max(1000)),
    pressure: optional(z.number().min(0).max(5000)).describe("Static pressure, kPa."),
    groundZ: optional(coordinate),
    postRadius: optional(length),
    postHeight: optional(length),
  })
  .check(across((h, fault) => {
    if (h.kind === "power" && h.receptacles === undefined) fault(["receptacles"], "a power hookup needs its receptacles, such as [30, 50]");
    if (h.postRadius !== undefined && h.postHeight === undefined) fault(["postHeight"], "a post needs its height in millimetres");
  }));

const rules = z.object({
  maxLength: optional(sized(1000, 100_000)),
  maxGuests: optional(count),
  maxVehicles: optional(count),
  pets: optional(z.boolean()),
  tents: optional(count),
  accessible: optional(z.boolean()),
});

const traffic = ["both", "toward-left", "toward-right"] as const;

/** Road lanes through a campground are some metres wide; less or more is another unit. */
const roadWidth = sized(2000, 40_000);

const centreline = z
  .array(point, "must be a list of points [x, y] in millimetres")
  .min(2, "needs at least two points")
  .max(500)
  .superRefine((points, ctx) => {
    points.forEach(([x, y], i) => {
      const last = points[i - 1];
      if (last && last[0] === x && last[1] === y) ctx.addIssue({ code: "custom", path: [i], message: "must not be the point before it again" });
    });
  });

const road = z.object({
  centreline: centreline.describe("Points along the middle of the road in the site frame, either way round. Beyond its ends it is taken to go straight on."),
  width: roadWidth.describe("Of the ground that wheels may roll on (mm)."),
  traffic: z.enum(traffic, `must be one of ${traffic.join(", ")}`).default("both").describe("Which way one may drive, seen by someone who stands on this road and looks onto the site."),
}, "must be the road: { centreline, width, traffic }");

export const heightLimitSchema = z.object({
  id: identifier,
  kind: freeWord.describe("wire, limb, gate, …"),
  across: line.describe("From one end of it to the other, in plan."),
  height: optional(length).describe("Its lowest point above the ground (mm); null or left out: not measured, and then nothing is said of it but to look up."),
});

/** Where the slope of the ground changes along the way in. */
const gradeBreak = z.object({
  at: coordinate.describe("Where it lies on the line that rigs stand along: x in the site frame (mm)."),
  change: percent.describe("By how much the ground rises more steeply beyond it, toward +x: above zero for a dip, below for a crest."),
});

export const approachSchema = z
  .object({
    road: road.describe("The road in front of the site."),
    exitRoad: optional(road).describe("Pull-through only: the road at the far end."),
    driveable: list(outline, 50, "must be a list of outlines").describe("Ground beside pad and road where wheels may roll: the mouth, an apron. Gaps of up to a hand's breadth between two grounds are none."),
    heightLimits: list(heightLimitSchema, 100, "must be a list of height limits").describe("What hangs over the way in and is not among the obstacles."),
    gradeBreaks: list(gradeBreak, 20, "must be a list of grade breaks"),
  }, "must be the way in: { road, driveable, heightLimits, gradeBreaks }");

/** One site as it is measured. Site frame: origin at the middle of the pad's entry edge, x into the site, y to the left. */
export const siteSchema = z
  .object({
    id: identifier.describe("Stable identifier."),
    label: optional(z.string().max(80)).describe("What the post says."),
    loop: optional(z.string().max(80)),
    entry: z.enum(["back-in", "pull-through"], "must be back-in or pull-through"),
    enterFrom: optional(z.enum(["front", "either"], "must be front or either")).describe("Pull-through only."),
    pad: z.object({ outline: padOutline.describe("Firm ground for wheels and jacks."), surface: optional(freeWord) }, "must be the pad: { outline, surface }"),
    roadEdge: optional(line).describe("Two points on the edge of the road in front; the line x = 0 where left out."),
    exitEdge: optional(line).describe("Pull-through only: the same for the road at the far end."),
    approach: optional(approachSchema).describe("The way in; null or left out where nobody has measured it."),
    place: optional(z.object({ east: z.number(), north: z.number(), bearing: z.number() })).describe("Where the origin lies on the park's map (mm) and which way +x points (degrees from north)."),
    lot: optional(z.object({ outline: outline.describe("The ground that belongs to the site.") })),
    ground: ground.describe("Slopes in per cent, rising toward +x and +y, or spot heights."),
    obstacles: list(obstacleSchema, 2000, "must be a list of obstacles"),
    hookups: list(hookupSchema, 200, "must be a list of hookups"),
    parking: optional(z.array(z.object({ id: identifier, outline })).max(50)),
    rules: optional(rules),
    survey: optional(surveySchema).describe("How its numbers were come by, and how well they are known."),
  })
  .check(across((site, fault) => {
    noRepeats(fault, [[["obstacles"], site.obstacles], [["hookups"], site.hookups], [["approach", "heightLimits"], site.approach?.heightLimits]]);
    noRepeats(fault, [[["parking"], site.parking]]);
    if (site.approach?.exitRoad && site.entry === "back-in") fault(["approach", "exitRoad"], "a back-in site has no road at its far end");
  }));

export type Site = z.infer<typeof siteSchema>;
export type SiteInput = z.input<typeof siteSchema>;
export type Obstacle = z.infer<typeof obstacleSchema>;
export type Hookup = z.infer<typeof hookupSchema>;
export type ApproachRecord = z.infer<typeof approachSchema>;
export type RoadRecord = ApproachRecord["road"];
export type HeightLimit = z.infer<typeof heightLimitSchema>;

type Named = readonly ({ readonly id?: string } | undefined)[] | undefined;

/** Ids name the two things that meet, so obstacles, hookups and height limits may not share one. */
function noRepeats(fault: (path: PropertyKey[], message: string) => void, lists: readonly (readonly [readonly PropertyKey[], Named])[]): void {
  const seen = new Set<string>();
  for (const [list, items] of lists) {
    if (!Array.isArray(items)) continue;
    items.forEach((item, i) => {
      const id = item?.id;
      if (typeof id !== "string") return;
      if (seen.has(id)) fault([...list, i, "id"], `"${id}" is already the id of something on this site`);
      seen.add(id);
    });
  }
}

function onOneLine(points: readonly Point[]): boolean {
  const first = points[0]!;
  const second = points.find((p) => p[0] !== first[0] || p[1] !== first[1]);
  return !second || points.every((p) => turn(first, second, p) === 0);
}
