import { boundsOf, type Point } from "@/lib/plane";
import { pointsOfThing, thingsOf, type ThingKind } from "@/lib/park/edit/things";
import { pointAt, readAt, type Draft } from "@/lib/park/edit/record";
import type { PagePoint } from "../../components/plan/types";
import type { Lens, Look } from "./lens";

/** Size of the drawing on the glass: a unit is a pixel. */
export interface PageSize {
  readonly w: number;
  readonly h: number;
}

/** What part of the ground is shown; the middle is in the site's frame. */
export type View = Look;

/** The strip at the bottom for scale bar and arrow. */
export const FOOT = 46;
const MARGIN = 26;
const MOST_SCALE = 0.3, LEAST_SCALE = 0.0015;

/** x up the page and y to the left, as every plan here is drawn. */
export function toPage({ middle, scale }: View, { w, h }: PageSize, [x, y]: Point): PagePoint {
  return [w / 2 - (y - middle[1]) * scale, (h - FOOT) / 2 - (x - middle[0]) * scale];
}

export function toSite({ middle, scale }: View, { w, h }: PageSize, [px, py]: PagePoint): Point {
  return [middle[0] - (py - (h - FOOT) / 2) / scale, middle[1] - (px - w / 2) / scale];
}

/** The way in reaches far out; without it the site itself is large enough to work on. */
const FAR: ReadonlySet<ThingKind> = new Set(["road", "exit-road", "driveable", "height-limit", "road-edge", "exit-edge"]);

export function viewOf(draft: Draft, size: PageSize, what: "site" | "way in"): View {
  const points = thingsOf(draft).filter(({ kind }) => what === "way in" || !FAR.has(kind)).flatMap((thing) => pointsOfThing(draft, thing));
  return viewAround(what === "site" ? [...points, [-1500, 0]] : points, size);
}

export function viewAround(points: readonly Point[], { w, h }: PageSize): View {
  const { minX, maxX, minY, maxY } = boundsOf(points.length > 0 ? points : [[0, -5000], [10_000, 5000]]);
  const scale = Math.min((w - 2 * MARGIN) / Math.max(maxY - minY, 1000), (h - FOOT - 2 * MARGIN) / Math.max(maxX - minX, 1000));
  return { middle: [(minX + maxX) / 2, (minY + maxY) / 2], scale: within(scale) };
}

/** The site on a drawing of that size. */
export function siteLens(size: PageSize): Lens {
  const centre: PagePoint = [size.w / 2, (size.h - FOOT) / 2];
  return {
    centre,
    groundAt: (view, spot) => toSite(view, size, spot),
    lookWith: (scale, [x, y], [px, py]) => {
      const kept = within(scale);
      return { scale: kept, middle: [x + (py - centre[1]) / kept, y + (px - centre[0]) / kept] };
    },
  };
}

/** The view moved no further than it takes to show a point well inside the page. */
export function showing(view: View, size: PageSize, at: Point): View {
  const [px, py] = toPage(view, size, at), edge = 30;
  const dx = px < edge ? edge - px : px > size.w - edge ? size.w - edge - px : 0;
  const dy = py < edge ? edge - py : py > size.h - FOOT - edge ? size.h - FOOT - edge - py : 0;
  return dx === 0 && dy === 0 ? view : { ...view, middle: [view.middle[0] + dy / view.scale, view.middle[1] + dx / view.scale] };
}

/** How far a thing reaches around its place, mm: a crown, a stone. */
export function reachOf(draft: Draft, path: readonly (string | number)[]): number {
  const of = (field: string) => Number(readAt(draft, [...path, field]) ?? 0);
  return pointAt(draft, [...path, "at"]) ? Math.max(of("crownRadius"), of("radius"), of("postRadius")) : 0;
}

function within(scale: number): number {
  return Math.min(MOST_SCALE, Math.max(LEAST_SCALE, scale));
}
