import { policySchema, type PolicyInput } from "@/lib/fit";
import { siteSchema, type Site, type SiteInput } from "@/lib/park";
import { rigSchema, type Rig, type RigInput } from "@/lib/rig";

/** One foot and one inch in millimetres (international, exact). */
export const FOOT = 304.8;
export const INCH = 25.4;

/** A trailer of 9 m by 2.4 m. What a value is about is given on top. */
export function rigWith(more: Partial<RigInput>): Rig {
  return rigSchema.parse({
    id: "rig", kind: "travel-trailer", body: { length: 9000, width: 2400, height: 3200, floor: 400 },
    hitch: { length: 1000, width: 600, from: 300, to: 900 },
    supports: [{ kind: "tyre", at: [4000, 1000] }, { kind: "tyre", at: [4000, -1000] }, { kind: "jack", at: [9600, 0] }],
    ...more,
  });
}

/**
 * Its pad: the trailer can move 10 mm each way and no further, so that lengths on the ground are known to 10 mm.
 * The rear face stands at x = 10000, the left wall at y = -1200.
 */
export function siteWith(more: Partial<SiteInput>): Site {
  const outline: [number, number][] = [[240, -1160], [6160, -1160], [6160, 1160], [240, 1160]];
  return siteSchema.parse({ id: "site", entry: "back-in", pad: { outline }, roadEdge: [[-2000, -1], [-2000, 1]], ground: { along: 0, across: 0 }, ...more });
}

export function policyWith(more: PolicyInput = {}) {
  return policySchema.parse(more);
}

/** A point on the ground beside the left wall, `out` to the left of it and `u` forward of the rear face. */
export function leftOf(u: number, out: number): [number, number] {
  return [10_000 - u, -1200 - out];
}
