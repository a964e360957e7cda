import { daysBetween, type IsoDate } from "./dates";
import type { StayFault } from "./faults";
import type { Nights } from "./nights";
import type { Guest } from "./request";
import { judgeNights, type StaySettings } from "./settings";
import { judgeMove, mayChange, type ActorKind, type Change, type StayState } from "./states";

/** What a stay is judged by, beside itself. */
export interface Judging {
  /** Who opens or changes it. */
  readonly by: ActorKind;
  readonly settings: StaySettings;
  /** The date it is in the park. */
  readonly today: IsoDate;
}

/** What a new stay is judged by. */
export interface NewStay {
  readonly nights: Nights;
  readonly guest: Guest | null;
  /** Whether it is for one site, rather than any that fits. */
  readonly onSite: boolean;
}

/** What stands against opening such a stay in `to`, before anybody asks who has the nights; all of it at once. */
export function judgeOpening({ by, settings, today }: Judging, to: StayState, { nights, guest, onSite }: NewStay): StayFault[] {
  const judged = judgeMove(null, to, by, { guestsMay: settings.guestsMay, daysToArrival: daysBetween(today, nights.arrive), runOut: false });
  return [
    ...judgeNights(nights, by === "guest" ? "guest" : "desk", today, settings),
    ...(judged.allowed ? [] : [{ code: "move" as const, from: null, to, why: judged.why }]),
    ...((to === "held" || to === "arrived") && !onSite ? [{ code: "site-needed" as const }] : []),
    ...judgeGuest(by, to, guest),
  ];
}

/** Who is missing for a stay to be more than held. */
export function judgeGuest(by: ActorKind, to: StayState, guest: Guest | null): StayFault[] {
  if (to === "held" || to === "cancelled") return [];
  if (!guest) return [{ code: "guest-needed" }];
  return by === "guest" && !guest.email && !guest.phone ? [{ code: "contact-needed" }] : [];
}

/** Whether that may be changed of a stay as it stands. Nobody is written into a stay again whose guest was erased. */
export function judgeChange(by: ActorKind, { state, erased }: { readonly state: StayState; readonly erased: boolean }, change: Change): StayFault[] {
  return !erased && mayChange(state, change, by) ? [] : [{ code: "change", state, change }];
}

/** What stands against other nights for a stay. An arrival that stays where it was is not judged again; the departure is never put before today. */
export function judgeNewNights({ by, settings, today }: Judging, stay: { readonly state: StayState; readonly nights: Nights }, nights: Nights): StayFault[] {
  const sameArrival = nights.arrive === stay.nights.arrive;
  if (stay.state === "arrived" && !sameArrival) return [{ code: "arrive-fixed" }];
  const limits = judgeNights(nights, by === "guest" ? "guest" : "desk", today, settings);
  const past: StayFault[] = sameArrival && nights.depart < today ? [{ code: "in-the-past", earliest: today }] : [];
  return [...limits.filter(({ code }) => !sameArrival || code !== "in-the-past"), ...past];
}
