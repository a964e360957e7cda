import { boundsOf, centroid, convexHull, convexCover, isConvex, normalise, pocketsOf, type Bounds, type Point } from "@/lib/plane";
import { groundPlane, type GroundPlane } from "./ground";
import type { Hookup, Obstacle, Site } from "./schema";

/** A footprint: a disc, or an outline with the convex pieces that cover it and a circle around it. */
export type Footprint =
  | { readonly shape: "disc"; readonly x: number; readonly y: number; readonly radius: number }
  | { readonly shape: "outline"; readonly x: number; readonly y: number; readonly radius: number; readonly outline: readonly Point[]; readonly pieces: readonly (readonly Point[])[] };

/** One upright solid of an obstacle, between two heights above the ground where it stands (mm). */
export interface Solid {
  readonly footprint: Footprint;
  readonly from: number;
  readonly to: number;
  /** Crowns sag and grow, wires kill, a fire ring's heat has no ceiling; everything else is plain. */
  readonly nature: "plain" | "crown" | "wire" | "fire-ring" | "wheel-stop";
}

/** An obstacle, or a hookup's post, under the id that constraints use. */
export interface Barrier {
  readonly id: string;
  readonly solids: readonly Solid[];
}

/** Ground one has to stay on: inside the hull and clear of its pockets. */
export interface Enclosure {
  readonly outline: readonly Point[];
  readonly edges: readonly Edge[];
  readonly pockets: readonly (readonly Point[])[];
  readonly bounds: Bounds;
}

/** A straight edge as a x + b y + d, positive on the side to be on, in mm. */
export interface Edge {
  readonly a: number;
  readonly b: number;
  readonly d: number;
}

/** What a site is, made ready for measuring against. */
export interface Terrain {
  readonly site: Site;
  readonly pad: Enclosure;
  readonly lot: Enclosure | null;
  /** The edges of the roads at the entry and, on a pull-through that has one, at the far end. */
  readonly roads: readonly Edge[];
  readonly ground: GroundPlane;
  readonly barriers: readonly Barrier[];
}

const known = new WeakMap<Site, Terrain>();

/** Worked out once per site record; a record must not be changed afterwards. */
export function terrainOf(site: Site): Terrain {
  let terrain = known.get(site);
  if (!terrain) {
    terrain = survey(site);
    known.set(site, terrain);
  }
  return terrain;
}

function survey(site: Site): Terrain {
  const pad = enclosureOf(site.pad.outline);
  const middle = centroid(site.pad.outline);
  const roads = [edgeThrough(site.roadEdge ?? [[0, -1], [0, 1]], middle)];
  if (site.entry === "pull-through" && site.exitEdge) roads.push(edgeThrough(site.exitEdge, middle));
  return {
    site,
    pad,
    lot: site.lot ? enclosureOf(site.lot.outline) : null,
    roads,
    ground: groundPlane(site.ground),
    barriers: [
      ...site.obstacles.map((o) => ({ id: o.id, solids: solidsOf(o) })),
      ...site.hookups.flatMap((h) => (h.postRadius === undefined ? [] : [{ id: h.id, solids: [postOf(h)] }])),
    ],
  };
}

/** An outline made ready for staying inside it. */
export function enclosureOf(outline: readonly Point[]): Enclosure {
  const ring = normalise(outline), convex = isConvex(ring); // as most are, and then their own hull
  const hull = convex ? ring : convexHull(ring);
  const edges = hull.map((p, i) => {
    const q = hull[(i + 1) % hull.length]!;
    const ex = q[0] - p[0], ey = q[1] - p[1], len = Math.hypot(ex, ey);
    const a = -ey / len, b = ex / len;
    return { a, b, d: -(a * p[0] + b * p[1]) };
  });
  return { outline, edges, pockets: convex ? [] : pocketsOf(outline), bounds: boundsOf(outline) };
}

/** The line through two points, positive on the side of `inside` (the middle of the pad). */
function edgeThrough([p, q]: readonly [Point, Point], inside: Point): Edge {
  const ex = q[0] - p[0], ey = q[1] - p[1], len = Math.hypot(ex, ey);
  const a = -ey / len, b = ex / len, d = -(a * p[0] + b * p[1]);
  return a * inside[0] + b * inside[1] + d >= 0 ? { a, b, d } : { a: -a, b: -b, d: -d };
}

/** A tree is two solids, anything else one. The schema has checked that the fields are there. */
function solidsOf(o: Obstacle): Solid[] {
  const [x, y] = o.at ?? [0, 0];
  if (o.kind === "tree") {
    const to = o.crownTo ?? 0;
    return [
      { footprint: { shape: "disc", x, y, radius: o.trunkRadius ?? 0 }, from: 0, to, nature: "plain" },
      { footprint: { shape: "disc", x, y, radius: o.crownRadius ?? 0 }, from: o.crownFrom ?? 0, to, nature: "crown" },
    ];
  }
  const footprint: Footprint = o.outline
    ? { shape: "outline", ...circleAround(o.outline), outline: o.outline, pieces: convexCover(o.outline) }
    : { shape: "disc", x, y, radius: o.radius ?? 0 };
  const nature = o.kind === "wire" || o.kind === "fire-ring" || o.kind === "wheel-stop" ? o.kind : "plain";
  return [{ footprint, from: o.from ?? 0, to: o.to ?? 0, nature }];
}

function circleAround(outline: readonly Point[]): { x: number; y: number; radius: number } {
  const { minX, maxX, minY, maxY } = boundsOf(outline);
  return { x: (minX + maxX) / 2, y: (minY + maxY) / 2, radius: Math.hypot(maxX - minX, maxY - minY) / 2 };
}

function postOf(h: Hookup): Solid {
  return { footprint: { shape: "disc", x: h.at[0], y: h.at[1], radius: h.postRadius ?? 0 }, from: 0, to: h.postHeight ?? h.height, nature: "plain" };
}
