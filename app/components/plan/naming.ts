import type { FitResult, Missing, Shown } from "@/lib/fit/types";
import type { Units } from "@/lib/measure";
import type { Obstacle, Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { catalogueOf, numbersFor, siteThing, splitId, type Catalogue, type Numbers } from "@/lib/wording";
import { boxAround } from "./paths";
import { overlap, placeLabels, widthOf, wrap, LABEL_SIZE, LINE_HEIGHT, SYMBOL, type Surroundings, type Wanted } from "./labels";
import type { Fit } from "./shapes";
import type { Disc, Label, PageBox, PagePoint, PlanLayout } from "./types";

type Drawn = Omit<PlanLayout, "labels" | "key">;

/** A label for everything a reader has to be able to name, the things that decide first. */
export function labelsFor(drawn: Drawn, site: Site, fit: Fit | null, shown: Shown | null, units: Units): Label[] {
  const words = catalogueOf(), n = numbersFor(units);
  const inside = (fit ? partTextsInside(drawn, fit.rig, words) : []).map((label) => ({ ...label, faint: !isAbout(label.id, drawn) }));
  const wanted = [
    ...(fit ? gapLabel(drawn, fit.result, words, n) : []),
    ...(shown?.gap ? missingLabel(drawn, shown.dropped, shown.gap, words, n) : []),
    ...hookupLabels(drawn, site, words),
    ...(fit ? partLabels(drawn, fit.rig, words) : []).filter((w) => !inside.some((label) => label.id === w.id)),
    ...obstacleLabels(drawn, site, words, n),
    ...stallLabels(drawn, words),
  ];
  const deciding = new Set(splitId(fit?.result.limit?.id ?? ""));
  const told = drawn.refused === null ? wanted : wanted.map((w) => ({ ...w, faint: !isAbout(w.id, drawn) }));
  told.sort((a, b) => rank(a, deciding) - rank(b, deciding));
  return [...inside, ...placeLabels(told, surroundings(drawn, inside))];
}

/** Whether a thing of the drawing is one that the refusal is about; everything is where there is none. */
export function isAbout(id: string, { refused, hookups }: Pick<Drawn, "refused" | "hookups">): boolean {
  if (refused === null || id === "gap") return true;
  const { rig, site, services } = refused.about;
  const hookup = hookups.find((h) => h.id === id);
  if (hookup && hookup.kind !== "rinse-water" && services.has(hookup.kind)) {
    // Where the site has several of a kind, the one that the reason names.
    return site.has(id) || !hookups.some((h) => h.kind === hookup.kind && site.has(h.id));
  }
  return rig.has(id) || site.has(id);
}

export function keyOf(labels: readonly Label[]): PlanLayout["key"] {
  return labels.filter((l) => l.number !== null).map(({ number, lines }) => ({ number: number!, text: lines.join(" ") }));
}

function rank(label: Wanted, deciding: ReadonlySet<string | undefined>): number {
  return label.id === "gap" ? 0 : deciding.has(label.id) ? 1 : label.faint ? 3 : 2;
}

function gapLabel({ gap }: Drawn, { limit }: FitResult, { plan }: Catalogue, n: Numbers): Wanted[] {
  if (!gap || !limit) return [];
  const anchor: PagePoint = [(gap.from[0] + gap.to[0]) / 2, (gap.from[1] + gap.to[1]) / 2];
  return [{ id: "gap", lines: wrap(plan.drawing.gap(n.spareOnDrawing(Math.max(0, limit.distance)))), anchor, radius: 4, accent: true }];
}

/** By how much it fails, beside the line that shows it: half-way along a run. */
function missingLabel({ gap, lines }: Drawn, dropped: string, { short, line }: Missing, { plan }: Catalogue, n: Numbers): Wanted[] {
  const ends = gap ? [gap.from, gap.to] : lines[0]?.points;
  const a = ends?.[0], b = ends?.at(-1);
  if (!a || !b) return [];
  const anchor: PagePoint = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  const say = !line ? plan.drawing.short : dropped.startsWith("fall:") ? plan.drawing.tooHigh : plan.drawing.over;
  return [{ id: "gap", lines: wrap(say(n.tallOnDrawing(short))), anchor, radius: 4, accent: true }];
}

function hookupLabels({ hookups }: Drawn, site: Site, { things, plan }: Catalogue): Wanted[] {
  return hookups.map(({ id, symbol }) => {
    const hookup = site.hookups.find((h) => h.id === id)!;
    const name = things.label(siteThing(id, site)!);
    const lines = hookup.receptacles?.length ? [name, plan.drawing.receptacles(hookup.receptacles)] : wrap(name);
    return { id, lines, anchor: symbol, radius: SYMBOL + 1 };
  });
}

function partLabels({ rig: shape }: Drawn, rig: Rig, { things, plan }: Catalogue): Wanted[] {
  if (!shape) return [];
  const body = boxAround(shape.body);
  return shape.parts.map(({ id, points, leftIn }) => {
    const part = rig.parts.find((p) => p.id === id)!;
    const box = boxAround(points);
    const name = things.label({ type: "part", part });
    // Led to from the side away from the body, where there is room.
    const x = box.x + box.w / 2 < body.x ? box.x : box.x >= body.x + body.w - 1 ? box.x + box.w : box.x + box.w / 2;
    return { id, lines: [...wrap(name), ...(leftIn ? wrap(plan.drawing.staysIn) : [])], anchor: [x, box.y + box.h / 2], radius: 1 };
  });
}

function obstacleLabels({ obstacles, ground }: Drawn, site: Site, { things, plan }: Catalogue, n: Numbers): Wanted[] {
  return obstacles.flatMap((shape) => {
    const o = site.obstacles.find((other) => other.id === shape.id)!;
    const box = shape.type === "outline" ? boxAround(shape.points) : null;
    const centre: PagePoint = shape.type === "tree" ? shape.trunk.at : shape.type === "disc" ? shape.disc.at : [box!.x + box!.w / 2, box!.y + box!.h / 2];
    const anchor: PagePoint = [clamp(centre[0], ground.x + 4, ground.x + ground.w - 4), clamp(centre[1], ground.y + 4, ground.y + ground.h - 4)];
    const radius = shape.type === "tree" ? shape.trunk.r : shape.type === "disc" ? shape.disc.r : Math.min(box!.w, box!.h) / 2;
    const lines = [...wrap(things.label(siteThing(o.id, site)!)), ...wrap(heightText(o, plan, n))];
    return [{ id: o.id, lines, anchor, radius: Math.min(radius, 30) }];
  });
}

function heightText(o: Obstacle, plan: Catalogue["plan"], n: Numbers): string {
  if (o.kind === "tree") return plan.drawing.limbsFrom(n.spareOnDrawing(o.crownFrom ?? 0));
  return plan.drawing.fromTo(o.from ? n.spareOnDrawing(o.from) : null, n.tallOnDrawing(o.to ?? 0));
}

/** An empty stall says what it is; one with the vehicle in it shows. */
function stallLabels({ stalls, vehicle }: Drawn, { plan }: Catalogue): Wanted[] {
  const held = vehicle && boxAround(vehicle.points);
  return stalls.filter(({ points }) => !held || !overlap(boxAround(points), held)).map(({ id, points }) => {
    const box = boxAround(points);
    return { id, lines: [plan.drawing.parking], anchor: [box.x + box.w / 2, box.y + box.h / 2], radius: 0 };
  });
}

/** Parts large enough carry their name inside, turned along their longer side. */
function partTextsInside({ rig: shape }: Drawn, rig: Rig, { things }: Catalogue): Label[] {
  return (shape?.parts ?? []).flatMap((p): Label[] => {
    if (p.leftIn) return [];
    const box = boxAround(p.points);
    const lines = wrap(things.label({ type: "part", part: rig.parts.find((q) => q.id === p.id)! }));
    const w = Math.max(...lines.map((l) => widthOf(l))) + 4, h = lines.length * LINE_HEIGHT + 2;
    if (w > box.w || h > box.h) return [];
    const at: PageBox = { x: box.x + (box.w - w) / 2, y: box.y + (box.h - h) / 2, w, h };
    return [{ id: p.id, lines, box: at, leader: null, accent: false, faint: false, number: null }];
  });
}

/** What labels keep off, and what they had better not cover. */
function surroundings(drawn: Drawn, inside: readonly Label[]): Surroundings {
  const { rig, vehicle, hookups, obstacles, gap, lines, pad, lot, roads, ground } = drawn;
  const solid: PageBox[] = [];
  if (rig) solid.push(boxAround(rig.body), ...(rig.hitch ? [boxAround(rig.hitch)] : []), ...rig.parts.map((p) => boxAround(p.points)));
  if (vehicle) solid.push(boxAround(vehicle.points));
  for (const o of obstacles) {
    const disc = o.type === "tree" ? o.trunk : o.type === "disc" ? o.disc : null;
    if (disc && disc.r > 0) solid.push({ x: disc.at[0] - disc.r, y: disc.at[1] - disc.r, w: 2 * disc.r, h: 2 * disc.r });
    if (o.type === "outline") solid.push(boxAround(o.points));
  }
  const taken: PageBox[] = [
    ...hookups.map(({ symbol: at }) => ({ x: at[0] - SYMBOL, y: at[1] - SYMBOL, w: 2 * SYMBOL, h: 2 * SYMBOL })),
    ...inside.map((l) => l.box),
    ...(gap ? [grow(boxAround([gap.from, gap.to]), 3)] : []),
    ...roads.flatMap(({ at, text }) => (at ? [{ x: at[0] - widthOf(text) / 2, y: at[1] - LABEL_SIZE / 2, w: widthOf(text), h: LABEL_SIZE }] : [])),
  ];
  const edges = (ring: readonly PagePoint[]) => ring.map((p, i) => [p, ring[(i + 1) % ring.length]!] as const);
  const crowns = obstacles.flatMap((o) => (o.type === "tree" ? edges(around(o.crown)) : []));
  const runs = lines.flatMap(({ points }) => points.slice(1).map((p, i) => [points[i]!, p] as const));
  return { page: { x: ground.x + 2, y: ground.y + 2, w: ground.w - 4, h: ground.h - 4 }, solid, taken, lines: [...runs, ...runs, ...edges(pad), ...(lot ? edges(lot) : []), ...crowns, ...roads.map((r) => r.edge)] };
}

function around({ at: [x, y], r }: Disc): PagePoint[] {
  return Array.from({ length: 16 }, (_, i): PagePoint => [x + r * Math.cos((i * Math.PI) / 8), y + r * Math.sin((i * Math.PI) / 8)]);
}

function grow({ x, y, w, h }: PageBox, by: number): PageBox {
  return { x: x - by, y: y - by, w: w + 2 * by, h: h + 2 * by };
}

function clamp(value: number, low: number, high: number): number {
  return Math.max(low, Math.min(high, value));
}
