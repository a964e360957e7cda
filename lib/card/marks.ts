import { place, type Pose } from "@/lib/fit";
import type { Site } from "@/lib/park";
import { contains, type Point } from "@/lib/plane";
import type { Rig } from "@/lib/rig";

/** A post or tree beside the rig that a driver or helper can see and measure from. */
export interface Beside {
  /** The obstacle's or hookup's id. */
  readonly id: string;
  readonly side: "left" | "right";
  /** How far ahead of the rear bumper it stands, along the rig, mm; below zero behind it. */
  readonly ahead: number;
  /** From the side wall to its near face, mm. */
  readonly off: number;
}

/** Where to stop, by things one can see. */
export interface StopMarks {
  readonly beside: readonly Beside[];
  /** From the rear face (backed in) or the front (driven in) to the end of the pad that it is driven toward, mm; null off the pad. */
  readonly toEnd: number | null;
  /** From the side walls to the pad's edges, at the middle of the tires, mm; null off the pad. */
  readonly toEdges: { readonly left: number | null; readonly right: number | null };
}

/** Further off than this nothing is measured from, mm. */
const sight = 4000;
/** More than so many marks nobody keeps in mind. */
const most = 2;

export function findMarks(site: Site, rig: Rig, pose: Pose, backsIn: boolean): StopMarks {
  const { length, width } = rig.body;
  const tires = rig.supports.filter(({ kind }) => kind === "tyre").map(({ at }) => at[0]);
  const middle = (Math.min(...tires) + Math.max(...tires)) / 2;
  const sideways = (v: number, off: number) => toOutline(site.pad.outline, place(pose, middle, v), place(pose, middle, v + off));
  const end = backsIn ? [place(pose, 0, 0), place(pose, -1, 0)] as const : [place(pose, length, 0), place(pose, length + 1, 0)] as const;
  return {
    beside: thingsBeside(site, rig, pose),
    toEnd: toOutline(site.pad.outline, ...end),
    toEdges: { left: sideways(width / 2, 1), right: sideways(-width / 2, -1) },
  };
}

/** Posts and trunks along the rig's sides: hookups first, which everybody looks for anyway, then whatever stands nearest. */
function thingsBeside(site: Site, { body: { length, width } }: Rig, pose: Pose): Beside[] {
  const round = [
    ...site.hookups.filter(({ postRadius }) => (postRadius ?? 0) > 0).map(({ id, at, postRadius }) => ({ id, at, radius: postRadius!, first: true })),
    ...site.obstacles.flatMap(({ id, kind, at, radius, trunkRadius, from }) => {
      const stands = kind === "tree" ? trunkRadius : (from ?? 0) < 300 && kind !== "wheel-stop" && kind !== "fire-ring" ? radius : undefined;
      return at && stands !== undefined ? [{ id, at, radius: stands, first: false }] : [];
    }),
  ];
  const s = pose.heading === "nose-in" ? 1 : -1;
  return round
    .map(({ id, at: [x, y], radius, first }) => ({ id, first, ahead: s * (x - pose.x), v: s * (y - pose.y), radius }))
    .map(({ id, first, ahead, v, radius }) => ({ id, first, ahead, side: v > 0 ? "left" as const : "right" as const, off: Math.abs(v) - width / 2 - radius }))
    .filter(({ ahead, off }) => off > 0 && off <= sight && ahead > -sight / 2 && ahead < length)
    .sort((a, b) => Number(b.first) - Number(a.first) || a.off - b.off)
    .slice(0, most)
    .map(({ id, side, ahead, off }) => ({ id, side, ahead, off }));
}

/** From a point inside an outline to where the line toward `towards` leaves it, mm; null where the point is not inside. */
export function toOutline(outline: readonly Point[], from: Point, towards: Point): number | null {
  if (!contains(outline, from)) return null;
  const [dx, dy] = [towards[0] - from[0], towards[1] - from[1]], unit = Math.hypot(dx, dy);
  const hits = outline.flatMap((a, i) => {
    const b = outline[(i + 1) % outline.length]!, [ex, ey] = [b[0] - a[0], b[1] - a[1]];
    const across = dx * ey - dy * ex;
    if (across === 0) return [];
    const [ax, ay] = [a[0] - from[0], a[1] - from[1]];
    const along = (ax * ey - ay * ex) / across, onEdge = (ax * dy - ay * dx) / across;
    return along >= 0 && onEdge >= 0 && onEdge <= 1 ? [along * unit] : [];
  });
  return hits.length > 0 ? Math.min(...hits) : null;
}
