import type { Fault } from "@/lib/fit/request";
import { fitOn, guestMayHave, rankOn } from "@/lib/jobs/stay-fit";
import type { Rig } from "@/lib/rig";
import type { StayFault } from "@/lib/stays";
import { NightsTaken, StayRefused, StoreError } from "@/lib/store/errors";
import type { Park } from "@/lib/store/parks";
import { getSite, getSiteLabel } from "@/lib/store/sites";
import { catalogueOf } from "@/lib/wording";
import { answerOf } from "@/lib/wording/answer";
import { failed, faulty, json } from "../answers";

/** A refusal by the rules of stays: the field it is about, its sentence and its code; of a poor fit the reasons too. */
interface StayFaultTold extends Fault {
  readonly code: StayFault["code"];
  readonly reasons?: readonly { readonly code: string; readonly text: string }[];
}

/** What a refusal is told by: the park, and the rig where one is known. */
export interface About {
  readonly park: Park;
  readonly rig: Rig | null;
}

/**
 * The answer to what the store refused: 409 where somebody has the nights or changed the stay meanwhile, 422 with every
 * reason where it is not allowed, 404 where it is not theirs to see. `about` is asked when it comes to that.
 */
export async function refusing(work: () => Promise<Response>, about: () => About | null): Promise<Response> {
  try {
    return await work();
  } catch (error) {
    if (error instanceof NightsTaken) return nightsGone(error, about());
    if (error instanceof StayRefused) return faulty(await tellFaults(error.faults, about()));
    if (error instanceof StoreError && error.kind === "stale") return failed(409, "It was changed since you read it. Read it again.");
    if (error instanceof StoreError && error.kind === "missing") return failed(404, "There is no such stay.");
    throw error;
  }
}

/** Every refusal with its field and sentence. */
export async function tellFaults(faults: readonly StayFault[], about: About | null): Promise<StayFaultTold[]> {
  return Promise.all(faults.map(async (fault) => {
    const told = { path: pathOf(fault), message: catalogueOf().stays.fault(fault), code: fault.code };
    return fault.code === "fit" && about?.rig ? { ...told, reasons: await reasonsOf(about.park, fault.site, about.rig) } : told;
  }));
}

export function noSuchSite(id: string): Fault {
  return { path: "site", message: `there is no site "${id}" in this park` };
}

/** The sites that are left are those a guest may have with this rig, best first; all of them where no rig is known. */
async function nightsGone({ site, nights, free, nearest }: NightsTaken, about: About | null): Promise<Response> {
  const left = about?.rig ? (await rankOn(about.park, about.rig, free)).filter(({ verdict }) => guestMayHave(verdict)).map((result) => result.site) : free;
  return json({ error: `Somebody has ${about ? await getSiteLabel(about.park.slug, site) : site} on one of these nights.`, faults: [], site, ...nights, free: left, nearest }, 409);
}

async function reasonsOf(park: Park, siteId: string, rig: Rig): Promise<{ code: string; text: string }[]> {
  const [site, result] = await Promise.all([getSite(park.slug, siteId), fitOn(park, siteId, rig)]);
  if (!site || !result) return [];
  return answerOf([result], [site], rig, park.units).results.flatMap(({ reasons, asks }) => [
    ...reasons.map(({ code, text }) => ({ code, text })),
    ...asks.map(({ field, text }) => ({ code: field, text })),
  ]);
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
