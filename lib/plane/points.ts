/**
 * The two frames of the trade, kept apart by the type checker.
 *
 * Site frame: origin at the middle of the pad's entry edge, x into the site along the pad's centreline, y to the
 * left of someone standing on the road and looking in. Rig frame: u forward from the rear face of the body, v to
 * the left of the centreline facing forward. Millimetres.
 */
export type Point = readonly [number, number];
export type SitePoint = Point & { readonly __frame: "site" };
export type RigPoint = Point & { readonly __frame: "rig" };

export function sitePoint(x: number, y: number): SitePoint {
  return [x, y] as unknown as SitePoint;
}

export function rigPoint(u: number, v: number): RigPoint {
  return [u, v] as unknown as RigPoint;
}
