import type { Margins } from "@/lib/park";
import type { SitePoint } from "@/lib/plane";
import type { Drive } from "@/lib/turning";

/** What a park keeps clear, mm; its policy has all of it. */
export interface Keep extends Margins {
  /** A way whose room is at least minus this holds. */
  readonly touch: number;
  /** Half a tire: how far the middle of each stays inside the ground that wheels may roll on. */
  readonly footing: number;
  /** Room beyond this is no better for the driver. */
  readonly comfort: number;
}

/** How the rig stands once it is there; as a pose of a fit. */
export interface ParkedPose {
  readonly x: number;
  readonly y: number;
  readonly heading: "tail-in" | "nose-in";
}

/** Seen by someone who stands on the road and looks onto the site; also on which hand the driver meets the site. */
export type Side = "left" | "right";

/** What comes nearest to what. `part` is "wheels", "body", "hitch" or "vehicle" (the one in front); `other` "ground", or the id of an obstacle, post or height limit. */
export interface Meeting {
  readonly part: "wheels" | "body" | "hitch" | "vehicle" | "tow";
  readonly other: string;
  /** What is left beyond the clearance kept, mm; below zero where it is not kept. */
  readonly room: number;
  /** On the rig, and on the other thing. */
  readonly from: SitePoint;
  readonly to: SitePoint;
}

/** The tightest place of a way. */
export interface Tightest extends Meeting {
  readonly leg: number;
  /** How far along that leg, mm, as driven. */
  readonly along: number;
}

/** One leg of a way. */
export interface Leg {
  /**
   * Which way it is driven. `back`: in reverse onto the site. `in`: forwards onto it. `out`: forwards off a pull-through, at its far end.
   */
  readonly kind: "back" | "in" | "out";
  /** From the front axle's first moment to its last: as driven for `in` and `out`. For `back` the same way driven out forwards, whose end is where backing begins. */
  readonly drive: Drive;
  /** The least room that was met on it, and what is proven of every moment between: nothing is below that. Millimetres. */
  readonly room: number;
  readonly bound: number;
  /** The sharpest bend at a hitch, radians; 0 where nothing is drawn. */
  readonly sharpestBend: number;
  /** How far the front axle runs on road that nobody surveyed, mm. */
  readonly unsurveyed: number;
}

/** A way in, and on a pull-through with a road at its far end the way out of it. */
export interface Way {
  readonly from: Side;
  /** Whether the driver looks at the side that the rig turns towards, or across the rig at its blind one. */
  readonly sight: "sight" | "blind";
  readonly pose: ParkedPose;
  /** Over all legs. */
  readonly room: number;
  readonly bound: number;
  readonly tightest: Tightest;
  readonly legs: readonly Leg[];
}

/** Why no way in can exist: the ids of what bars it; empty where the ground itself does not lead to the pose. */
export interface Barred {
  readonly code: "barred-overhead" | "barred-between" | "no-ground";
  readonly things: readonly string[];
  /** Of every place on the pad, or only of the poses that were asked about. */
  readonly scope: "pad" | "poses";
}

/** How a rig comes onto a site. */
export interface Access {
  /** `found`: a way was found and proven. `not-found`: the family of ways has none, which proves nothing. `no`: none can exist. */
  readonly state: "found" | "not-found" | "no";
  /** The best way, from whichever side. */
  readonly way: Way | null;
  /** The best way from the other side, where it may be driven and one was found. */
  readonly other: Way | null;
  /** Where none was found: the try that came nearest, its room below zero. */
  readonly nearest: Way | null;
  readonly barred: Barred | null;
  /** A pull-through whose way in was found, but none out over its far road. */
  readonly leave: "found" | "not-found" | null;
  /** Height limits that nobody measured: nothing is known of them. */
  readonly unmeasured: readonly string[];
}
