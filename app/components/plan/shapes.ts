import { facing, place, placeBox } from "@/lib/fit/frames";
import type { FitResult, Pose } from "@/lib/fit/types";
import type { Obstacle, Site } from "@/lib/park";
import { contains, type Point, type SitePoint } from "@/lib/plane";
import { boxesOf, inletAt, type Rig, type RigBox } from "@/lib/rig";

/** What is drawn, in the site frame: everything a plan shows before it is laid on a page. Millimetres. */
export interface Scene {
  readonly roadEdge: readonly [Point, Point];
  readonly exitEdge: readonly [Point, Point] | null;
  readonly rig: PlacedRig | null;
  readonly vehicle: readonly Point[] | null;
  readonly lines: FitResult["needs"];
}

export interface PlacedRig {
  readonly body: readonly Point[];
  readonly hitch: readonly Point[] | null;
  readonly supports: readonly { readonly kind: "tyre" | "jack"; readonly points: readonly Point[] }[];
  readonly parts: readonly { readonly id: string; readonly kind: string; readonly points: readonly Point[]; readonly leftIn: boolean }[];
  readonly inlets: readonly { readonly kind: "power" | "water" | "sewer"; readonly at: Point }[];
}

const DEFAULT_ROAD: readonly [Point, Point] = [[0, -3000], [0, 3000]];
/** Kept between the rig and a vehicle that stands in line with it. */
const IN_LINE_GAP = 300;
/** Data knows where a tyre or jack stands, not its size: drawn as a usual one. */
const TYRE = { long: 700, wide: 230 }, JACK = { long: 300, wide: 300 };

export function sceneOf(site: Site, rig: Rig, result: FitResult): Scene {
  const { pose } = result;
  return {
    roadEdge: site.roadEdge ?? DEFAULT_ROAD,
    exitEdge: site.entry === "pull-through" ? (site.exitEdge ?? null) : null,
    rig: pose ? placeRig(rig, pose, new Set(result.leftIn)) : null,
    vehicle: pose ? placeVehicle(site, rig, result, pose) : null,
    lines: pose ? result.needs.filter((need) => need.line.length > 1) : [],
  };
}

function placeRig(rig: Rig, pose: Pose, leftIn: ReadonlySet<string>): PlacedRig {
  const boxes = boxesOf(rig);
  const partIds = new Set(rig.parts.map((p) => p.id));
  const hitch = boxes.find((b) => b.id === "hitch");
  return {
    body: placeBox(pose, boxes[0]!),
    hitch: hitch ? placeBox(pose, hitch) : null,
    supports: rig.supports.map(({ kind, at: [u, v] }) => {
      const { long, wide } = kind === "tyre" ? TYRE : JACK;
      return { kind, points: placeBox(pose, { u0: u - long / 2, u1: u + long / 2, v0: v - wide / 2, v1: v + wide / 2 }) };
    }),
    parts: boxes.filter((b) => partIds.has(b.id)).map((b) => ({ id: b.id, kind: b.kind, points: placeBox(pose, b), leftIn: leftIn.has(b.id) })),
    inlets: rig.inlets.map((inlet) => {
      const [u, v] = inletAt(rig, inlet);
      return { kind: inlet.kind, at: place(pose, u, v) };
    }),
  };
}

/** The second vehicle where the result has put it: on the hitch, in line, or in a stall. */
function placeVehicle(site: Site, rig: Rig, { vehicle, leftIn }: FitResult, pose: Pose): Point[] | null {
  if (vehicle === null || !rig.tow) return null;
  const boxes = boxesOf(rig);
  if (vehicle === "hitched") return boxes.filter((b) => b.id === "tow").flatMap((b) => placeBox(pose, b));
  if (vehicle === "in line") return inLine(site, rig, boxes.filter((b) => !leftIn.includes(b.id)), pose);
  const stall = site.parking?.find((p) => p.id === vehicle);
  return stall ? inStall(stall.outline, rig.tow) : null;
}

/** Ahead of or behind the rig on its centreline: at the road end, or on a pull-through at the far end where that is the one on the pad. */
function inLine(site: Site, rig: Rig, boxes: readonly RigBox[], pose: Pose): Point[] {
  const { length, width } = rig.tow!;
  const xs = boxes.filter((b) => b.v0 < width / 2 && b.v1 > -width / 2).flatMap((b) => [b.u0, b.u1]).map((u) => pose.x + facing(pose.heading) * u);
  const at = (x0: number): Point[] => [[x0, pose.y - width / 2], [x0 + length, pose.y - width / 2], [x0 + length, pose.y + width / 2], [x0, pose.y + width / 2]];
  const near = at(Math.min(...xs) - IN_LINE_GAP - length), far = at(Math.max(...xs) + IN_LINE_GAP);
  const onPad = (corners: readonly Point[]) => corners.every((p) => contains(site.pad.outline, p));
  return site.entry === "pull-through" && !onPad(near) && onPad(far) ? far : near;
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
export function corePoints(site: Site, scene: Scene, result: FitResult): Point[] {
  const { rig } = scene;
  return [
    ...site.pad.outline,
    ...(site.lot?.outline ?? []),
    ...(site.parking ?? []).flatMap((p) => p.outline),
    ...(scene.exitEdge ?? []),
    ...roadNear(site, scene.roadEdge),
    ...site.hookups.map((h) => h.at),
    ...(rig ? [...rig.body, ...(rig.hitch ?? []), ...rig.parts.flatMap((p) => p.points), ...rig.supports.flatMap((s) => s.points)] : []),
    ...(scene.vehicle ?? []),
    ...scene.lines.flatMap((need): readonly SitePoint[] => need.line),
    ...(result.pose && result.limit ? [result.limit.from, result.limit.to] : []),
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
