import type { Point } from "@/lib/plane";
import { whole } from "./record";

/** Where a site's origin lies on the park's map, mm, and which way x points, degrees clockwise from north. */
export interface Place {
  readonly east: number;
  readonly north: number;
  readonly bearing: number;
}

export function movePlace(place: Place, [east, north]: Point): Place {
  return { ...place, east: whole(east), north: whole(north) };
}

/** Turned about the site's origin, to a tenth of a degree, from 0 to below 360. */
export function turnPlace(place: Place, bearing: number): Place {
  const tenths = Math.round(bearing * 10) % 3600;
  return { ...place, bearing: (tenths < 0 ? tenths + 3600 : tenths === 0 ? 0 : tenths) / 10 };
}

/** The bearing from one place on the map to another, degrees; null where they are one. */
export function bearingTo([fromEast, fromNorth]: Point, [east, north]: Point): number | null {
  const de = east - fromEast, dn = north - fromNorth;
  return de === 0 && dn === 0 ? null : (((Math.atan2(de, dn) * 180) / Math.PI) + 360) % 360;
}

/** By how much a place was moved (mm) and turned (degrees, the shorter way, clockwise above zero). */
export function movedBy(before: Place, after: Place): { readonly far: number; readonly turned: number } {
  const turned = ((after.bearing - before.bearing + 540) % 360) - 180;
  return { far: Math.hypot(after.east - before.east, after.north - before.north), turned: Math.round(turned * 10) / 10 };
}
