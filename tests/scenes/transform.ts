import type { Site } from "@/lib/park/schema";
import type { Rig } from "@/lib/rig/schema";
import type { Scene } from "./random-scene";

type Pt = [number, number];
type Side = Rig["parts"][number]["side"];

/**
 * Everything on the site moved by `d` along the pad's line. The road's edge becomes explicit; a ground given by its
 * slopes passes through the origin, so ground heights at hookups move up or down with it.
 */
export function movedAlong(scene: Scene, d: number): Scene {
  const { site } = scene;
  const rise = site.ground.heights ? 0 : ((site.ground.along ?? 0) * d) / 100;
  const moved = mapPoints(site, ([x, y]) => [x + d, y]);
  const hookups = moved.hookups.map((h) => ({ ...h, groundZ: h.groundZ === undefined ? undefined : h.groundZ + rise }));
  return { ...scene, site: { ...moved, hookups } };
}

/** Site and rig as in a mirror held along the pad's line: left becomes right. */
export function mirrored(scene: Scene): Scene {
  const site = mapPoints(scene.site, ([x, y]) => [x, -y]);
  const ground = site.ground.heights ? site.ground : { ...site.ground, across: -(site.ground.across ?? 0) };
  return { ...scene, site: { ...site, ground }, rig: mirroredRig(scene.rig) };
}

export function withPart(scene: Scene, index: number, change: Partial<Rig["parts"][number]>): Scene {
  const parts = scene.rig.parts.map((p, i) => (i === index ? { ...p, ...change } : p));
  return { ...scene, rig: { ...scene.rig, parts } };
}

export function withBody(scene: Scene, change: Partial<Rig["body"]>): Scene {
  return { ...scene, rig: { ...scene.rig, body: { ...scene.rig.body, ...change } } };
}

export function withGear(scene: Scene, change: Partial<Rig["gear"]>): Scene {
  return { ...scene, rig: { ...scene.rig, gear: { ...scene.rig.gear, ...change } } };
}

export function withObstacle(scene: Scene, obstacle: Site["obstacles"][number]): Scene {
  return { ...scene, site: { ...scene.site, obstacles: [...scene.site.obstacles, obstacle] } };
}

function mapPoints(site: Site, map: (p: Pt) => Pt): Site {
  const outline = (points: readonly Pt[]): Pt[] => points.map(map);
  const line = (l: [Pt, Pt] | undefined): [Pt, Pt] | undefined => l && [map(l[0]), map(l[1])];
  return {
    ...site,
    pad: { ...site.pad, outline: outline(site.pad.outline) },
    roadEdge: line(site.roadEdge ?? [[0, -3000], [0, 3000]]),
    exitEdge: line(site.exitEdge),
    lot: site.lot && { outline: outline(site.lot.outline) },
    ground: site.ground.heights ? { ...site.ground, heights: site.ground.heights.map(([x, y, z]) => [...map([x, y]), z] as [number, number, number]) } : site.ground,
    obstacles: site.obstacles.map((o) => ({ ...o, at: o.at && map(o.at), outline: o.outline && outline(o.outline) })),
    hookups: site.hookups.map((h) => ({ ...h, at: map(h.at) })),
    parking: site.parking?.map((p) => ({ ...p, outline: outline(p.outline) })),
  };
}

function mirroredRig(rig: Rig): Rig {
  const other: Record<Side, Side> = { left: "right", right: "left", rear: "rear", front: "front" };
  const end = (side: Side) => side === "rear" || side === "front";
  return {
    ...rig,
    supports: rig.supports.map((s) => ({ ...s, at: [s.at[0], -s.at[1]] })),
    parts: rig.parts.map((p) => ({ ...p, side: other[p.side], span: end(p.side) ? [-p.span[1], -p.span[0]] : p.span })),
    inlets: rig.inlets.map((i) => ({ ...i, side: other[i.side], v: i.v === undefined ? undefined : -i.v })),
  };
}
