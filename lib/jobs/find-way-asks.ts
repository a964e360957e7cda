import { decidingNumbers, type AccessAsk } from "@/lib/access";
import type { WayAsked } from "./find-way-in";

/** What of the vehicle that steers nobody has told, and the way in hangs on. Some ten ways' worth of work; nothing where the way in is not measured. */
export function findWayAsks({ site, rig, pose, policy }: WayAsked): readonly AccessAsk[] {
  return site.approach ? decidingNumbers(site, rig, [pose], policy) : [];
}
