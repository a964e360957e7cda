import { list, one, type Params } from "../../../components/rig-form/params";
import { findSites, type Found } from "@/lib/jobs/stay-fit";
import { hookupServices, type Nights, type QuoteOutcome, type Wanted } from "@/lib/stays";
import { quoteFor } from "@/lib/store/stays-money";
import type { Rig } from "@/lib/rig";
import type { Site } from "@/lib/park";
import type { Park } from "@/lib/store/parks";

/** What any site has to have: as the address says, else what the rig wants to connect to. */
export function readWanted(params: Params, rig: Rig, sites: readonly Site[]): Wanted {
  const loop = one(params.loop), asked = one(params.chosen) === undefined ? rig.wants : list(params.service);
  return { loop: sites.some((site) => site.loop === loop) ? loop : undefined, services: hookupServices.filter((service) => asked.includes(service)) };
}

/** What can be had where any site will do. */
export interface AnyOffer {
  readonly found: Found;
  readonly quote: QuoteOutcome | null;
}

export async function readAny(park: Park, nights: Nights, rig: Rig, wanted: Wanted): Promise<AnyOffer> {
  const [found, quote] = await Promise.all([findSites(park, nights, rig, wanted), quoteFor(park.slug, { site: null, wanted }, nights, rig)]);
  return { found, quote };
}
