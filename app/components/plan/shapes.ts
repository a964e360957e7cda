import { conflictToShow, layOut, placeBox, thingsInvolved, type Conflict, type FitResult, type Involved, type Layout, type NeedResult, type Pose, type Shown } from "@/lib/fit";
import type { Obstacle, Site } from "@/lib/park";
import { boundsOf, type Point, type SitePoint } from "@/lib/plane";
import type { Rig } from "@/lib/rig";

/** What is drawn, in the site frame: everything a plan shows before it is laid on a page. Millimetres. */
export interface Scene {
  readonly roadEdge: readonly [Point, Point];
  readonly exitEdge: readonly [Point, Point] | null;
  readonly rig: PlacedRig | null;
  readonly vehicle: readonly Point[] | null;
  /** The hookups that are drawn, by id. */
  readonly hookups: readonly string[];
  readonly lines: readonly Pick<NeedResult, "service" | "line">[];
  readonly limit: FitResult["limit"];
  /** A refusal: what is drawn is at best the nearest try. */
  readonly refused: Refused | null;
}

/** Why there is no place, for drawing: the conflict, the nearest try of it if there is one, and what it is about. */
export interface Refused {
  readonly conflict: Conflict;
  readonly shown: Shown | null;
  readonly about: Involved;
}

/** A rig and what was found for it on this site. */
export interface Fit {
  readonly rig: Rig;
  readonly result: FitResult;
}

export interface PlacedRig {
  readonly heading: Pose["heading"];
  /** Stands where it cannot: the nearest try of a refusal. */
  readonly tried: boolean;
  readonly body: readonly Point[];
  readonly hitch: readonly Point[] | null;
  readonly supports: readonly { readonly kind: "tyre" | "jack"; readonly points: readonly Point[] }[];
  readonly parts: readonly { readonly id: string; readonly kind: string; readonly points: readonly Point[]; readonly leftIn: boolean }[];
  readonly inlets: readonly { readonly kind: "power" | "water" | "sewer"; readonly at: Point }[];
}

const DEFAULT_ROAD: readonly [Point, Point] = [[0, -3000], [0, 3000]];
/** Data knows where a tyre or jack stands, not its size: drawn as a usual one. */
const TYRE = { long: 700, wide: 230 }, JACK = { long: 300, wide: 300 };

export function sceneOf(site: Site, fit: Fit | null): Scene {
  const roads = {
    roadEdge: site.roadEdge ?? DEFAULT_ROAD,
    exitEdge: site.entry === "pull-through" ? (site.exitEdge ?? null) : null,
    hookups: site.hookups.map((h) => h.id),
  };
  if (fit?.result.verdict === "no") return { ...roads, ...tryOf(site, fit) };
  const layout = fit && layOut(site, fit.rig, fit.result);
  if (!fit?.result.pose || !layout) return { ...roads, ...NOTHING };
  const { rig, result } = fit;
  return {
    ...roads,
    rig: placeRig(layout, rig, result.pose!),
    vehicle: placeVehicle(site, rig, result, layout),
    lines: result.needs.filter((need) => need.line.length > 1),
    limit: result.limit,
    refused: null,
  };
}

const NOTHING = { rig: null, vehicle: null, lines: [], limit: null, refused: null } as const;

/** The nearest try, with the parts that have to be out and the run that fails, if one does. */
function tryOf(site: Site, { rig, result }: Fit): Omit<Scene, "roadEdge" | "exitEdge" | "hookups"> & Partial<Pick<Scene, "hookups">> {
  const conflict = conflictToShow(result);
  if (!conflict) return NOTHING;
  const refused: Refused = { conflict, shown: conflict.shown, about: withHookups(thingsInvolved(conflict.constraints), result) };
  const { shown } = conflict;
  if (!shown) return { ...NOTHING, refused };
  const nice = rig.parts.filter((p) => p.need !== "must").map((p) => p.id);
  const vehicle = shown.dropped === "vehicle" ? "in line" : result.vehicle === "hitched" ? "hitched" : null;
  const tried: FitResult = { ...result, pose: shown.pose, leftIn: nice, vehicle };
  const layout = layOut(site, rig, tried)!;
  const placed = placeRig(layout, rig, shown.pose);
  const service = thingsInvolved([shown.dropped]).services.values().next().value;
  return {
    hookups: site.hookups.filter((h) => refused.about.site.has(h.id) || isService(h.kind, refused.about) || isNear(h.at, site)).map((h) => h.id),
    rig: { ...placed, tried: true, parts: placed.parts.filter((p) => !p.leftIn) },
    vehicle: vehicle === null ? null : placeVehicle(site, rig, tried, layout),
    lines: service && shown.gap?.line ? [{ service, line: shown.gap.line }] : [],
    limit: null,
    refused,
  };
}

function isService(kind: string, { services }: Involved): boolean {
  return [...services].some((service) => service === kind);
}

/** A tap shared with the next site would make the whole drawing small; what does not matter to a refusal is left out beyond this, mm. */
const FAR_OFF = 6000;

function isNear([x, y]: Point, site: Site): boolean {
  const { minX, maxX, minY, maxY } = boundsOf(site.pad.outline);
  return x > minX - FAR_OFF && x < maxX + FAR_OFF && y > minY - FAR_OFF && y < maxY + FAR_OFF;
}

