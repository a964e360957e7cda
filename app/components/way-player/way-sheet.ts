import type { WayShown } from "@/lib/card/way";
import type { Units } from "@/lib/measure";
import type { Site } from "@/lib/park";
import { catalogueOf, numbersFor, siteThing, type Numbers } from "@/lib/wording";
import { wayIn as words } from "@/lib/wording/en/way-in";
import { scaleBarFor, type PageFrame } from "../plan/frame";
import { LABEL_SIZE, placeLabels, widthOf, wrap, type Surroundings, type Wanted } from "../plan/labels";
import { boxAround } from "../plan/paths";
import { obstacleShape, touchesPage } from "../plan/sheet";
import type { Disc, ObstacleShape, PageBox, PagePoint, PlanLayout } from "../plan/types";
import { nearInWords } from "./make-reel";
import { spreadOver, type Reel } from "./reel";

/** A helper's place is drawn as a circle of this radius. */
export const POST_RADIUS = 9;

/** What stands still on the drawing of a way, laid on the page. */
export interface WaySheet extends Pick<PlanLayout, "width" | "height" | "scale" | "ground" | "pad" | "lot" | "gap" | "labels" | "key" | "scaleBar" | "north"> {
  readonly roads: readonly { readonly line: readonly PagePoint[]; readonly width: number; readonly text: PagePoint | null }[];
  readonly driveable: readonly (readonly PagePoint[])[];
  readonly obstacles: readonly ObstacleShape[];
  readonly posts: readonly Disc[];
  readonly limits: readonly { readonly id: string; readonly line: readonly PagePoint[]; readonly bars: boolean }[];
  /** What bars the way, where something does. */
  readonly barred: readonly string[];
}

/** The still part of a way's drawing, names and the tightest place included. */
export function layoutWay(site: Site, shown: WayShown, barred: readonly string[], reel: Reel, frame: PageFrame, units: Units): WaySheet {
  const { toPage, scale, ground } = frame, onPage = (points: readonly (readonly [number, number])[]) => points.map(toPage), n = numbersFor(units);
  const { road, exitRoad, driveable, heightLimits } = site.approach!, bar = scaleBarFor(scale, units);
  const laid = {
    width: frame.width, height: frame.height, scale, ground, barred,
    pad: onPage(site.pad.outline), lot: site.lot ? onPage(site.lot.outline) : null, driveable: driveable.map(onPage),
    roads: [road, ...(exitRoad ? [exitRoad] : [])].map((one) => roadOnPage(onPage(one.centreline), one.width * scale, reel, ground)),
    obstacles: site.obstacles.map((o) => obstacleShape(o, frame)).filter((o) => touchesPage(o, frame)),
    posts: site.hookups.filter((h) => h.postRadius !== undefined).map((h) => ({ at: toPage(h.at), r: h.postRadius! * scale })),
    limits: heightLimits.map(({ id, across }) => ({ id, line: onPage(across), bars: barred.includes(id) })),
    // Where something bars every way, that is what to see, not how near this try came.
    gap: barred.length > 0 ? null : { from: toPage(shown.gap.from), to: toPage(shown.gap.to) },
    scaleBar: { at: [16, frame.height - 14] as PagePoint, length: bar.mm * scale, steps: bar.steps, text: bar.text },
    north: site.place ? { at: [frame.width - 28, frame.height - 23] as PagePoint, turn: -site.place.bearing } : null,
  };
  const labels = placeLabels([...(laid.gap ? gapLabel(laid.gap, shown, site, n) : []), ...thingLabels(laid.obstacles, site, n, ground), ...limitLabels(laid.limits, site, n, ground)], surroundings(laid, reel));
  return { ...laid, labels, key: labels.filter((l) => l.number !== null).map(({ number, lines }) => ({ number: number!, text: lines.join(" ") })) };
}

/** The word stands on the road where the rig does not begin, end or turn. */
function roadOnPage(line: readonly PagePoint[], width: number, { legs, bodies }: Reel, { w, h }: PageBox): WaySheet["roads"][number] {
  const rigs = legs.flatMap((leg) => spreadOver(leg, 9).flatMap((i) => rigSquares(bodies, leg.rows[i]!))).map((box): PagePoint => [box.x + box.w / 2, box.y + box.h / 2]), half = widthOf(words.road, 12) / 2 + 6;
  const spots = line.slice(1).flatMap(([bx, by], i) => [0.25, 0.5, 0.75].map((t): PagePoint => [line[i]![0] + (bx - line[i]![0]) * t, line[i]![1] + (by - line[i]![1]) * t]));
  const free = spots.filter(([x, y]) => x > half && x < w - half && y > 10 && y < h - 10);
  const away = ([x, y]: PagePoint) => Math.min(Infinity, ...rigs.map(([rx, ry]) => Math.hypot(x - rx, y - ry)));
  const best = free.reduce<PagePoint | null>((a, b) => (a === null || away(b) > away(a) ? b : a), null);
  return { line, width, text: best && width > 16 && away(best) > half + width / 3 ? best : null };
}

