import { cache } from "react";
import type { Site } from "@/lib/park";
import { getDefaultPark, type Park } from "@/lib/store/parks";
import { listRigs, type KeptRig } from "@/lib/store/rigs";
import { listSites } from "@/lib/store/sites";

export interface FitsContext {
  readonly park: Park;
  readonly sites: readonly Site[];
  readonly rigs: readonly KeptRig[];
}

/** The park with its sites and the rigs it keeps; null where no park is loaded. Once a request. */
export const fitsContext = cache(async (): Promise<FitsContext | null> => {
  const park = await getDefaultPark();
  if (!park) return null;
  const [sites, rigs] = await Promise.all([listSites(park.slug), listRigs(park.slug)]);
  return { park, sites, rigs };
});
