import { placeBox, type FitResult } from "@/lib/fit";
import type { Units } from "@/lib/measure";
import { terrainOf, type Site } from "@/lib/park";
import type { Point } from "@/lib/plane";
import { boxesOf, type Rig } from "@/lib/rig";

/** A shape of a plan, in the picture's own millimetres: the road at the bottom, x into the site upward. */
export type PlanShape =
  | { readonly shape: "outline"; readonly of: "pad" | "apron" | "lot" | "obstacle" | "limb" | "body" | "part" | "awning" | "moment"; readonly points: readonly Point[] }
  | { readonly shape: "disc"; readonly of: "obstacle" | "limb" | "hookup"; readonly at: Point; readonly radius: number }
  | { readonly shape: "line"; readonly of: "power" | "water" | "sewer" | "edge" | "limit" | "hatch"; readonly points: readonly Point[] }
  | { readonly shape: "strip"; readonly of: "road"; readonly points: readonly Point[]; readonly width: number };

export interface PlanPicture {
  readonly width: number;
  readonly height: number;
  readonly shapes: readonly PlanShape[];
  /** Where a hookup that is used stands. */
  readonly hookups: readonly { readonly service: "power" | "water" | "sewer"; readonly at: Point }[];
  /** Degrees to turn an arrow that points up the picture so that it points north; null where the bearing is not known. */
  readonly north: number | null;
}

const margin = 1500;
const dot = 200;

/** The site and the rig where it stands, to scale and without words: for paper that has its words beside it. */
export function drawPlan(site: Site, rig: Rig, result: FitResult): PlanPicture {
  const { pad, lot, barriers } = terrainOf(site), { pose } = result;
  const outline = (of: Extract<PlanShape, { shape: "outline" }>["of"], points: readonly Point[]): PlanShape => ({ shape: "outline", of, points });
  const shapes: PlanShape[] = [
    ...(lot ? [outline("lot", lot.outline)] : []),
    outline("pad", pad.outline),
    ...[site.roadEdge, site.exitEdge].flatMap((edge): PlanShape[] => (edge ? [{ shape: "line", of: "edge", points: edge }] : [])),
    ...barriers.flatMap(({ solids }) => solids.map(({ footprint, nature }): PlanShape => {
      const of = nature === "crown" || nature === "wire" ? "limb" as const : "obstacle" as const;
      return footprint.shape === "disc" ? { shape: "disc", of, at: [footprint.x, footprint.y], radius: footprint.radius } : outline(of, footprint.outline);
    })),
    ...(pose ? boxesOf(rig).filter(({ id }) => !result.leftIn.includes(id)).map((box) => outline(box.kind === "awning" ? "awning" : box.id === "body" ? "body" : "part", placeBox(pose, box))) : []),
    ...result.needs.filter(({ line }) => line.length > 1).map(({ service, line }): PlanShape => ({ shape: "line", of: service, points: line })),
    ...site.hookups.map(({ at, postRadius }): PlanShape => ({ shape: "disc", of: "hookup", at, radius: Math.max(postRadius ?? 0, dot) })),
  ];
  const used = result.needs.flatMap(({ service, hookup }) => site.hookups.filter(({ id }) => id === hookup).map(({ at }) => ({ service, at })));
  return { ...fitted(shapes, used), north: site.place ? -site.place.bearing : null };
}

/** Turned so that the road lies at the bottom, and cut to the pad, the lot and the rig with a margin; what reaches beyond is drawn as far as it shows. */
function fitted(shapes: readonly PlanShape[], used: PlanPicture["hookups"]): Omit<PlanPicture, "north"> {
  const framed = shapes.flatMap((one) => (one.shape === "disc" ? (one.of === "hookup" ? [one.at] : []) : one.of === "limb" || one.of === "obstacle" ? [] : one.points));
  const [xs, ys] = [framed.map(([x]) => x), framed.map(([, y]) => y)];
  const [maxX, minX, maxY, minY] = [Math.max(...xs) + margin, Math.min(...xs) - margin, Math.max(...ys) + margin, Math.min(...ys) - margin];
  const turned = ([x, y]: Point): Point => [maxY - y, maxX - x];
  return {
    width: maxY - minY,
    height: maxX - minX,
    shapes: shapes.map((one) => (one.shape === "disc" ? { ...one, at: turned(one.at) } : { ...one, points: one.points.map(turned) })),
    hookups: used.map(({ service, at }) => ({ service, at: turned(at) })),
  };
}

/** The longest round length that takes at most a third of a picture's width, mm: 5 to 40 ft or 1 to 20 m. */
export function scaleLength(width: number, units: Units): { readonly mm: number; readonly count: number } {
  const [step, counts] = units === "metric" ? [1000, [1, 2, 5, 10, 20]] as const : [304.8, [2, 5, 10, 20, 40]] as const;
  const count = counts.filter((n) => n * step <= width / 3).at(-1) ?? counts[0];
  return { mm: count * step, count };
}
