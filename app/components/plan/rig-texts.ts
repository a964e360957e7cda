import type { Heading } from "@/lib/fit/types";
import { isMotorized, type Rig } from "@/lib/rig";
import { catalogueOf } from "@/lib/wording";
import { widthOf } from "./labels";
import { boxAround } from "./paths";
import type { PagePoint, RigShape, TurnedText } from "./types";

/** What is written inside the rig's outline: which end is its front, which side is which, and what it is. */
export function rigTexts(body: readonly PagePoint[], rig: Rig, heading: Heading): Pick<RigShape, "front" | "texts"> {
  const { plan, things } = catalogueOf();
  const box = boxAround(body);
  const frontDown = heading === "tail-in";
  const tip = frontDown ? box.y + box.h - 5 : box.y + 5, back = frontDown ? tip - 9 : tip + 9;
  const middle = box.x + box.w / 2, half = Math.min(13, box.w / 4);
  const texts: TurnedText[] = [];
  const frontText = { text: plan.drawing.front, at: [middle, frontDown ? back - 9 : back + 9] as PagePoint, turn: 0 as const, size: 10.5, strong: false };
  if (widthOf(frontText.text, 10.5) < box.w - 4) texts.push(frontText);
  // Backed in, the front is toward the reader of the page and the rig's left is on the page's right.
  const [onLeft, onRight] = frontDown ? [plan.drawing.curbSide, plan.drawing.roadSide] : [plan.drawing.roadSide, plan.drawing.curbSide];
  const length = box.h - 34, centre = box.y + box.h / 2 + (frontDown ? -14 : 14);
  // Clear of the tires, which stand along the walls.
  const inset = Math.min(13, box.w / 4);
  if (box.w >= 30 && widthOf(plan.drawing.curbSide, 10) < length) {
    texts.push({ text: onLeft, at: [box.x + inset, centre], turn: -90, size: 10, strong: false });
    texts.push({ text: onRight, at: [box.x + box.w - inset, centre], turn: -90, size: 10, strong: false });
  }
  const name = things.rigKinds[rig.kind].toLowerCase();
  if (box.w >= 50 && widthOf(name, 12) < length) texts.push({ text: name, at: [middle, centre], turn: -90, size: 12, strong: true });
  return { front: [[middle - half, back], [middle, tip], [middle + half, back]], texts };
}

export function vehicleText(points: readonly PagePoint[], rig: Rig): TurnedText | null {
  const box = boxAround(points);
  const text = catalogueOf().plan.drawing.vehicle(isMotorized(rig.kind));
  const across = widthOf(text, 11) < box.w - 4;
  if (!across && widthOf(text, 11) > box.h - 4) return null;
  return { text, at: [box.x + box.w / 2, box.y + box.h / 2], turn: across ? 0 : -90, size: 11, strong: true };
}
