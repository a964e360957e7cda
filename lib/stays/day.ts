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
 * In which lists a stay stands on `day`, looked at on `today`. Late: booked, to arrive before that day, and not there, until somebody says what
 * became of it. Leaving: there, and the departure day is that day or past. On a day to come nobody is late yet: whoever is booked is
 * counted on. Unassigned stands beside the others: whoever has no site needs one whichever day it is looked at.
 */
export function listsOf(stay: DayStay, day: IsoDate, today: IsoDate): DayList[] {
  const { state, nights: { depart }, site } = stay;
  const lists = day > today ? listsToCome(stay, day, today) : listsSoFar(stay, day);
  if (site === null && (state === "booked" || state === "requested") && depart > day) lists.push("unassigned");
  if (state === "requested" && depart > day) lists.push("requests");
  if (state === "held" && depart > day) lists.push("holds");
  return lists;
}

function listsSoFar({ state, nights: { arrive, depart }, freedFrom }: DayStay, day: IsoDate): DayList[] {
  if (state === "booked" && arrive <= day) return [arrive < day ? "late" : "arriving"];
  if (state === "arrived" && arrive <= day) return [depart <= day ? "leaving" : "staying"];
  return state === "departed" && (freedFrom ?? depart) === day ? ["left"] : [];
}

function listsToCome({ state, nights: { arrive, depart } }: DayStay, day: IsoDate, today: IsoDate): DayList[] {
  if (state === "booked" && arrive < today && depart > day) return ["late"];
  if ((state !== "booked" && state !== "arrived") || arrive > day || depart < day) return [];
  return [arrive === day ? "arriving" : depart === day ? "leaving" : "staying"];
}
