import { placeBox, type FitResult } from "@/lib/fit";
import { terrainOf, type Site } from "@/lib/park";
import type { Point } from "@/lib/plane";
import { boxesOf, type Rig } from "@/lib/rig";

/** A shape of the plan, in the picture's own millimetres: the road at the bottom, x into the site upward. */
export type PlanShape =
  | { readonly shape: "outline"; readonly of: "pad" | "lot" | "obstacle" | "limb" | "body" | "part" | "awning"; readonly points: readonly Point[] }
  | { readonly shape: "disc"; readonly of: "obstacle" | "limb" | "hookup"; readonly at: Point; readonly radius: number }
  | { readonly shape: "line"; readonly of: "power" | "water" | "sewer"; readonly points: readonly Point[] };

export interface PlanPicture {
  readonly width: number;
  readonly height: number;
  readonly shapes: readonly PlanShape[];
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
    ...barriers.flatMap(({ solids }) => solids.map(({ footprint, nature }): PlanShape => {
      const of = nature === "crown" || nature === "wire" ? "limb" as const : "obstacle" as const;
      return footprint.shape === "disc" ? { shape: "disc", of, at: [footprint.x, footprint.y], radius: footprint.radius } : outline(of, footprint.outline);
    })),
    ...(pose ? boxesOf(rig).filter(({ id }) => !result.leftIn.includes(id)).map((box) => outline(box.kind === "awning" ? "awning" : box.id === "body" ? "body" : "part", placeBox(pose, box))) : []),
    ...result.needs.filter(({ line }) => line.length > 1).map(({ service, line }): PlanShape => ({ shape: "line", of: service, points: line })),
    ...site.hookups.map(({ at, postRadius }): PlanShape => ({ shape: "disc", of: "hookup", at, radius: Math.max(postRadius ?? 0, dot) })),
  ];
  return fitted(shapes);
}

/** Turned so that the road lies at the bottom, and cut to the pad, the lot and the rig with a margin; what reaches beyond is drawn as far as it shows. */
function fitted(shapes: readonly PlanShape[]): PlanPicture {
  const framed = shapes.flatMap((one) => (one.shape === "disc" ? (one.of === "hookup" ? [one.at] : []) : one.of === "limb" || one.of === "obstacle" ? [] : one.points));
  const [xs, ys] = [framed.map(([x]) => x), framed.map(([, y]) => y)];
  const [maxX, minX, maxY, minY] = [Math.max(...xs) + margin, Math.min(...xs) - margin, Math.max(...ys) + margin, Math.min(...ys) - margin];
  const turned = ([x, y]: Point): Point => [maxY - y, maxX - x];
  return {
    width: maxY - minY,
    height: maxX - minX,
    shapes: shapes.map((one) => (one.shape === "disc" ? { ...one, at: turned(one.at) } : { ...one, points: one.points.map(turned) })),
  };
}
