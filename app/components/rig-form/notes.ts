import type { Units } from "@/lib/measure";
import { lengthClassesOf, type Rig } from "@/lib/rig";
import { catalogueOf, formatLength } from "@/lib/wording";
import type { Field, What } from "./fields";

/** Outside of these a number is possible but rare: it is asked about, not refused. Common practice, millimetres. */
const USUAL: Readonly<Partial<Record<What, readonly [least: number, most: number]>>> = {
  hitch: [150, 2000],
  width: [1676.4, 2590.8],
  // A person stands up in nothing lower than 6 ft; 13 ft 6 in is what most roads take.
  height: [1828.8, 4114.8],
  floor: [100, 900],
  depth: [150, 3200],
  inletHeight: [150, 1500],
  powerCord: [3000, 30_000],
  waterHose: [2000, 30_000],
  sewerHose: [1000, 9200],
  liftSide: [0, 300],
  liftAlong: [0, 600],
  towLength: [3000, 7500],
  turningCircle: [9000, 22_000],
  wheelbase: [2300, 5000],
  hitchBehind: [800, 2200],
};

/** How far outside its classes a length of a kind is still nothing to ask about. */
const BEYOND = { shorter: 0.8, longer: 1.12 };

/** What is asked about, by field. `values` are the numbers that were typed, by field. */
export function notesOn(kind: Rig["kind"], fields: readonly Field[], values: Readonly<Record<string, number>>, units: Units): Record<string, string> {
  const { notes: words } = catalogueOf().guestRig;
  const notes: Record<string, string> = {};
  for (const { input, what } of fields) {
    const value = values[input], usual = what === "length" ? usualLengths(kind) : USUAL[what];
    // Nothing at all is an answer: there is no such hose, nothing to lift with.
    if (value === undefined || value === 0 || !usual) continue;
    if (value < usual[0]) notes[input] = words.small(what, formatLength(usual[0], units, "nearest"));
    if (value > usual[1]) notes[input] = words.large(what, formatLength(usual[1], units, "nearest"));
  }
  return notes;
}

function usualLengths(kind: Rig["kind"]): readonly [number, number] {
  const classes = lengthClassesOf(kind);
  return [classes[0]! * BEYOND.shorter, classes.at(-1)! * BEYOND.longer];
}
