import { sitePoint, type SitePoint } from "@/lib/plane";
import type { Site } from "@/lib/park";
import { boxesOf, inletAt, type Rig, type RigBox } from "@/lib/rig";
import { place, placeBox } from "./frames";
import type { FitResult, Pose } from "./types";
import { inLineBoxes } from "./vehicle";

/** A box of the rig where it stands, for drawing. */
export interface PlacedBox {
  readonly id: string;
  readonly kind: string;
  readonly outline: readonly SitePoint[];
  /** Out, or staying in because there is no room for it. */
  readonly state: "out" | "left-in";
  readonly from: number;
  readonly to: number;
}

/** Everything of a rig at its pose, in the site frame. */
export interface Layout {
  readonly boxes: readonly PlacedBox[];
  readonly supports: readonly { readonly kind: "tyre" | "jack"; readonly at: SitePoint }[];
  readonly inlets: readonly { readonly kind: string; readonly at: SitePoint }[];
  /** The middle of the body's front wall, where the rig faces. */
  readonly front: SitePoint;
  readonly rear: SitePoint;
  /** The tow vehicle's outline where it stands in line; a stall or overflow has none of its own. */
  readonly vehicle: readonly SitePoint[] | null;
}

/** The rig of a result as it stands, or null where there is no pose. */
export function layOut(site: Site, rig: Rig, result: FitResult): Layout | null {
  return result.pose ? layOutAt(site, rig, result.pose, result) : null;
}

function layOutAt(site: Site, rig: Rig, pose: Pose, { leftIn, vehicle }: FitResult): Layout {
  const boxes = boxesOf(rig);
  const placed = boxes.map((box): PlacedBox => ({
    id: box.id, kind: box.kind, outline: placeBox(pose, box), state: leftIn.includes(box.id) ? "left-in" : "out", from: box.from, to: box.to,
  }));
  return {
    boxes: placed,
    supports: rig.supports.map(({ kind, at: [u, v] }) => ({ kind, at: place(pose, u, v) })),
    inlets: rig.inlets.map((inlet) => {
      const [u, v] = inletAt(rig, inlet);
      return { kind: inlet.kind, at: place(pose, u, v) };
    }),
    front: place(pose, rig.body.length, 0),
    rear: place(pose, 0, 0),
    vehicle: vehicle === "in line" ? inLineOutline(site, rig, pose, boxes.filter((b) => !leftIn.includes(b.id))) : null,
  };
}

/** On a pull-through the vehicle may stand at either end; drawn where it lies on the pad. */
function inLineOutline(site: Site, rig: Rig, pose: Pose, boxes: readonly RigBox[]): SitePoint[] {
  const xs = site.pad.outline.map(([x]) => x);
  const middle = (Math.min(...xs) + Math.max(...xs)) / 2;
  const outlines = inLineBoxes(site, rig, pose.heading, boxes).map((box) => placeBox(pose, box));
  const off = (outline: readonly SitePoint[]) => Math.max(...outline.map(([x]) => Math.abs(x - middle)));
  return [...outlines].sort((a, b) => off(a) - off(b))[0] ?? [sitePoint(0, 0)];
}