/** What a reason names counts too: the pedestal whose receptacles do not suit, the tap that is only for rinsing. */
function withHookups(about: Involved, { reasons }: FitResult): Involved {
  const named = reasons.filter((r) => /^(plug|loads|rinse-only|reach|fall)/.test(r.code)).flatMap((r) => r.parts);
  return { ...about, site: new Set([...about.site, ...(about.services.size > 0 ? named : [])]) };
}

function placeRig(layout: Layout, rig: Rig, pose: Pose): PlacedRig {
  const partIds = new Set(rig.parts.map((p) => p.id));
  const outline = (id: string) => layout.boxes.find((b) => b.id === id)?.outline ?? null;
  return {
    heading: pose.heading,
    tried: false,
    body: outline("body") ?? [],
    hitch: outline("hitch"),
    supports: rig.supports.map(({ kind, at: [u, v] }) => {
      const { long, wide } = kind === "tyre" ? TYRE : JACK;
      return { kind, points: placeBox(pose, { u0: u - long / 2, u1: u + long / 2, v0: v - wide / 2, v1: v + wide / 2 }) };
    }),
    parts: layout.boxes.filter((b) => partIds.has(b.id)).map((b) => ({ id: b.id, kind: b.kind, points: b.outline, leftIn: b.state === "left-in" })),
    inlets: rig.inlets.map((inlet, i) => ({ kind: inlet.kind, at: layout.inlets[i]!.at })),
  };
}

/** The second vehicle where the result has put it: on the hitch, in line, or in a stall. */
function placeVehicle(site: Site, rig: Rig, { vehicle }: FitResult, layout: Layout): readonly Point[] | null {
  if (vehicle === "hitched") return layout.boxes.find((b) => b.id === "tow")?.outline ?? null;
  if (layout.vehicle) return layout.vehicle;
  const stall = site.parking?.find((p) => p.id === vehicle);
  return stall && rig.tow ? inStall(stall.outline, rig.tow) : null;
}

/** In the middle of the stall, along its longer side. */
function inStall(outline: readonly Point[], { length, width }: { length: number; width: number }): Point[] {
  let along: readonly [number, number] = [1, 0], longest = 0;
  outline.forEach(([ax, ay], i) => {
    const [bx, by] = outline[(i + 1) % outline.length]!;
    const size = Math.hypot(bx - ax, by - ay);
    if (size > longest) [longest, along] = [size, [(bx - ax) / size, (by - ay) / size]];
  });
  const [ex, ey] = along;
  const ps = outline.map(([x, y]) => x * ex + y * ey), qs = outline.map(([x, y]) => -x * ey + y * ex);
  const p = (Math.min(...ps) + Math.max(...ps)) / 2, q = (Math.min(...qs) + Math.max(...qs)) / 2;
  return [[-1, -1], [1, -1], [1, 1], [-1, 1]].map(([i, j]) => {
    const a = p + (i! * length) / 2, b = q + (j! * width) / 2;
    return [a * ex - b * ey, a * ey + b * ex];
  });
}

/** Points that must be on the page; obstacles are added where they stand near enough to matter. */
export function corePoints(site: Site, scene: Scene): Point[] {
  const { rig } = scene;
  return [
    ...site.pad.outline,
    ...(site.lot?.outline ?? []),
    ...(site.parking ?? []).flatMap((p) => p.outline),
    ...(scene.exitEdge ?? []),
    ...roadNear(site, scene.roadEdge),
    ...site.hookups.filter((h) => scene.hookups.includes(h.id)).map((h) => h.at),
    ...(rig ? [...rig.body, ...(rig.hitch ?? []), ...rig.parts.flatMap((p) => p.points), ...rig.supports.flatMap((s) => s.points)] : []),
    ...(scene.vehicle ?? []),
    ...scene.lines.flatMap(({ line }): readonly SitePoint[] => line),
    ...(scene.limit ? [scene.limit.from, scene.limit.to] : []),
    ...(scene.refused?.shown?.gap ? [scene.refused.shown.gap.from, scene.refused.shown.gap.to] : []),
  ];
}

/** The road edge where the pad meets it: a skew edge runs off to both sides and need not be shown to its ends. */
function roadNear(site: Site, [a, b]: readonly [Point, Point]): Point[] {
  const ys = site.pad.outline.map((p) => p[1]);
  const low = Math.min(...ys), high = Math.max(...ys);
  if (a[1] === b[1]) return [a, b];
  const at = (y: number): Point => [a[0] + ((y - a[1]) / (b[1] - a[1])) * (b[0] - a[0]), y];
  return [at(low), at(high)].filter(([x]) => Math.abs(x) < 6000);
}

/** What has to be on the page of one obstacle: a trunk, not its whole crown. */
export function corePointsOf(o: Obstacle): Point[] {
  if (o.outline) return [...o.outline];
  if (!o.at) return [];
  const [x, y] = o.at, r = o.kind === "tree" ? (o.trunkRadius ?? 0) : (o.radius ?? 0);
  return [[x - r, y - r], [x + r, y + r]];
}
