import type { StayState } from "@/lib/stays";
import type { Actor } from "./stays-actor";
import { advanceStay, type Advance, type Advanced } from "./stays-advance";
import { releaseAllRunOut } from "./stays-nights";
import { openStay, type Opened, type Opening } from "./stays-open";
import type { Stay } from "./stays-record";
import { inStayTransaction } from "./stays-transaction";

/**
 * Stays, by the verbs of the trade. Each is one transaction with its audit; who may do it stands in lib/stays/states.ts.
 * Refused with NightsTaken where somebody has the night, StayRefused with every reason where it is not allowed, `missing`
 * where it is not theirs to see.
 */

/** Keeps a site for a short while, as long as the park sets, while the form is filled in. */
export const holdStay = (actor: Actor, park: string, opening: Opening): Promise<Opened> => openStay(actor, park, "held", opening);

/** Asks for a stay, for the desk to answer. */
export const requestStay = (actor: Actor, park: string, opening: Opening): Promise<Opened> => openStay(actor, park, "requested", opening);

/** Books a stay at once: the desk, on the phone; a guest where the park lets them. */
export const bookStay = (actor: Actor, park: string, opening: Opening): Promise<Opened> => openStay(actor, park, "booked", opening);

/** A stay of somebody who stands at the desk. */
export const walkIn = (actor: Actor, park: string, opening: Opening): Promise<Opened> => openStay(actor, park, "arrived", opening);

/** Makes a request of a hold. */
export const requestHeld = advanceTo("requested");
/** Books what was held or asked for; puts back what was cancelled or marked by mistake, where the nights are still free. */
export const confirmStay = advanceTo("booked");
export const cancelStay = advanceTo("cancelled");
export const markArrived = advanceTo("arrived");
/** Who leaves early gives the nights that are left back. */
export const markDeparted = advanceTo("departed");
export const markNoShow = advanceTo("no-show");

/** Releases, as the clock, every hold and request of the park that ran out `grace` minutes ago or earlier; how many. */
export async function releaseRunOut(park: string, grace = 0): Promise<number> {
  return inStayTransaction({ kind: "clock" }, park, "ran out", (at) => releaseAllRunOut(at, grace));
}

function advanceTo(to: StayState) {
  return (actor: Actor, park: string, stayId: string, advance: Advance = {}): Promise<Advanced> => advanceStay(actor, park, stayId, to, advance);
}

export type { Stay };
