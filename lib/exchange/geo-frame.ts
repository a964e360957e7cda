import type { Point } from "@/lib/plane";

/** Where the corner lies from which a park's map counts, and which way its north points. */
export interface ParkOrigin {
  /** Degrees, WGS 84. */
  readonly latitude: number;
  readonly longitude: number;
  /** Which way the map's north points, degrees clockwise from true north. */
  readonly bearing: number;
}

/** Longitude and latitude, degrees: RFC 7946 has them in this order. */
export type Position = readonly [longitude: number, latitude: number];

/**
 * Between millimetres on a park's map and longitude and latitude: the tangent plane at the origin, a degree being as long everywhere as it is there
 * by the radii of the WGS 84 ellipsoid (meridian radius for latitude, radius of the prime vertical times cos φ for longitude).
 * Both ways are each other's inverse. Against the earth itself a point 1 km out is misplaced by up to 0.1 m at 40°
 * of latitude, 0.2 m at 50° and 0.3 m at 60°: less than any map of a campground shows, and no length on a site hangs on it.
 */
export function geoFrame({ latitude, longitude, bearing }: ParkOrigin) {
  const phi = latitude * RADIANS, sin = Math.sin(phi), bend = 1 - E2 * sin * sin;
  const perLatitude = ((A * (1 - E2)) / bend ** 1.5) * RADIANS, perLongitude = (A / Math.sqrt(bend)) * Math.cos(phi) * RADIANS;
  const turn = bearing * RADIANS, cos = Math.cos(turn), across = Math.sin(turn);
  return {
    toPosition([east, north]: Point): Position {
      const e = (east * cos + north * across) / 1000, n = (north * cos - east * across) / 1000;
      return [decimals(longitude + e / perLongitude), decimals(latitude + n / perLatitude)];
    },
    toMap([lon, lat]: Position): Point {
      const e = (lon - longitude) * perLongitude * 1000, n = (lat - latitude) * perLatitude * 1000;
      return [e * cos - n * across, e * across + n * cos];
    },
  };
}

/** A site's frame on the park's map: `place` says where its origin lies and which way +x points. */
export function siteFrame({ east, north, bearing }: { readonly east: number; readonly north: number; readonly bearing: number }) {
  const sin = Math.sin(bearing * RADIANS), cos = Math.cos(bearing * RADIANS);
  return {
    toMap: ([x, y]: Point): Point => [east + x * sin - y * cos, north + x * cos + y * sin],
    toSite: ([e, n]: Point): Point => [(e - east) * sin + (n - north) * cos, (n - north) * sin - (e - east) * cos],
  };
}

/** Half axis (m) and squared eccentricity of WGS 84. */
const A = 6_378_137;
const E2 = 0.006_694_379_990_141_33;
const RADIANS = Math.PI / 180;

/** Nine decimals of a degree are a tenth of a millimetre on the ground: finer than what is written, so that reading gives it back. */
function decimals(degrees: number): number {
  return Math.round(degrees * 1e9) / 1e9;
}
