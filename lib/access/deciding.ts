import type { Site } from "@/lib/park";
import type { AssumedField, Rig } from "@/lib/rig";
import { findAccess } from "./find-access";
import { trainOf } from "./train";
import type { Access, Keep, ParkedPose } from "./types";

/** A number of the vehicle that nobody has told and on which it hangs whether there is a way in. */
export interface AccessAsk {
  /** Such as `rig.drive.turningCircle`. */
  readonly field: string;
  /** About where the answer turns, mm or degrees, and what it is on either side. */
  readonly turnsAt: number;
  readonly below: Access["state"];
  readonly above: Access["state"];
}

/** The turning value is halved so often between the ends of what is usual: to a few centimetres, or a third of a degree. */
const HALVINGS = 6;

/** Whatever is driven by one that turns wider, or bends less, is driven by one that turns tighter or bends further too: a search that found otherwise only missed a way. */
const EASIER: Partial<Record<AssumedField, "below" | "above">> = { turningCircle: "below", maxHitchAngle: "above" };

/** Which of a rig's usual numbers decide. Each is looked at alone, at both ends of what is usual; what decides nothing is not asked for. */
export function decidingNumbers(site: Site, rig: Rig, poses: readonly ParkedPose[], keep: Keep): AccessAsk[] {
  const stateWith = (field: AssumedField, value: number) => findAccess(site, rig, poses, keep, { [field]: value })?.state ?? null;
  return trainOf(rig).assumed.flatMap(({ field, min, max }): AccessAsk[] => {
    const below = stateWith(field, min), above = stateWith(field, max);
    if (below === null || above === null || below === above || (EASIER[field] === "below" ? below !== "found" : EASIER[field] === "above" && above !== "found")) return [];
    let low = min, high = max;
    for (let i = 0; i < HALVINGS; i++) {
      const middle = (low + high) / 2;
      if (stateWith(field, middle) === below) low = middle;
      else high = middle;
    }
    return [{ field: `rig.drive.${field}`, turnsAt: Math.round((low + high) / 2), below, above }];
  });
}
