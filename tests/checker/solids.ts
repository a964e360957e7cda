import { isMotorized, type Rig } from "@/lib/rig/schema";
import type { Pose } from "@/lib/fit/types";
import type { P, Rect } from "./geometry";

/** Something the rig has that stands on or above the ground: a box in the rig frame. */
export interface Solid {
  readonly id: string;
  /** `body`, `hitch`, `tow` or the part's own kind. */
  readonly kind: string;
  readonly must: boolean;
  readonly u: readonly [number, number];
  readonly v: readonly [number, number];
  readonly from: number;
  readonly to: number;
}

/** Body, hitch, hitched vehicle, must parts, and those nice parts whose ids are in force. */
export function solidsInForce(rig: Rig, nice: readonly string[]): Solid[] {
  const { body, hitch, tow } = rig;
  const half = body.width / 2;
  const all: Solid[] = [{ id: "body", kind: "body", must: true, u: [0, body.length], v: [-half, half], from: body.floor, to: body.height }];
  if (hitch) {
    const { length, width, from, to } = hitch;
    all.push({ id: "hitch", kind: "hitch", must: true, u: [body.length, body.length + length], v: [-width / 2, width / 2], from, to });
  }
  if (tow?.stays === "hitched") {
    all.push({ id: "tow", kind: "tow", must: true, u: hitchedSpan(rig), v: [-tow.width / 2, tow.width / 2], from: 0, to: tow.height });
  }
  for (const part of rig.parts) {
    if (part.need === "nice" && !nice.includes(part.id)) continue;
    const { id, kind, from, to } = part;
    all.push({ id, kind, must: part.need === "must", ...partBox(rig, part), from, to });
  }
  return all;
}

/** A rig point in the site frame. */
export function at(pose: Pose, u: number, v: number): P {
  return pose.heading === "tail-in" ? [pose.x - u, pose.y - v] : [pose.x + u, pose.y + v];
}

/** A box's footprint in the site frame. */
export function footprint(pose: Pose, box: Pick<Solid, "u" | "v">): Rect {
  const a = at(pose, box.u[0], box.v[0]), b = at(pose, box.u[1], box.v[1]);
  return { x0: Math.min(a[0], b[0]), x1: Math.max(a[0], b[0]), y0: Math.min(a[1], b[1]), y1: Math.max(a[1], b[1]) };
}

export function hitchLength(rig: Rig): number {
  return rig.hitch?.length ?? 0;
}

function partBox(rig: Rig, part: Rig["parts"][number]): Pick<Solid, "u" | "v"> {
  const half = rig.body.width / 2, { length } = rig.body, { span, depth } = part;
  switch (part.side) {
    case "left": return { u: span, v: [half, half + depth] };
    case "right": return { u: span, v: [-half - depth, -half] };
    case "rear": return { u: [-depth, 0], v: span };
    case "front": return { u: [length, length + depth], v: span };
  }
}

/** A trailer's tow vehicle stands ahead of it; a motorized rig tows its car behind. */
function hitchedSpan(rig: Rig): [number, number] {
  const overlap = rig.tow?.overlap ?? 0, length = rig.tow?.length ?? 0;
  if (isMotorized(rig.kind)) return [overlap - length, overlap];
  const start = rig.body.length + hitchLength(rig) - overlap;
  return [start, start + length];
}
