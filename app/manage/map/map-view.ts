import { boundsOf, type Point } from "@/lib/plane";
import { onMap } from "../../components/park-map/frame";
import type { SheetPoint } from "../../components/park-map/types";
import type { Lens, Look } from "../editing/lens";
import type { MapSite, Places } from "./map-state";

/** What part of the park is shown; the middle is east and north. */
export type MapView = Look;

export interface MapSize {
  readonly w: number;
  readonly h: number;
}

const MARGIN = 24, MOST = 0.06, LEAST = 0.0004;

/** North up. */
export function toSheet({ middle, scale }: MapView, { w, h }: MapSize, [east, north]: Point): SheetPoint {
  return [w / 2 + (east - middle[0]) * scale, h / 2 - (north - middle[1]) * scale];
}

export function viewAll(sites: readonly MapSite[], places: Places, size: MapSize): MapView {
  const points = sites.flatMap(({ id, pad }) => (places[id] ? pad.map((p) => onMap(places[id]!, p)) : []));
  return viewAround(points, size);
}

export function viewAround(points: readonly Point[], { w, h }: MapSize): MapView {
  if (points.length === 0) return { middle: [50_000, 30_000], scale: Math.min(w / 100_000, h / 60_000) };
  const { minX, maxX, minY, maxY } = boundsOf(points);
  return { middle: [(minX + maxX) / 2, (minY + maxY) / 2], scale: within(Math.min((w - 2 * MARGIN) / Math.max(maxX - minX, 10_000), (h - 2 * MARGIN) / Math.max(maxY - minY, 10_000))) };
}

/** The park on a sheet of that size. */
export function mapLens({ w, h }: MapSize): Lens {
  return {
    centre: [w / 2, h / 2],
    groundAt: ({ middle, scale }, [px, py]) => [middle[0] + (px - w / 2) / scale, middle[1] - (py - h / 2) / scale],
    lookWith: (scale, [east, north], [px, py]) => {
      const kept = within(scale);
      return { scale: kept, middle: [east - (px - w / 2) / kept, north + (py - h / 2) / kept] };
    },
  };
}

/** The view moved no further than it takes to show a place well inside the sheet. */
export function showing(view: MapView, size: MapSize, at: Point): MapView {
  const [px, py] = toSheet(view, size, at), edge = 56;
  const dx = px < edge ? edge - px : px > size.w - edge ? size.w - edge - px : 0, dy = py < edge ? edge - py : py > size.h - edge ? size.h - edge - py : 0;
  return dx === 0 && dy === 0 ? view : { ...view, middle: [view.middle[0] - dx / view.scale, view.middle[1] + dy / view.scale] };
}

/** Where the arrow of a site ends, which turns it: beyond the pad's far end. */
export function arrowEnd({ pad }: MapSite): Point {
  return [boundsOf(pad).maxX + 4000, 0];
}

function within(scale: number): number {
  return Math.min(MOST, Math.max(LEAST, scale));
}
