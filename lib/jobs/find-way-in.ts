import { drawWay, findAccess, placeSpotters, trainOf, wayGroundOf, type ParkedPose } from "@/lib/access";
import type { WayIn } from "@/lib/card/way";
import type { Policy } from "@/lib/fit";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";

/** One rig that has a place on one site. */
export interface WayAsked {
  readonly site: Site;
  readonly rig: Rig;
  readonly pose: ParkedPose;
  readonly policy: Policy;
}

/** A frame about every so many mm. */
const every = 2500;

/** The best way onto the site, with posts for a helper; null where nobody has measured the way in. Some ten to a hundred milliseconds. */
export function findWayIn({ site, rig, pose, policy }: WayAsked): WayIn | null {
  const access = findAccess(site, rig, [pose], policy), ground = wayGroundOf(site);
  if (!access || !ground) return null;
  const { state, barred, unmeasured, way } = access;
  if (!way) return { state, barred, unmeasured, way: null };
  const train = trainOf(rig), { from, sight, room, tightest } = way;
  return { state, barred, unmeasured, way: { from, sight, room, tightest, legs: drawWay(train, way, every), spotting: placeSpotters(ground, train, way, policy), usual: train.assumed.length > 0 } };
}
