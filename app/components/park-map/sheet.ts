import type { Units } from "@/lib/measure";
import type { Site } from "@/lib/park";
import { centroid, type Point } from "@/lib/plane";
import { spread } from "../plan/spread";
import { boundsWith, frameAround, mapScaleBar, onMap, type SheetFrame } from "./frame";
import { placeMapLabels, type LabelGround, type WantedLabel } from "./labels";
import type { ParkRecord } from "./record";
import type { MapLayout, Ribbon, SheetBox, SheetPoint, SiteOnMap, SiteStanding } from "./types";

export interface MapAsked {
  readonly record: ParkRecord;
  readonly sites: readonly Site[];
  readonly standingOf: (site: Site) => SiteStanding;
  readonly units: Units;
  /** Only this loop, as large as the sheet; the whole park where null. */
  readonly loop: string | null;
  /** The site to point out. */
  readonly selected?: string;
}

/** Shown around the sites and buildings of the whole park, and around one loop. */
const AROUND_PARK = 16_000, AROUND_LOOP = 9_000;
const MARK = { park: 6, loop: 8.5 };
const EDGE = 4;
/** Thinner than this nothing can be seen. */
const THINNEST = { road: 3.4, path: 1, creek: 2.2 };

/**
 * The park's map as shapes on a sheet: pure data, to one scale, marks apart and no two names on each other.
 * `map.tsx` only draws it. Sites without a place are left out: `unplaced` tells which.
 */
export function layoutMap(asked: MapAsked): MapLayout {
  const { record: { map, north }, loop, units } = asked;
  const frame = frameOf(asked);
  const { toSheet, scale, width, height, groundHeight } = frame;
  const markSize = loop === null ? MARK.park : MARK.loop;
  const sites = sitesOnMap(asked, frame, markSize);
  const ribbon = (thinnest: number) => ({ points, width: wide, surface }: { points: readonly Point[]; width: number; surface?: string | undefined }): Ribbon =>
    ({ points: points.map(toSheet), width: Math.max(wide * scale, thinnest), loose: /gravel|dirt|grass|sand/i.test(surface ?? "") });
  const ground = { areas: map.areas.map((a) => ({ kind: a.kind, points: a.outline.map(toSheet) })), buildings: map.buildings.map((b) => ({ kind: b.kind ?? "building", points: b.outline.map(toSheet) })) };
  const creek = map.creek.map(ribbon(THINNEST.creek)), roads = map.roads.map(ribbon(THINNEST.road)), paths = map.paths.map(ribbon(THINNEST.path));
  const bar = mapScaleBar(scale, units);
  const around: LabelGround = {
    sheet: { x: EDGE, y: EDGE, w: width - 2 * EDGE, h: groundHeight - 2 * EDGE },
    taken: sites.map((s) => square(s.mark, markSize + 1)),
    solid: [...sites.map((s) => boxOf(s.pad)), ...ground.buildings.map((b) => boxOf(b.points))],
    lines: [...roads, ...creek],
  };
  return {
    width, height, scale, markSize, ...ground, creek, roads, paths, sites,
    neighbours: loop === null ? [] : asked.sites.filter((s) => s.place && s.loop !== loop).map((s) => s.pad.outline.map((p) => toSheet(onMap(s.place!, p)))),
    labels: placeMapLabels(wantedLabels(asked, sites, frame, markSize), around),
    scaleBar: { at: [16, height - 14], length: bar.mm * scale, text: bar.text },
    north: { at: [width - 30, height - 22], turn: north },
  };
}

/** Sites that nobody has put on the map yet. */
export function unplaced(sites: readonly Site[]): Site[] {
  return sites.filter((s) => !s.place);
}

function frameOf({ sites, loop, record: { map } }: MapAsked): SheetFrame {
  const shown = loop === null ? sites : sites.filter((s) => s.loop === loop);
  const pads = shown.flatMap((s) => (s.place ? s.pad.outline.map((p) => onMap(s.place!, p)) : []));
  const rest: Point[] = loop === null ? [...map.buildings.flatMap((b) => b.outline), ...map.loops.map((l) => l.at)] : [];
  const core = [...pads, ...rest];
  return frameAround(core.length > 0 ? boundsWith(core, loop === null ? AROUND_PARK : AROUND_LOOP) : { minX: 0, minY: 0, maxX: 100_000, maxY: 60_000 });
}

