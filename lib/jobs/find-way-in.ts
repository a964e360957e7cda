import { drawWay, filmWay, findAccess, nearestOf, placeSpotters, scrapesOf, trainOf, wayGroundOf, type ParkedPose, type Spotting, type Train, type Way, type WayGround } from "@/lib/access";
import type { WayIn, WayShown } from "@/lib/card/way";
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

/** A frame about every so many mm: of drawings, and of what moves. Between two of the latter a bend is a hand's breadth from straight at the most. */
const every = 2500, everyMoment = 500;

/** The best way onto the site and the one from the other side, with posts for a helper, or the nearest try; null where nobody has measured the way in. Some ten to a hundred milliseconds. */
export function findWayIn({ site, rig, pose, policy }: WayAsked): WayIn | null {
  const access = findAccess(site, rig, [pose], policy), ground = wayGroundOf(site);
  if (!access || !ground) return null;
  const { state, barred, unmeasured, leave } = access, train = trainOf(rig);
  const guided = (way: Way | null) => way && shown(ground, train, way, placeSpotters(ground, train, way, policy), policy);
  return { state, barred, unmeasured, leave, scrapes: scrapesOf(site, train, policy.headroom), way: guided(access.way), other: guided(access.other), nearest: access.nearest && shown(ground, train, access.nearest, { posts: [], unseen: [] }, policy) };
}

function shown(ground: WayGround, train: Train, way: Way, spotting: Spotting, policy: Policy): WayShown {
  const { from, sight, room, tightest } = way;
  return { from, sight, room, tightest, gap: nearestOf(tightest, policy), legs: drawWay(train, way, every), film: filmWay(ground, train, way, spotting, policy, everyMoment), spotting, usual: train.assumed.length > 0 };
}
