import type { Fault } from "@/lib/fit/request";
import type { StayFault } from "@/lib/stays";
import { NightsTaken, StayRefused, StoreError } from "@/lib/store/errors";
import { catalogueOf } from "@/lib/wording";
import { failed, faulty, json } from "../answers";

/** The field a refusal is about, and its sentence. */
export function faultOfStay(fault: StayFault): Fault {
  return { path: pathOf(fault), message: catalogueOf().stays.fault(fault) };
}

/**
 * The answer to what the store refused: 409 where somebody has the nights or changed the stay meanwhile, 422 with every
 * reason where it is not allowed, 404 where it is not theirs to see. `stillFree` orders the sites that are left.
 */
export async function refusing(work: () => Promise<Response>, stillFree: (free: readonly string[]) => Promise<readonly string[]>): Promise<Response> {
  try {
    return await work();
  } catch (error) {
    if (error instanceof NightsTaken) {
      const { site, nights, nearest } = error;
      const free = await stillFree(error.free);
      return json({ error: `Somebody has ${site.toUpperCase()} on one of these nights.`, faults: [], site, ...nights, free, nearest }, 409);
    }
    if (error instanceof StayRefused) return faulty(error.faults.map(faultOfStay));
    if (error instanceof StoreError && error.kind === "stale") return failed(409, "It was changed since you read it. Read it again.");
    if (error instanceof StoreError && error.kind === "missing") return failed(404, "There is no such stay.");
    throw error;
  }
}

function pathOf(fault: StayFault): string {
  switch (fault.code) {
    case "in-the-past":
    case "too-far-ahead":
    case "no-price":
    case "arrive-fixed":
      return "arrive";
    case "longer-than-allowed":
    case "no-nights":
    case "min-nights":
      return "depart";
    case "move":
      return fault.from === null ? "as" : "state";
    case "change":
      return fault.change === "dates" ? "arrive" : fault.change;
    case "price":
      return "accepts";
    case "guest-needed":
      return "guest";
    case "contact-needed":
      return "guest.email";
    case "fit":
    case "site-needed":
      return "site";
    case "none-fits":
      return "rig";
    case "reason-needed":
      return "reason";
    case "key-reused":
      return "Idempotency-Key";
  }
}
