import { boundsOf, type Point } from "@/lib/plane";
import type { WayShown } from "@/lib/card/way";
import type { Site } from "@/lib/park";
import type { PageFrame } from "../plan/frame";

/** Width of the drawing in units of its viewBox; a phone shows about one pixel a unit. */
export const WAY_WIDTH = 400;
const SIDE = 12;
/** The strip below the ground for scale bar and north arrow. */
const FOOT = 48;
const MOST_HEIGHT = 430;
/** A short way is not blown up beyond this: 26 units a metre. */
const MOST_SCALE = 0.026;
/** Ground shown around everything that has to be on the drawing, mm. */
const MARGIN = 900;

/** The drawing of a way as a page: the road at the bottom, one scale for both directions, all that is passed over and the helper's places on it. */
export function frameOfWay(site: Site, { film, spotting, tightest }: WayShown): PageFrame {
  const { minX, maxX, minY, maxY } = boundsOf([...site.pad.outline, ...outlinesOf(film), ...spotting.posts.map(({ at }) => at), tightest.to]);
  const across = maxY - minY + 2 * MARGIN, deep = maxX - minX + 2 * MARGIN;
  const scale = Math.min((WAY_WIDTH - 2 * SIDE) / across, MOST_HEIGHT / deep, MOST_SCALE), middle = (minY + maxY) / 2, height = deep * scale;
  return {
    scale, width: WAY_WIDTH, height: height + FOOT, ground: { x: 0, y: 0, w: WAY_WIDTH, h: height },
    toPage: ([x, y]) => [WAY_WIDTH / 2 + (middle - y) * scale, (maxX + MARGIN - x) * scale],
  };
}

/** Every corner of every body at every moment. */
function outlinesOf({ bodies, legs }: WayShown["film"]): Point[] {
  return legs.flatMap((moments) => moments.flatMap(({ poses }) => poses.flatMap(({ at: [x, y], heading }, b) => {
    const c = Math.cos((heading * Math.PI) / 180), s = Math.sin((heading * Math.PI) / 180);
    return bodies[b]!.boxes.flatMap(({ u0, u1, halfWidth }) => [u0, u1].flatMap((u) => [-halfWidth, halfWidth].map((v): Point => [x + u * c - v * s, y + u * s + v * c])));
  })));
}
