import type { Access, DrawnLeg, FilmedWay, Nearest, Scrape, Spotting, Way } from "@/lib/access";

/** How a rig comes onto a site, as plain data for words and drawings. */
export interface WayIn extends Pick<Access, "state" | "barred" | "unmeasured"> {
  readonly way: WayShown | null;
  /** The best way from the other side, where there is one. */
  readonly other: WayShown | null;
  /** Where none was found: the try that came nearest, without posts. */
  readonly nearest: WayShown | null;
  /** A pull-through whose way in was found, but none out over its far road; null where that is no question. */
  readonly leave: Access["leave"];
  /** Where its lowest part may touch the ground at a measured change of slope. */
  readonly scrapes: readonly Scrape[];
}

export interface WayShown extends Pick<Way, "from" | "sight" | "room" | "tightest"> {
  readonly legs: readonly DrawnLeg[];
  readonly film: FilmedWay;
  /** The tightest place with the gap that a tape would show there. */
  readonly gap: Nearest;
  readonly spotting: Spotting;
  /** Some of what was taken for the vehicle that steers is the usual number, not this one's. */
  readonly usual: boolean;
}
