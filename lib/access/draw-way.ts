import { degreesFromRadians } from "@/lib/measure";
import type { Point, SitePoint } from "@/lib/plane";
import { defaultTolerances, sweptArea, wheelTracks } from "@/lib/turning";
import { outlineOf } from "./judge";
import type { Train, TrainBox } from "./train";
import type { Leg, Way } from "./types";

/** One moment of a leg, for drawing. */
export interface Frame {
  /** How far the front axle has rolled since the leg began, mm. */
  readonly along: number;
  /** How far the front wheels are turned, and the bends behind them, degrees, to the left above zero. */
  readonly steer: number;
  readonly hitches: readonly number[];
  readonly bodies: readonly { readonly part: TrainBox["part"]; readonly outline: readonly Point[] }[];
}

/** A leg as plain data, in the order in which it is driven. */
export interface DrawnLeg {
  readonly kind: Leg["kind"];
  readonly gear: "forward" | "reverse";
  readonly length: number;
  /** Where the middle of the front axle goes. */
  readonly line: readonly SitePoint[];
  readonly frames: readonly Frame[];
  /** Convex pieces that together are the ground the bodies pass over, and the line of every tire. */
  readonly swept: readonly (readonly SitePoint[])[];
  readonly tracks: readonly (readonly SitePoint[])[];
}

/** How far the drawn ground may stand off the swept one, mm: finer than any plan shows. */
const DRAWN = { ...defaultTolerances, outline: 60 as typeof defaultTolerances.outline };

/** A way as plain data, a frame about every so many millimetres. */
export function drawWay(train: Train, { legs }: Way, every: number): DrawnLeg[] {
  return legs.map(({ kind, drive }) => {
    const length = drive.reached, n = Math.max(1, Math.ceil(length / every)), backwards = kind === "back";
    const frames = Array.from({ length: n + 1 }, (_, i): Frame => {
      const along = (length * i) / n, c = drive.at(backwards ? length - along : along);
      return {
        along, steer: degreesFromRadians(c.steer), hitches: c.hitches.map(degreesFromRadians),
        bodies: c.poses.flatMap((pose, b) => train.boxes[b]!.map((box) => ({ part: box.part, outline: outlineOf(pose, box) }))),
      };
    });
    const bodies = drive.combination.bodies.map((_, b) => b), line = frames.map(({ along }) => drive.path.pointAt(backwards ? length - along : along).at);
    return {
      kind, gear: backwards ? "reverse" : "forward", length, line, frames,
      swept: bodies.flatMap((b) => sweptArea(drive, b, DRAWN).pieces), tracks: bodies.flatMap((b) => wheelTracks(drive, b, DRAWN).map((track) => track.line)),
    };
  });
}
