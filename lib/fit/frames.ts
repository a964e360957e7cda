import { sitePoint, type SitePoint } from "@/lib/plane";
import type { RigBox } from "@/lib/rig";
import type { Heading, Pose } from "./types";

/** +1 where the rig faces into the site (nose-in), -1 where it faces the road (tail-in). */
export function facing(heading: Heading): 1 | -1 {
  return heading === "nose-in" ? 1 : -1;
}

/** A rig point in the site frame. Tail-in: (x - u, y - v); nose-in: (x + u, y + v). */
export function place(pose: Pose, u: number, v: number): SitePoint {
  const s = facing(pose.heading);
  return sitePoint(pose.x + s * u, pose.y + s * v);
}

/** A box's four corners in the site frame, in order around it. */
export function placeBox(pose: Pose, box: Pick<RigBox, "u0" | "u1" | "v0" | "v1">): SitePoint[] {
  return [place(pose, box.u0, box.v0), place(pose, box.u1, box.v0), place(pose, box.u1, box.v1), place(pose, box.u0, box.v1)];
}
