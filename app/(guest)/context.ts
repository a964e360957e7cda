import { cache } from "react";
import type { Params } from "../components/rig-form/params";
import { readRigForm, unitsOf, type RigForm } from "../components/rig-form/read";
import { startOf } from "../components/rig-form/start";
import { getDefaultPark, type Park } from "@/lib/store/parks";
import { getStayContext, type StayContext } from "@/lib/store/park-settings";
import { listRigs, type KeptRig } from "@/lib/store/rigs";
import { listSites } from "@/lib/store/sites";
import type { Units } from "@/lib/measure";
import type { Site } from "@/lib/park";
import { readWhen, type When } from "./when";

export interface Context {
  readonly park: Park;
  readonly sites: readonly Site[];
  readonly rigs: readonly KeptRig[];
  /** The park's settings for stays, and its date. */
  readonly stays: StayContext;
}

/** What a guest's address asks: in which units, for which nights, and for which rig; no form where it names none. */
export interface Asked extends Context {
  readonly units: Units;
  readonly form: RigForm | null;
  /** For which nights. */
  readonly when: When;
}

/** The park a guest sees, with its sites and the rigs to start from; null where no park is loaded. Once a request. */
export const guestContext = cache(async (): Promise<Context | null> => {
  const park = await getDefaultPark();
  if (!park) return null;
  const [sites, rigs, stays] = await Promise.all([listSites(park.slug), listRigs(park.slug), getStayContext(park.slug)]);
  return stays && { park, sites, rigs, stays };
});

export async function askedBy(params: Params): Promise<Asked | null> {
  const context = await guestContext();
  if (!context) return null;
  const units = unitsOf(params, context.park.units);
  const start = startOf(params, context.rigs, units);
  return { ...context, units, when: readWhen(params, context.stays), form: start && readRigForm(params, start, units) };
}
