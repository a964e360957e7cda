import type { Site } from "@/lib/park";
import type { Train } from "./train";

/** Where the rig's lowest part may touch the ground as it rolls over a change of slope. */
export interface Scrape {
  /** The grade break's place on the pad's line, mm. */
  readonly at: number;
  /** Its tail or nose beyond an axle in a dip, its belly between axles on a crest. */
  readonly part: "tail" | "nose" | "belly";
  /** What is left under it at the worst moment, mm; below zero where it digs in. */
  readonly clear: number;
}

/**
 * Every grade break that leaves less than `headroom` under some part of the rig, straight over it. Taken as if the lowest part anywhere hung
 * where it matters most, at the far end of an overhang or midway between axles: so a caution, never a proof. With an axle on the break
 * and the other behind it, ground beyond rises by `change` for each millimetre of overhang; a crest midway under a wheelbase stands
 * a quarter of `change` times that wheelbase above the line between the axles. A trailer stands on its hitch as on an axle.
 */
export function scrapesOf(site: Site, { combination, boxes, rigBody, floor }: Train, headroom: number): Scrape[] {
  const box = boxes[rigBody]![0]!, base = rigBody === 0 ? combination.vehicle.wheelbase : combination.units[0]!.hitchToAxle;
  return (site.approach?.gradeBreaks ?? []).flatMap(({ at, change }): Scrape[] => {
    const steeper = change / 100, under = (rise: number) => floor - rise;
    const parts: Scrape[] = steeper > 0
      ? [{ at, part: "tail", clear: under(steeper * Math.max(0, -box.u0)) }, { at, part: "nose", clear: under(steeper * Math.max(0, box.u1 - base)) }]
      : [{ at, part: "belly", clear: under((-steeper * base) / 4) }];
    return parts.filter(({ clear }) => clear < headroom);
  });
}