function sitesOnMap({ sites, standingOf, loop, selected }: MapAsked, { toSheet, width, groundHeight }: SheetFrame, markSize: number): SiteOnMap[] {
  const placed = sites.filter((s) => s.place && (loop === null || s.loop === loop));
  const middles = placed.map((s) => toSheet(onMap(s.place!, centroid(s.pad.outline))));
  const marks = spread(middles, 2 * markSize + 2, { x: 0, y: 0, w: width, h: groundHeight }, markSize + EDGE);
  return placed.map((site, i) => ({
    id: site.id,
    label: site.label ?? site.id,
    pad: site.pad.outline.map((p) => toSheet(onMap(site.place!, p))),
    middle: middles[i]!,
    mark: marks[i]!,
    standing: standingOf(site),
    selected: site.id === selected,
  }));
}

/** Most telling first: on a loop's sheet every site's own name, on the park's the loops'; then buildings, water, roads. */
function wantedLabels({ loop, record, selected }: MapAsked, sites: readonly SiteOnMap[], { toSheet, scale, width, groundHeight }: SheetFrame, markSize: number): WantedLabel[] {
  const { map } = record;
  const named = sites.filter((s) => loop !== null || s.id === selected);
  const within = (p: SheetPoint) => p[0] > 0 && p[1] > 0 && p[0] < width && p[1] < groundHeight;
  const middleOf = (points: readonly Point[]) => points.map(toSheet).filter(within).at(Math.floor(points.map(toSheet).filter(within).length / 2));
  return [
    ...named.map((s): WantedLabel => ({ id: `site ${s.id}`, kind: "site", forms: [[s.label]], size: 13, anchor: s.mark, radius: markSize, reach: 60, needed: true })),
    ...(loop === null ? map.loops.map((l): WantedLabel => ({ id: `loop ${l.id}`, kind: "loop", forms: loopForms(l.id, record), size: 14, anchor: toSheet(l.at), radius: 0, reach: 60, needed: true })) : []),
    ...map.buildings.flatMap((b): WantedLabel[] => (b.name && within(toSheet(centroid(b.outline))) ? [{ id: `building ${b.name}`, kind: "building", forms: [wrap(b.name)], size: 10.5, anchor: toSheet(centroid(b.outline)), radius: 6, reach: 24, needed: false }] : [])),
    ...map.areas.flatMap((a): WantedLabel[] => (a.name && a.kind !== "woods" && within(toSheet(centroid(a.outline))) ? [{ id: `area ${a.name}`, kind: "area", forms: [wrap(a.name)], size: 10.5, anchor: toSheet(centroid(a.outline)), radius: 0, reach: 20, needed: false }] : [])),
    ...map.creek.flatMap((c): WantedLabel[] => along(c, "water", middleOf(c.points), scale)),
    ...map.roads.flatMap((r): WantedLabel[] => along(r, "road", middleOf(r.points), scale)),
  ];
}

function along({ name, width }: { name?: string | undefined; width: number }, kind: "water" | "road", at: SheetPoint | undefined, scale: number): WantedLabel[] {
  return name && at ? [{ id: `${kind} ${name}`, kind, forms: [[name]], size: 10.5, anchor: at, radius: (width * scale) / 2 + 3, reach: 40, needed: false }] : [];
}

/** Its letter above its name; both on one line where that is too tall, or the letter alone. */
function loopForms(id: string, { loops }: ParkRecord): string[][] {
  const name = loops.find((l) => l.id === id)?.name;
  return name ? [[id, ...wrap(name)], [`${id} ${name}`], [id]] : [[id]];
}

/** Broken between words into lines of about nine letters. */
function wrap(text: string): string[] {
  const lines: string[] = [];
  for (const word of text.split(" ")) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= 9) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

function square([x, y]: SheetPoint, half: number): SheetBox {
  return { x: x - half, y: y - half, w: 2 * half, h: 2 * half };
}

function boxOf(points: readonly SheetPoint[]): SheetBox {
  const xs = points.map((p) => p[0]), ys = points.map((p) => p[1]);
  const x = Math.min(...xs), y = Math.min(...ys);
  return { x, y, w: Math.max(...xs) - x, h: Math.max(...ys) - y };
}
