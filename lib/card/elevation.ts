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
  /** Where a trailer's jack stands, which raises and lowers its front; null where blocks under tires do it. */
  readonly jack: number | null;
  readonly low: "left" | "right" | "front" | "rear";
  readonly lift: number;
}

/** On either side of the rig, mm. */
const margin = 900;

/** The elevations a card shows: only of what has to be leveled. */
export function elevationsOf(site: Site, rig: Rig, { pose, side, along, levelsBy }: SetUp): Elevation[] {
  const ground = groundPlane(site.ground), { length, width, floor, height } = rig.body;
  const facesOut = pose.heading === "tail-in";
  const tires = rig.supports.filter(({ kind }) => kind === "tyre").map(({ at }) => at);
  // From behind, the rig's left is the picture's left; from the left side, its front is.
  const leftToRight = facesOut ? ground.acrossGradient : -ground.acrossGradient;
  const frontToRear = facesOut ? ground.alongGradient : -ground.alongGradient;
  const across = width + 2 * margin, foremost = Math.max(...rig.supports.map(({ at: [u] }) => u)), lengthwise = Math.max(length, foremost) + 2 * margin;
  return [
    ...(side ? [{ seen: "from-behind" as const, width: across, rise: leftToRight * across, body: { from: margin, to: margin + width, floor, height }, tires: places(tires.map(([, v]) => margin + width / 2 - v)), jack: null, low: side.low, lift: side.lift }] : []),
    ...(along ? [{ seen: "from-left" as const, width: lengthwise, rise: frontToRear * lengthwise, body: { from: lengthwise - margin - length, to: lengthwise - margin, floor, height }, tires: places(tires.map(([u]) => lengthwise - margin - u)), jack: (levelsBy === "jack" || levelsBy === "legs") && foremost > Math.max(...tires.map(([u]) => u)) ? lengthwise - margin - foremost : null, low: along.low, lift: along.lift }] : []),
  ];
}

function places(all: readonly number[]): number[] {
  return [...new Set(all)].sort((a, b) => a - b);
}

/** Slopes are drawn this much steeper than they are: a slope that tips a rig is hardly seen to scale. */
export const steeper = 3;
/** A tire's radius as drawn, and the air above the roof, mm. */
const tire = 330, air = 500;

interface Rectangle {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** An elevation as shapes, mm from the upper left corner of a picture `width` by `height`: the rig level at the height of the tire that stands highest, the slope drawn {@link steeper}. */
export interface ElevationShapes {
  readonly width: number;
  readonly height: number;
  readonly body: Rectangle;
  readonly tires: readonly { readonly at: readonly [number, number]; readonly radius: number }[];
  /** What is laid under the low side's tire, or what the jack makes up; null where nothing is. */
  readonly block: Rectangle | null;
  /** The jack's post and the tongue that it carries; null where blocks do it. */
  readonly jack: readonly [Rectangle, Rectangle] | null;
  readonly ground: readonly [readonly [number, number], readonly [number, number]];
  /** Where along the picture the lift is told. */
  readonly liftAt: number;
}

export function elevationShapes({ width, rise, body, tires, jack, low }: Elevation): ElevationShapes {
  const fall = steeper * rise, level = body.height + air + Math.max(0, fall), groundAt = (x: number) => level - (x / width) * fall;
  const floorLine = jack === null ? Math.min(...tires.map(groundAt)) : groundAt((tires[0]! + tires.at(-1)!) / 2);
  const lowAt = jack ?? (low === "left" || low === "front" ? tires[0]! : tires.at(-1)!), gap = groundAt(lowAt) - floorLine, wide = jack === null ? tire : tire / 3;
  const tongue = floorLine - body.floor;
  return {
    width, height: level + Math.max(0, -fall), liftAt: lowAt,
    body: { x: body.from, y: floorLine - body.height, width: body.to - body.from, height: body.height - body.floor },
    tires: tires.map((x) => ({ at: [x, floorLine - tire] as const, radius: tire })),
    block: gap > 1 ? { x: lowAt - wide, y: floorLine, width: 2 * wide, height: gap } : null,
    jack: jack === null ? null : [
      { x: jack - 40, y: tongue - 250, width: 80, height: Math.min(floorLine, groundAt(jack)) - tongue + 250 },
      { x: Math.min(jack, body.from), y: tongue - 120, width: Math.max(0, body.from - jack), height: 120 },
    ],
    ground: [[0, groundAt(0)], [width, groundAt(width)]],
  };
}
