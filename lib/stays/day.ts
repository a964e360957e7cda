import type { IsoDate } from "./dates";
import type { Nights } from "./nights";
import type { StayState } from "./states";

/** What of a stay decides in which list of a day it stands. */
export interface DayStay {
  readonly state: StayState;
  readonly nights: Nights;
  readonly site: string | null;
  readonly freedFrom: string | null;
}

/** The lists of a day at the desk. */
export const dayLists = ["late", "arriving", "leaving", "staying", "left", "unassigned", "requests", "holds"] as const;
export type DayList = (typeof dayLists)[number];

/**
 * In which lists a stay stands on `day`. Late: booked, to arrive before that day, and not there. Leaving: there, and the departure day is that
 * day or past. Unassigned stands beside the others: whoever has no site needs one whichever day it is looked at.
 */
export function listsOf({ state, nights: { arrive, depart }, site, freedFrom }: DayStay, day: IsoDate): DayList[] {
  const lists: DayList[] = [];
  if (state === "booked") {
    if (arrive < day && depart > day) lists.push("late");
    if (arrive === day) lists.push("arriving");
  }
  if (state === "arrived" && arrive <= day) lists.push(depart <= day ? "leaving" : "staying");
  if (state === "departed" && (freedFrom ?? depart) === day) lists.push("left");
  if (site === null && (state === "booked" || state === "requested") && depart > day) lists.push("unassigned");
  if (state === "requested" && depart > day) lists.push("requests");
  if (state === "held" && depart > day) lists.push("holds");
  return lists;
}
