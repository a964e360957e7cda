import { terrainOf, type Site, type Solid, type Terrain } from "@/lib/park";
import { centroid, type Point } from "@/lib/plane";
import { groundOfRoad, lanesOf, type Lane } from "./road";
import { surfaceOf, type Surface } from "./surface";

/** A solid on the way, under the id that people know it by. */
export interface Standing {
  readonly id: string;
  readonly solid: Solid;
}

/** What a site's way in is, made ready for driving on. */
export interface WayGround {
  readonly terrain: Terrain;
  readonly surface: Surface;
  readonly standing: readonly Standing[];
  /** Along the road in front, and along the one at the far end. */
  readonly front: readonly Lane[];
  readonly exit: readonly Lane[];
  /** Height limits that nobody has measured. */
  readonly unmeasured: readonly string[];
}

/** Two grounds closer than this are one, mm: a tire rolls over the gap, and a tape shows no less. */
export const BRIDGE = 100;

const known = new WeakMap<Site, WayGround>();

/** Worked out once per site record, which must not be changed afterwards. Null where nobody has measured the way in. */
export function wayGroundOf(site: Site): WayGround | null {
  if (!site.approach) return null;
  let ground = known.get(site);
  if (!ground) known.set(site, (ground = survey(site, site.approach)));
  return ground;
}

function survey(site: Site, { road, exitRoad, driveable, heightLimits }: NonNullable<Site["approach"]>): WayGround {
  const terrain = terrainOf(site), middle = centroid(site.pad.outline);
  const grounds: (readonly Point[])[] = [site.pad.outline, ...driveable, ...groundOfRoad(road), ...(exitRoad ? groundOfRoad(exitRoad) : [])];
  const limits = heightLimits.flatMap(({ id, kind, across, height }): Standing[] => (height === undefined ? [] : [{ id, solid: limitSolid(kind, across, height) }]));
  return {
    terrain, surface: surfaceOf(grounds, BRIDGE),
    standing: [...terrain.barriers.flatMap(({ id, solids }) => solids.map((solid) => ({ id, solid }))), ...limits],
    front: lanesOf(road, middle), exit: exitRoad ? lanesOf(exitRoad, middle) : [],
    unmeasured: heightLimits.filter(({ height }) => height === undefined).map(({ id }) => id),
  };
}

/** A line that nothing taller passes: a wall without thickness from its height up. */
function limitSolid(kind: string, [a, b]: readonly [Point, Point], height: number): Solid {
  const footprint: Solid["footprint"] = { shape: "outline", x: (a[0] + b[0]) / 2, y: (a[1] + b[1]) / 2, radius: Math.hypot(b[0] - a[0], b[1] - a[1]) / 2, outline: [a, b], pieces: [[a, b]] };
  return { footprint, from: height, to: Infinity, nature: kind === "wire" ? "wire" : kind === "limb" || kind === "tree" ? "crown" : "plain" };
}
