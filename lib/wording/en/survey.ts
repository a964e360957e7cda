import type { Verdict } from "@/lib/fit/types";
import type { SurveyCode } from "@/lib/survey/types";
import { cap, list } from "./text";
import type { Thing } from "../things";
import { things } from "./things";

/** What a note of the survey is told with: names of what to measure again, already in words, and by how much it does not come together. */
export interface SurveyTelling {
  readonly again: readonly string[];
  /** Rounded up, in the reader's units; empty where there is no such number. */
  readonly by: string;
}

/** What went wrong with measurements, or is to be minded, and what to measure again. */
export const surveyNotes: Readonly<Record<SurveyCode, (telling: SurveyTelling) => string>> = {
  "tapes:too-few": () => "One tape is not enough to place a thing. Measure to it from a second point as well.",
  "tapes:one-place": () => "Both tapes start at the same place. Measure from a second point, a few steps away from the first.",
  "tapes:apart": ({ again, by }) => `The tapes do not reach each other: ${by} is missing between ${both(again)}. Measure both again.`,
  "tapes:inside": ({ again, by }) => `The tapes cannot meet: of ${both(again)}, one is ${by} too long or the other too short. Measure both again.`,
  "tapes:which-side": ({ again }) => `Say on which side of the line from ${both(again, "to")} it stands. If you did, check it: the tapes may say the other side.`,
  "tapes:in-line": ({ again }) => `It stands almost on the line through ${both(again)}, so the tapes cannot place it. Measure from a point off to one side as well.`,
  "tapes:weak": ({ by }) => `The tapes cross at a sharp angle, so it may stand ${by} off. Measure from one more point, off to the side.`,
  "tapes:disagree": ({ again, by }) => (again.length === 1
    ? `The tape ${again[0]} disagrees with the others by ${by}. Measure it again.`
    : `The tapes disagree by ${by}, and one of ${list(again)} is wrong. Measure them again, or add one more.`),
  "tapes:unsettled": ({ again }) => `These tapes do not settle on a place. Measure again, starting with ${both(again)}.`,
  "ring:too-few": ({ again }) => `Not all of the sides are measured. Still to do: ${list(again)}.`,
  "ring:no-corner": ({ again }) => `There is no such corner: check ${list(again)}.`,
  "ring:open": ({ again, by }) => `The outline cannot close: side ${again[0]} is longer than all the others together, by ${by}. Measure it again.`,
  "ring:triangle": ({ again, by }) => `${cap(list(again))} make no triangle: the first is ${by} too long. Measure the three again.`,
  "ring:loose": ({ again }) => `The sides alone can still lean. Measure a diagonal as well: ${again[0]}.`,
  "ring:flat": ({ again }) => (again.length > 0 ? `${cap(list(again))} lie almost in line, so they cannot place the corner. Measure another diagonal to it.` : "Some corners lie almost in line. Measure one more diagonal."),
  "ring:disagree": ({ again, by }) => (again.length === 1
    ? `The outline does not close: ${again[0]} is ${by} off from what the others say. Measure it again.`
    : `The outline does not close by ${by}, and one of ${list(again)} is wrong. Measure them again.`),
  "ring:crossed": () => "These sides and diagonals make an outline that crosses itself. Check the order of the corners, and which ones point inward.",
  "ring:unsettled": () => "These sides and diagonals do not settle on an outline. Measure the diagonals again.",
  "offsets:one-place": ({ again }) => `${cap(both(again))} are the same place. Choose two points a few steps apart.`,
  "ground:in-line": () => "These spots lie in one line. Take one more height off to the side.",
  "ground:weak": () => "These spots are too close together to tell the slope well. Take heights at the far corners of the pad.",
  "ground:uneven": ({ again, by }) => `The ground is uneven: ${again.map(spotName).join("")} lies ${by} off the plane through the others. Check that height; if it is right, the slope is only an average.`,
  "angle:below": () => "The top comes out below the ground. Check both angles: up is above zero, down is below.",
  "angle:steep": () => "You stand too close: from there a small slip of the angle is a big one in height. Step back until you look up less steeply.",
  "angle:short": () => "Add the height of your eye, or the angle down to the ground below it.",
  "chain:unknown": ({ again }) => `It was measured from something that is no longer on the site: ${list(again)}. Measure it again from what is there.`,
  "chain:circle": () => "These things were measured only from each other. Measure one of them from the pad.",
  "chain:moved": ({ again, by }) => `Measured from it, so they move along, by up to ${by}: ${list(again)}.`,
  "chain:left": ({ again }) => `Measured from it, but the tapes no longer meet: ${list(again)}. They stay where they are; measure them again.`,
  "chain:long": () => "Too many points hang on each other. Measure this one from the pad.",
};

function both(names: readonly string[], word = "and"): string {
  return names.join(` ${word} `);
}

function spotName(spot: string): string {
  return `spot ${Number(spot) + 1}`;
}

const OUTCOMES: Readonly<Record<Verdict, string>> = {
  fits: "it fits", gear: "it fits with extra gear", no: "it does not fit", ask: "it hangs on something else", unsettled: "it is not settled",
};

/** Where a number of the site's own survey decides: what the park has to measure again, and where the answer turns. */
export const surveyAsk = {
  again: (what: string, value: string, below: Verdict, above: Verdict) =>
    `This site’s own measurement is too rough to tell. The park has to measure again ${what}. ${cap(`under ${value} ${OUTCOMES[below]}; above, ${OUTCOMES[above]}.`)}`,
  /** `far` is where the thing lies: in along the pad's line or out before its front edge, or to either side of that line. */
  place: (far: "in" | "out" | "left" | "right", named: string) =>
    (far === "in" || far === "out" ? `from the pad’s front edge ${far === "in" ? "in" : "out"} to ${named}` : `from the pad’s center line to the ${far} to ${named}`),
  middle: (thing: Thing) => things.full(thing),
  corner: (number: number, thing: Thing) => `corner ${number} of ${things.full(thing)}`,
  edge: (far: boolean) => (far ? "the edge of the road at the far end" : "the edge of the road"),
  groundAt: (lower: boolean, thing: Thing) => `how far the ground at ${things.full(thing)} lies ${lower ? "below" : "above"} the pad`,
  pressure: (thing: Thing) => `the water pressure at ${things.full(thing)}`,
  post: (height: boolean, thing: Thing) => (height ? `from the ground to the top of ${things.full(thing)}` : `half the width of the post of ${things.full(thing)}`),
};
