import type { PdfCard } from "@/lib/card/pdf";
import { fitOn } from "@/lib/jobs/stay-fit";
import { wayIn } from "@/lib/jobs/way-in";
import type { Params } from "../../../components/rig-form/params";
import { askedBy } from "../../context";

export interface FoundCard {
  readonly card: Omit<PdfCard, "paper" | "address">;
  /** The rig and the units, as an address says them. */
  readonly query: string;
}

/** What an arrival card tells of the address's rig on a site; null where there is no such site, no whole rig, or no place to stand. */
export async function readCardOf(id: string, params: Params): Promise<FoundCard | null> {
  const asked = await askedBy(params), rig = asked?.form?.rig;
  const site = asked?.sites.find((one) => one.id === id);
  if (!asked?.form || !rig || !site) return null;
  const result = await fitOn(asked.park, id, rig);
  if (!result?.pose) return null;
  const way = await wayIn({ site, rig, pose: result.pose, policy: asked.park.policy });
  return { card: { way, site, rig, result, units: asked.units, lends: asked.stays.settings.lends, park: asked.park.name }, query: `${asked.form.query}&units=${asked.units}` };
}
