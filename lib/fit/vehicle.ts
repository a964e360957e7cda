import { Envelope, boundsOf, type Box, type Element, type Point } from "@/lib/plane";
import { enclosureOf, type Site } from "@/lib/park";
import type { Rig, RigBox } from "@/lib/rig";
import { maximise } from "@/lib/search";
import { apart, keptClear, onSiteSide, within, type Setting } from "./constraints";
import { offsetsOf } from "./form";
import { facing } from "./frames";
import { envelopeLandscape, Workspace } from "./landscapes";
import type { Policy } from "./policy";
import type { Heading } from "./types";

/** A vehicle that stays on the site stands this far ahead of or behind the rig, mm. */
export const IN_LINE_GAP = 300;

/** Where a vehicle could stand in line with the rig, as offsets in the rig frame, and what has to hold there. */
export interface InLine {
  readonly box: RigBox;
  readonly elements: readonly Element[];
}

/** The boxes a vehicle could stand in: at the road end on a back-in, at either end on a pull-through. */
export function inLineBoxes(site: Site, rig: Rig, heading: Heading, boxes: readonly RigBox[]): RigBox[] {
  const { tow } = rig;
  if (tow?.stays !== "on-site") return [];
  const ahead = Math.max(...boxes.map((b) => b.u1)) + IN_LINE_GAP;
  const behind = Math.min(...boxes.map((b) => b.u0)) - IN_LINE_GAP - tow.length;
  const frontToRoad = facing(heading) === -1;
  const ends = site.entry === "pull-through" ? [ahead, behind] : [frontToRoad ? ahead : behind];
  return ends.map((u0) => ({ id: "vehicle", kind: "vehicle", u0, u1: u0 + tow.length, v0: -tow.width / 2, v1: tow.width / 2, from: 0, to: tow.height, need: "must" }));
}

/** Those boxes at one heading, each with what has to hold there. */
export function placesInLine(setting: Setting, heading: Heading, boxes: readonly RigBox[]): InLine[] {
  const { terrain, form, policy } = setting;
  return inLineBoxes(terrain.site, form.rig, heading, boxes).map((box) => {
    const offsets = offsetsOf(box, heading);
    const { x0, x1, y0, y1 } = offsets;
    const corners: Box[] = [{ x0, x1: x0, y0, y1: y0 }, { x0: x1, x1, y0, y1: y0 }, { x0: x1, x1, y0: y1, y1 }, { x0, x1: x0, y0: y1, y1 }];
    const clear = terrain.barriers.flatMap(({ solids }) =>
      solids.flatMap((solid) => (keptClear({ policy, rise: 0 }, box, solid) === null ? [] : apart(solid.footprint, offsets, policy.clearance))),
    );
    return { box, elements: [...within(terrain.pad, corners, 0), ...onSiteSide(terrain.roads, [offsets], 0), ...clear] };
  });
}

/** The first stall that takes the vehicle along its longer side, within the touch tolerance, or null. */
export function stallFor(site: Site, rig: Rig, policy: Policy): string | null {
  const { tow } = rig;
  if (tow?.stays !== "on-site") return null;
  return site.parking?.find((stall) => takes(stall.outline, tow.length, tow.width, policy.touch))?.id ?? null;
}

function takes(outline: Site["pad"]["outline"], length: number, width: number, touch: number): boolean {
  const turned = alongLongestSide(outline);
  const elements = within(enclosureOf(turned), [{ x0: 0, x1: length, y0: 0, y1: width }], 0);
  const { minX, minY, maxX, maxY } = boundsOf(turned);
  const domain = { minX: Math.min(minX, maxX - length), maxX: Math.max(minX, maxX - length), minY: Math.min(minY, maxY - width), maxY: Math.max(minY, maxY - width) };
  const search = maximise(domain, envelopeLandscape(new Envelope(elements), new Workspace(), Infinity), {
    gap: touch / 2, resolution: touch / 4, target: 0, floor: -touch, budget: 5000,
  });
  return search.best !== null && search.best.value >= -touch;
}

/** The outline turned so that its longest side lies along x. */
function alongLongestSide(outline: readonly Point[]): Point[] {
  let longest = 0, cos = 1, sin = 0;
  outline.forEach(([ax, ay], i) => {
    const [bx, by] = outline[(i + 1) % outline.length]!;
    const len = Math.hypot(bx - ax, by - ay);
    if (len > longest) { longest = len; cos = (bx - ax) / len; sin = (by - ay) / len; }
  });
  return outline.map(([x, y]) => [x * cos + y * sin, y * cos - x * sin] as const);
}
