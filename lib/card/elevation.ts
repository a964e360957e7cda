import { groundPlane, type Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import type { SetUp } from "./set-up";

/** A rig on sloping ground, seen level: what has to be raised, and by how much. Lengths in mm, heights up. */
export interface Elevation {
  readonly seen: "from-behind" | "from-left";
  /** The ground's line from the left of the picture to its right, at the picture's own scale. */
  readonly width: number;
  readonly rise: number;
  readonly body: { readonly from: number; readonly to: number; readonly floor: number; readonly height: number };
  /** Places of the tires along the picture, from its left. */
  readonly tires: readonly number[];
  readonly low: "left" | "right" | "front" | "rear";
  readonly lift: number;
}

/** On either side of the rig, mm. */
const margin = 900;

/** The elevations a card shows: only of what has to be leveled. */
export function elevationsOf(site: Site, rig: Rig, { pose, side, along }: SetUp): Elevation[] {
  const ground = groundPlane(site.ground), { length, width, floor, height } = rig.body;
  const facesOut = pose.heading === "tail-in";
  const tires = rig.supports.filter(({ kind }) => kind === "tyre").map(({ at }) => at);
  // From behind, the rig's left is the picture's left; from the left side, its front is.
  const leftToRight = facesOut ? ground.acrossGradient : -ground.acrossGradient;
  const frontToRear = facesOut ? ground.alongGradient : -ground.alongGradient;
  const across = width + 2 * margin, lengthwise = length + 2 * margin;
  return [
    ...(side ? [{ seen: "from-behind" as const, width: across, rise: leftToRight * across, body: { from: margin, to: margin + width, floor, height }, tires: places(tires.map(([, v]) => margin + width / 2 - v)), low: side.low, lift: side.lift }] : []),
    ...(along ? [{ seen: "from-left" as const, width: lengthwise, rise: frontToRear * lengthwise, body: { from: margin, to: margin + length, floor, height }, tires: places(tires.map(([u]) => margin + length - u)), low: along.low, lift: along.lift }] : []),
  ];
}

function places(all: readonly number[]): number[] {
  return [...new Set(all)].sort((a, b) => a - b);
}
