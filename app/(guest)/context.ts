import { cache } from "react";
import { getDefaultPark, type Park } from "@/lib/store/parks";
import { listRigs, type KeptRig } from "@/lib/store/rigs";
import { listSites } from "@/lib/store/sites";
import type { Site } from "@/lib/park";

export interface Context {
  readonly park: Park;
  readonly sites: readonly Site[];
  readonly rigs: readonly KeptRig[];
}

/** The park a guest sees, with its sites and the rigs to start from; null where no park is loaded. Once a request. */
export const guestContext = cache(async (): Promise<Context | null> => {
  const park = await getDefaultPark();
  if (!park) return null;
  const [sites, rigs] = await Promise.all([listSites(park.slug), listRigs(park.slug)]);
  return { park, sites, rigs };
});
