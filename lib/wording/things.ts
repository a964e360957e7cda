import type { Hookup, Obstacle, Site } from "@/lib/park";
import { isMotorized, type Rig, type RigPart } from "@/lib/rig";
import type { Service } from "@/lib/fit/types";

/** Something a sentence can name, found from the id that the data carries. A language turns it into a name. */
export type Thing =
  | { readonly type: "rig" | "ground" | "body" | "hitch" | "supports" | "pad" | "road" | "lot" }
  | { readonly type: "vehicle"; readonly towed: boolean }
  | { readonly type: "part"; readonly part: RigPart }
  | { readonly type: "obstacle"; readonly obstacle: Obstacle; readonly alone: boolean }
  | { readonly type: "hookup"; readonly hookup: Hookup; readonly alone: boolean }
  | { readonly type: "stall"; readonly id: string; readonly alone: boolean }
  | { readonly type: "service"; readonly service: Service }
  | { readonly type: "other"; readonly id: string };

const PLACES = ["rig", "ground", "body", "hitch", "supports", "pad", "road", "lot"] as const;
const SERVICES: readonly string[] = ["power", "water", "sewer"];

/** The thing that an id of the rig stands for: `body`, `hitch`, `tow`, `supports` or a part. */
export function rigThing(id: string, rig: Rig): Thing | null {
  if (id === "tow") return vehicleOf(rig);
  const part = rig.parts.find((p) => p.id === id);
  if (part) return { type: "part", part };
  return place(id);
}

/** The thing that an id of the site stands for: an obstacle, a hookup, a stall, or the edge of pad, lot or road. */
export function siteThing(id: string, site: Site): Thing | null {
  const obstacle = site.obstacles.find((o) => o.id === id);
  if (obstacle) return { type: "obstacle", obstacle, alone: site.obstacles.filter((o) => o.kind === obstacle.kind).length === 1 };
  const hookup = site.hookups.find((h) => h.id === id);
  if (hookup) return { type: "hookup", hookup, alone: site.hookups.filter((h) => h.kind === hookup.kind).length === 1 };
  const stall = site.parking?.find((p) => p.id === id);
  if (stall) return { type: "stall", id, alone: site.parking?.length === 1 };
  return place(id);
}

/**
 * The two things a reason is about. The first is the rig's where an id could be either's: a part and an obstacle may
 * share one.
 */
export function thingsOf(parts: readonly string[], site: Site, rig: Rig): Thing[] {
  return parts.map((id, i) => {
    const found = i === 0 ? (rigThing(id, rig) ?? siteThing(id, site)) : (siteThing(id, site) ?? rigThing(id, rig));
    if (found) return found;
    return SERVICES.includes(id) ? { type: "service", service: id as Service } : { type: "other", id };
  });
}

export function vehicleOf(rig: Rig): Thing {
  return { type: "vehicle", towed: isMotorized(rig.kind) };
}

function place(id: string): Thing | null {
  return (PLACES as readonly string[]).includes(id) ? { type: id as (typeof PLACES)[number] } : null;
}
