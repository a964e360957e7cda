import type { Access, DrawnLeg, Spotting, Way } from "@/lib/access";

/** A way onto a site as plain data, for words and drawings. */
export interface WayIn extends Pick<Access, "state" | "barred" | "unmeasured"> {
  readonly way: WayShown | null;
}

export interface WayShown extends Pick<Way, "from" | "sight" | "room" | "tightest"> {
  readonly legs: readonly DrawnLeg[];
  readonly spotting: Spotting;
  /** Some of what was taken for the vehicle that steers is the usual number, not this one's. */
  readonly usual: boolean;
}
