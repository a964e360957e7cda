import { cache } from "react";
import type { Site } from "@/lib/park";
import { getPark, type Park } from "@/lib/store/parks";
import { listRigs, type KeptRig } from "@/lib/store/rigs";
import { listSites } from "@/lib/store/sites";
import { requireDesk } from "../../staff-session";

export interface FitsContext {
  readonly park: Park;
  readonly sites: readonly Site[];
  readonly rigs: readonly KeptRig[];
}

/** The park of whoever is signed in, with its sites and the rigs it keeps; nobody else gets past here. Once a request. */
export const fitsContext = cache(async (): Promise<FitsContext | null> => fitsOf((await requireDesk()).actor.park));

/** The same of the park of that slug, for whom the caller has let in; null where there is none. */
export async function fitsOf(slug: string): Promise<FitsContext | null> {
  const park = await getPark(slug);
  if (!park) return null;
  const [sites, rigs] = await Promise.all([listSites(park.slug), listRigs(park.slug)]);
  return { park, sites, rigs };
}
