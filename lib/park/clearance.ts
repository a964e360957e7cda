import type { Solid } from "./terrain";

/** What is kept between a rig and what stands about, mm. A park's policy has all of it. */
export interface Margins {
  /** In plan; from overhead conductors `wireClearance`. */
  readonly clearance: number;
  readonly wireClearance: number;
  /** Above and below; below crowns, which sag and grow, `limbRoom`, and below overhead conductors `wireRoom`. */
  readonly headroom: number;
  readonly limbRoom: number;
  readonly wireRoom: number;
}

/**
 * What something between two heights, which levelling may raise by `rise`, has to keep from a solid in plan (mm), or null where
 * their heights do not overlap (touching is no overlap).
 */
export function keptFrom({ nature, from, to }: Pick<Solid, "nature" | "from" | "to">, thing: { readonly from: number; readonly to: number }, margins: Margins, rise: number): number | null {
  const room = nature === "crown" ? margins.limbRoom : nature === "wire" ? margins.wireRoom : margins.headroom;
  if (thing.to + rise + room <= from || thing.from - margins.headroom >= to) return null;
  return nature === "wire" ? margins.wireClearance : margins.clearance;
}
