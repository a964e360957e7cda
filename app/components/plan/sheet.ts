import type { Units } from "@/lib/measure";
import type { Obstacle, Site } from "@/lib/park";
import { centroid, type Point } from "@/lib/plane";
import type { Rig } from "@/lib/rig";
import { catalogueOf } from "@/lib/wording";
import { SYMBOL } from "./labels";
import { spread } from "./spread";
import { boundsAround, cutAway, frameFor, isWithin, lineThrough, scaleBarFor, type PageFrame } from "./frame";
import { keyOf, labelsFor } from "./naming";
import { rigTexts, vehicleText } from "./rig-texts";
import { corePoints, corePointsOf, sceneOf, type Fit, type PlacedRig, type Refused, type Scene } from "./shapes";
import type { HookupShape, ObstacleShape, PagePoint, PlanLayout, RigShape } from "./types";

/** Shown around what has to be on the page. */
const MARGIN = 700;
/** Obstacles this near to the site are brought onto the page; others show only where they reach into it. */
const NEARBY = 2500;
/** So much road is shown in front. */
const ROAD_SHOWN = 1500;

/**
 * The plan of a site as shapes on a page: pure data, to one scale, everything but crowns and roads within the page
 * and no two labels on each other. `plan.tsx` only draws it.
 */
export function layoutPlan(site: Site, fit: Fit | null, units: Units): PlanLayout {
  const scene = sceneOf(site, fit);
  const frame = frameOf(site, scene);
  const { toPage, scale, ground } = frame;
  const onPage = (points: readonly Point[]) => points.map(toPage);
  const obstacles = site.obstacles.map((o) => obstacleShape(o, frame)).filter((o) => touchesPage(o, frame));
  const hookups = hookupShapes(site.hookups.filter((h) => scene.hookups.includes(h.id)), frame);
  const vehicle = scene.vehicle ? onPage(scene.vehicle) : null;
  const rigShape = scene.rig && fit ? rigOnPage(scene.rig, fit.rig, frame) : null;
  const missing = scene.refused?.shown?.gap ?? null;
  const bar = scaleBarFor(scale, units);
  const drawn = {
    width: frame.width,
    height: frame.height,
    scale,
    ground,
    roads: roadsOf(site, scene, frame),
    pad: onPage(site.pad.outline),
    lot: site.lot ? onPage(site.lot.outline) : null,
    stalls: (site.parking ?? []).map((p) => ({ id: p.id, points: onPage(p.outline) })),
    obstacles,
    hookups,
    rig: rigShape,
    vehicle: vehicle && fit ? { points: vehicle, text: vehicleText(vehicle, fit.rig) } : null,
    lines: scene.lines.map((need) => ({ service: need.service, points: onPage(need.line) })),
    gap: gapOnPage(scene.limit ?? (missing?.line ? null : missing), frame),
    refused: scene.refused && isAboutAnything(scene.refused) ? { about: scene.refused.about, stamp: scene.rig ? catalogueOf().plan.drawing.notAPlace : null } : null,
    scaleBar: { at: [16, frame.height - 16] as PagePoint, length: bar.mm * scale, steps: bar.steps, text: bar.text },
    north: site.place ? { at: [frame.width - 30, frame.height - 24] as PagePoint, turn: -site.place.bearing } : null,
  };
  const labels = labelsFor(drawn, site, fit, scene.refused?.shown ?? null, units);
  return { ...drawn, labels, key: keyOf(labels) };
}

function frameOf(site: Site, scene: Scene): PageFrame {
  const core = corePoints(site, scene);
  const near = boundsAround(core, NEARBY);
  const beside = site.obstacles.map(corePointsOf).filter((points) => points.length > 0 && points.every((p) => isWithin(near, p))).flat();
  const bounds = boundsAround([...core, ...beside], MARGIN);
  return frameFor({ ...bounds, minX: bounds.minX + MARGIN - ROAD_SHOWN, maxX: scene.exitEdge ? bounds.maxX - MARGIN + ROAD_SHOWN : bounds.maxX });
}