function gapLabel({ from, to }: { readonly from: PagePoint; readonly to: PagePoint }, { gap }: WayShown, site: Site, n: Numbers): Wanted[] {
  const { short } = nearInWords(gap, site, n), text = short === null ? words.tightest(n.spareOnDrawing(gap.gap ?? 0)) : words.short(n.tallOnDrawing(-gap.room));
  return [{ id: "gap", lines: [text], anchor: [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2], radius: 5, accent: true }];
}

function thingLabels(obstacles: readonly ObstacleShape[], site: Site, n: Numbers, ground: PageBox): Wanted[] {
  const { things, plan } = catalogueOf();
  return obstacles.map((shape): Wanted => {
    const o = site.obstacles.find(({ id }) => id === shape.id)!, box = shape.type === "outline" ? boxAround(shape.points) : null;
    const [x, y] = shape.type === "tree" ? shape.trunk.at : shape.type === "disc" ? shape.disc.at : [box!.x + box!.w / 2, box!.y + box!.h / 2];
    const height = o.kind === "tree" ? plan.drawing.limbsFrom(n.spareOnDrawing(o.crownFrom ?? 0)) : o.from ? plan.drawing.fromTo(n.spareOnDrawing(o.from), n.tallOnDrawing(o.to ?? 0)) : "";
    return { id: o.id, lines: [...wrap(things.label(siteThing(o.id, site)!)), ...wrap(height)].filter((line) => line !== ""), anchor: within([x, y], ground), radius: shape.type === "tree" ? Math.max(2, shape.trunk.r) : box ? Math.min(box.w, box.h) / 2 : 5 };
  });
}

function limitLabels(limits: WaySheet["limits"], site: Site, n: Numbers, ground: PageBox): Wanted[] {
  return limits.map(({ id, line: [a, b] }) => {
    const { kind, height } = site.approach!.heightLimits.find((limit) => limit.id === id)!;
    return { id, lines: wrap(height === undefined ? words.limitUnmeasured(kind) : words.limit(kind, n.spareOnDrawing(height))), anchor: within([(a![0] + b![0]) / 2, (a![1] + b![1]) / 2], ground), radius: 2 };
  });
}

function within([x, y]: PagePoint, { w, h }: PageBox): PagePoint {
  return [Math.max(4, Math.min(w - 4, x)), Math.max(4, Math.min(h - 4, y))];
}

/** Labels keep off the rig where it ends, helpers' places and the dimension, and rather not lie on the ground passed over. */
function surroundings({ ground, pad, obstacles, gap, roads }: Pick<WaySheet, "ground" | "pad" | "obstacles" | "roads" | "gap">, { legs, posts, bodies }: Reel): Surroundings {
  const edges = (ring: readonly PagePoint[]) => ring.map((p, i) => [p, ring[(i + 1) % ring.length]!] as const);
  const rigs = legs.flatMap((leg) => spreadOver(leg, 7).flatMap((i) => rigSquares(bodies, leg.rows[i]!)));
  const around = ([x, y]: readonly [number, number], r: number): PageBox => ({ x: x - r, y: y - r, w: 2 * r, h: 2 * r }), dimension = gap && boxAround([gap.from, gap.to]);
  return {
    page: { x: 2, y: 2, w: ground.w - 4, h: ground.h - 4 },
    solid: [...rigs, ...obstacles.map((o) => (o.type === "outline" ? boxAround(o.points) : around(o.type === "tree" ? o.trunk.at : o.disc.at, o.type === "tree" ? o.trunk.r : o.disc.r)))],
    taken: [...posts.map(({ at }) => around(at, POST_RADIUS + 1)), ...(dimension ? [{ x: dimension.x - 3, y: dimension.y - 3, w: dimension.w + 6, h: dimension.h + 6 }] : []), ...roads.flatMap(({ text }) => (text ? [{ x: text[0] - widthOf(words.road) / 2, y: text[1] - LABEL_SIZE / 2, w: widthOf(words.road), h: LABEL_SIZE }] : []))],
    lines: edges(pad),
  };
}

function rigSquares(bodies: Reel["bodies"], row: readonly number[]): PageBox[] {
  return bodies.flatMap(({ boxes }, b) => boxes.filter(({ part }) => part !== "hitch").flatMap(({ box }) => squaresOf(box, row.slice(2 + 3 * b))));
}

/** A turned box as squares along its middle, each as wide as it is. */
function squaresOf([left, top, width, height]: readonly [number, number, number, number], [x, y, turn]: readonly number[]): PageBox[] {
  const count = Math.max(1, Math.ceil(height / width)), t = (turn! * Math.PI) / 180;
  return Array.from({ length: count }, (_, i) => {
    const u = left + width / 2, v = top + (height * (i + 0.5)) / count, cx = x! + u * Math.cos(t) - v * Math.sin(t), cy = y! + u * Math.sin(t) + v * Math.cos(t), r = width / 2;
    return { x: cx - r, y: cy - r, w: 2 * r, h: 2 * r };
  });
}

