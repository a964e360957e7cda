import type { Site } from "@/lib/park";
import { catalogueOf, siteThing } from "@/lib/wording";
import { wayIn as words } from "@/lib/wording/en/way-in";

/** What a thing on the way in is called in a sentence: the edge of the ground, something of the site, or a limit to height. */
export function nameOnWay(id: string, site: Site): string {
  if (id === "ground") return words.ground;
  const thing = siteThing(id, site), limit = site.approach?.heightLimits.find((one) => one.id === id);
  return thing ? catalogueOf().things.full(thing) : limit ? words.theLimit(limit.kind) : id;
}
