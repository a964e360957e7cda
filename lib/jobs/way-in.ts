import type { AccessAsk } from "@/lib/access";
import type { WayIn } from "@/lib/card/way";
import { contentKey } from "./content-key";
import type { WayAsked } from "./find-way-in";
import { keptAnswers } from "./kept-answers";
import { DEFAULT_TIME_LIMIT, stopAfter, threads } from "./threads";

/** How a rig comes onto a site to stand at a pose, worked out on a worker thread, once; null where nobody has measured the way in. */
export async function wayIn(asked: WayAsked): Promise<WayIn | null> {
  if (!asked.site.approach) return null;
  const { ways } = keptAnswers(), key = keyOf(asked), known = ways.get(key);
  if (known) return known;
  const way = await onThread<WayIn | null>("findWayIn", asked);
  if (way) ways.set(key, way);
  return way;
}

/** Which numbers of the vehicle that steers, told by nobody, decide whether there is a way in; worked out on a worker thread, once. */
export async function wayAsks(asked: WayAsked): Promise<readonly AccessAsk[]> {
  if (!asked.site.approach) return [];
  const { wayAsks: kept } = keptAnswers(), key = keyOf(asked), known = kept.get(key);
  if (known) return known;
  const asks = await onThread<readonly AccessAsk[]>("findWayAsks", asked);
  kept.set(key, asks);
  return asks;
}

function keyOf({ site, rig, pose, policy }: WayAsked): string {
  return [site, rig, pose, policy].map(contentKey).join(" ");
}

async function onThread<T>(name: string, asked: WayAsked): Promise<T> {
  const stop = stopAfter(DEFAULT_TIME_LIMIT, undefined, "Looking for a way in");
  try {
    return (await threads().run(asked, { name, signal: stop.signal })) as T;
  } catch (error) {
    throw stop.explain(error);
  }
}
