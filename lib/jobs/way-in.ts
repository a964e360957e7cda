import type { WayIn } from "@/lib/card/way";
import type { WayAsked } from "./find-way-in";
import { DEFAULT_TIME_LIMIT, stopAfter, threads } from "./threads";

/** How a rig comes onto a site to stand at a pose, worked out on a worker thread; null where nobody has measured the way in. */
export async function wayIn(asked: WayAsked): Promise<WayIn | null> {
  if (!asked.site.approach) return null;
  const stop = stopAfter(DEFAULT_TIME_LIMIT, undefined, "Looking for a way in");
  try {
    return (await threads().run(asked, { name: "findWayIn", signal: stop.signal })) as WayIn | null;
  } catch (error) {
    throw stop.explain(error);
  }
}