export function obstacleShape(o: Obstacle, { toPage, scale }: PageFrame): ObstacleShape {
  if (o.outline) return { type: "outline", id: o.id, kind: o.kind, points: o.outline.map(toPage) };
  const at = toPage(o.at ?? [0, 0]);
  if (o.kind !== "tree") return { type: "disc", id: o.id, kind: o.kind, disc: { at, r: (o.radius ?? 0) * scale } };
  return { type: "tree", id: o.id, trunk: { at, r: (o.trunkRadius ?? 0) * scale }, crown: { at, r: (o.crownRadius ?? 0) * scale } };
}

function hookupShapes(hookups: Site["hookups"], { toPage, scale, ground }: PageFrame): HookupShape[] {
  const places = hookups.map((h) => toPage(h.at));
  const symbols = spread(places, 2 * SYMBOL + 1, ground, SYMBOL + 1);
  return hookups.map((h, i) => ({ id: h.id, kind: h.kind, at: places[i]!, symbol: symbols[i]!, post: (h.postRadius ?? 0) * scale }));
}

export function touchesPage(shape: ObstacleShape, { ground: { x, y, w, h } }: PageFrame): boolean {
  const points = shape.type === "outline" ? shape.points : [shape.type === "tree" ? shape.trunk.at : shape.disc.at];
  const reach = shape.type === "tree" ? shape.crown.r : shape.type === "disc" ? shape.disc.r : 0;
  return points.some(([px, py]) => px + reach > x && px - reach < x + w && py + reach > y && py - reach < y + h);
}

function roadsOf(site: Site, scene: Scene, { toPage, ground }: PageFrame): PlanLayout["roads"] {
  const { drawing } = catalogueOf().plan;
  const inside = toPage(centroid(site.pad.outline));
  const road = ([a, b]: readonly [Point, Point], text: string) => {
    const area = cutAway(ground, toPage(a), toPage(b), inside);
    return { area, edge: lineThrough(ground, toPage(a), toPage(b)), text, at: textPlace(area) };
  };
  return [road(scene.roadEdge, drawing.road), ...(scene.exitEdge ? [road(scene.exitEdge, drawing.exit)] : [])];
}

/** Where the word fits on the road: its middle, if the strip is deep enough there. */
function textPlace(area: readonly PagePoint[]): PagePoint | null {
  if (area.length < 3) return null;
  const [x, y] = centroid(area);
  return [x, y];
}

/** A rule is about no thing on the ground: then nothing is drawn fainter than the rest. */
function isAboutAnything({ about: { rig, site, services } }: Refused): boolean {
  return rig.size + site.size + services.size > 0;
}

function gapOnPage(gap: { readonly from: Point; readonly to: Point } | null, { toPage }: PageFrame): PlanLayout["gap"] {
  return gap && { from: toPage(gap.from), to: toPage(gap.to) };
}

/** At a nearest try only which rig it is and where its front is: the rest of its inside shows what lies under it. */
function textsOf({ front, texts }: ReturnType<typeof rigTexts>, tried: boolean): Pick<RigShape, "front" | "texts"> {
  return { front, texts: tried ? texts.filter((t) => t.strong || t.turn === 0) : texts };
}

function rigOnPage(placed: PlacedRig, rig: Rig, { toPage }: PageFrame): RigShape {
  const onPage = (points: readonly Point[]) => points.map(toPage);
  const body = onPage(placed.body);
  return {
    body,
    hitch: placed.hitch ? onPage(placed.hitch) : null,
    supports: placed.supports.map(({ kind, points }) => ({ kind, points: onPage(points) })),
    parts: placed.parts.map((p) => ({ ...p, points: onPage(p.points) })),
    inlets: placed.inlets.map(({ kind, at }) => ({ kind, at: toPage(at) })),
    ...textsOf(rigTexts(body, rig, placed.heading), placed.tried),
  };
}
