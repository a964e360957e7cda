import type { StayState } from "./states";

/** What a guest is told by mail: that the stay became something, that something of it changed, or that time ran out. */
export const mailKinds = ["held", "requested", "booked", "site", "nights", "rig", "cancelled", "ran-out"] as const;
export type MailKind = (typeof mailKinds)[number];

/** In which states of a stay there is still something to tell. Else a later change, or the stay itself, has overtaken it. */
const toldIn: Readonly<Record<MailKind, readonly StayState[]>> = {
  held: ["held"],
  requested: ["requested"],
  booked: ["booked"],
  site: ["requested", "booked", "arrived"],
  nights: ["requested", "booked", "arrived"],
  rig: ["requested", "booked", "arrived"],
  cancelled: ["cancelled"],
  "ran-out": ["cancelled"],
};

/** Whether mail of `kind` would say what is not so any more. */
export function isOvertaken(kind: MailKind, state: StayState): boolean {
  return !toldIn[kind].includes(state);
}

/** Whether mail of `other` says all that mail of `kind` would: it is written from the stay as it is when it is sent. */
export function isToldBy(kind: MailKind, other: MailKind): boolean {
  if (kind === other) return true;
  return isChange(kind) && (other === "requested" || other === "booked");
}

/** The change of a stay that stays what it is. */
function isChange(kind: MailKind): boolean {
  return kind === "site" || kind === "nights" || kind === "rig";
}

/** For how long, in seconds, mail of `kind` waits for the next change of its kind: who moves a stay often moves it twice. */
export function settlesFor(kind: MailKind): number {
  return isChange(kind) ? 60 : 0;
}

/** What a stay that goes from `from` (null: a new one) to `to` is told of, by whoever does it; null where nothing is. A slip put right is no news. */
export function mailOfMove(from: StayState | null, to: StayState, byGuest: boolean): MailKind | null {
  if (to === "held") return byGuest ? null : "held";
  if (to === "requested" || to === "cancelled") return to;
  return to === "booked" && from !== "arrived" && from !== "no-show" ? "booked" : null;
}

/** How long, in seconds, after each failure in a row mail is tried again; after one more it has failed. */
export const retryDelays: readonly number[] = [60, 5 * 60, 30 * 60, 2 * 3600, 6 * 3600];
