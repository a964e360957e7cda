import { centroid, type Point } from "@/lib/plane";
import { onMap } from "../../components/park-map/frame";
import type { MapSite, Places } from "./map-state";

/** A site where it lies on the map. */
export interface Stop {
  readonly id: string;
  readonly label: string;
  /** The middle of its pad: east and north, mm. */
  readonly at: Point;
}

/** The sites that are on the map, in the park's order. */
export function stopsOf(sites: readonly MapSite[], places: Places): Stop[] {
  return sites.flatMap(({ id, label, pad }) => (places[id] ? [{ id, label, at: centroid(pad.map((p) => onMap(places[id]!, p))) }] : []));
}

/** North is up. */
const WAYS: Readonly<Record<string, Point>> = { ArrowUp: [0, 1], ArrowDown: [0, -1], ArrowRight: [1, 0], ArrowLeft: [-1, 0] };
/** What lies off to the side counts as this much farther: of two sites as far away the one straight ahead is meant. */
const ASIDE = 2;

/**
 * The site a key leads to: with an arrow the nearest in that direction, with Home and End the first and the last, with a letter or a digit the next whose
 * label begins with it. Null where the key means nothing here or no site lies that way.
 */
export function travel(stops: readonly Stop[], from: string, key: string): Stop | null {
  const here = stops.findIndex(({ id }) => id === from), way = WAYS[key];
  if (here < 0) return null;
  if (way) return nearest(stops, stops[here]!, way);
  if (key === "Home") return stops[0]!;
  if (key === "End") return stops.at(-1)!;
  if (!/^[\p{L}\p{N}]$/u.test(key)) return null;
  const after = [...stops.slice(here + 1), ...stops.slice(0, here)], begins = key.toLowerCase();
  return after.find(({ label }) => label.toLowerCase().startsWith(begins)) ?? null;
}

/** Ahead, at no more than a right angle's half to either side; only where nothing is there, anything that is ahead at all. */
function nearest(stops: readonly Stop[], from: Stop, [east, north]: Point): Stop | null {
  const ahead = stops.flatMap((stop) => {
    const dx = stop.at[0] - from.at[0], dy = stop.at[1] - from.at[1], along = dx * east + dy * north, aside = Math.abs(dx * north - dy * east);
    return along > 0 && stop.id !== from.id ? [{ stop, straight: aside <= along, far: along + ASIDE * aside }] : [];
  });
  const straight = ahead.filter((one) => one.straight);
  return (straight.length > 0 ? straight : ahead).sort((a, b) => a.far - b.far)[0]?.stop ?? null;
}
