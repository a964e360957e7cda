import { placeBox, type Pose } from "@/lib/fit";
import { terrainOf, type Site } from "@/lib/park";
import { nearestOfOutlines, nearestToDisc } from "@/lib/plane";
import { boxesOf, type Rig } from "@/lib/rig";
import { isGuess, measurementOf } from "@/lib/survey";

/** Something that hangs above or beside where the rig stands: look up for it before anything moves. */
export interface Overhead {
  readonly id: string;
  readonly what: "limb" | "wire" | "other";
  /** Its lowest height above the ground, mm; null where nobody measured it, of which nothing may be said but to look up. */
  readonly height: number | null;
  /** It was judged by eye or read off a drawing, not measured at the site. */
  readonly guessed: boolean;
}

/** How near in plan counts as above, mm: a limb moves in the wind, and a rig does not stop to the inch. */
const near = 1500;
/** From this height on something hangs rather than stands, mm: higher than most people reach. */
const hangs = 1800;

/** What hangs over the rig, its slides and awnings that are out, or within a step of them; wires first, then the lowest first. */
export function findOverhead(site: Site, rig: Rig, pose: Pose, leftIn: readonly string[]): Overhead[] {
  const guessed = (path: string) => { const measurement = measurementOf(site, path); return measurement !== null && isGuess(measurement); };
  const outlines = boxesOf(rig).filter(({ id }) => !leftIn.includes(id)).map((box) => placeBox(pose, box));
  const found = terrainOf(site).barriers.flatMap(({ id, solids }) => solids.flatMap(({ footprint, from, nature }): Overhead[] => {
    if (nature !== "wire" && (nature !== "crown" && from < hangs)) return [];
    const apart = Math.min(...outlines.map((outline) => (footprint.shape === "disc"
      ? nearestToDisc(outline, [footprint.x, footprint.y], footprint.radius).distance
      : nearestOfOutlines(outline, footprint.outline).distance)));
    return apart <= near ? [{ id, what: nature === "wire" ? "wire" : nature === "crown" ? "limb" : "other", height: from, guessed: guessed(`obstacles.${id}.${nature === "crown" ? "crownFrom" : "from"}`) }] : [];
  }));
  const limits = (site.approach?.heightLimits ?? []).map(({ id, kind, height }): Overhead => ({ id, what: kind === "wire" ? "wire" : kind === "limb" ? "limb" : "other", height: height ?? null, guessed: guessed(`approach.heightLimits.${id}.height`) }));
  return [...found, ...limits].sort((a, b) => Number(b.what === "wire") - Number(a.what === "wire") || (a.height ?? 0) - (b.height ?? 0));
}
