import { boxesOf, spreadOf, type Rig, type RigBox, type Spread } from "@/lib/rig";
import type { Box } from "@/lib/plane";
import { facing } from "./frames";
import type { Heading } from "./types";

/** A rig made ready for placing: its solids once, its footprint offsets for each heading. */
export interface RigForm {
  readonly rig: Rig;
  readonly boxes: readonly RigBox[];
  readonly spread: Spread;
}

export function formOf(rig: Rig): RigForm {
  return { rig, boxes: boxesOf(rig), spread: spreadOf(rig) };
}

/** A rig footprint as offsets from the pose, in the site frame. */
export function offsetsOf({ u0, u1, v0, v1 }: Pick<RigBox, "u0" | "u1" | "v0" | "v1">, heading: Heading): Box {
  return facing(heading) === 1 ? { x0: u0, x1: u1, y0: v0, y1: v1 } : { x0: -u1, x1: -u0, y0: -v1, y1: -v0 };
}
