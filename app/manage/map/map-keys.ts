import type { Units } from "@/lib/measure";
import { movePlace, turnPlace, type Place } from "@/lib/park/edit/place";
import { STEP } from "./map-steps";

interface Pressed {
  readonly key: string;
  readonly shiftKey: boolean;
  readonly altKey: boolean;
}

/** Comma and period turn a site. Null: another key. */
export function turnedBy(place: Place, { key, shiftKey, altKey }: Pressed): Place | null {
  const turn = shiftKey ? 15 : altKey ? 0.1 : 1;
  if (key === "," || key === "<") return turnPlace(place, place.bearing - turn);
  if (key === "." || key === ">") return turnPlace(place, place.bearing + turn);
  return null;
}

/** Arrow keys move a site: up is north. Null: another key. */
export function movedByKey(place: Place, { key, shiftKey, altKey }: Pressed, units: Units): Place | null {
  const { step, big, fine } = STEP[units], by = Math.round(shiftKey ? big : altKey ? fine : step);
  const way = ({ ArrowUp: [0, 1], ArrowDown: [0, -1], ArrowRight: [1, 0], ArrowLeft: [-1, 0] } as const)[key as "ArrowUp"];
  return way ? movePlace(place, [place.east + way[0] * by, place.north + way[1] * by]) : null;
}
