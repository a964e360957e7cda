import type { PdfCard } from "@/lib/card/pdf";
import { fitOn } from "@/lib/jobs/stay-fit";
import { wayIn } from "@/lib/jobs/way-in";
import { StoreError } from "@/lib/store/errors";
import { getStayContext } from "@/lib/store/park-settings";
import { getPark } from "@/lib/store/parks";
import { getSiteOnRecord } from "@/lib/store/sites";
import { getStay } from "@/lib/store/stays-change";
import type { StaffActor } from "@/app/staff-session";

/** What the arrival card of a stay tells; null where this person has no such stay, it has no site, or the rig has no place on it. No link of the guest's is on it: links are told once and never kept. */
export async function readStaffCard(actor: StaffActor, id: string): Promise<Omit<PdfCard, "paper"> | null> {
  const [park, context, stay] = await Promise.all([getPark(actor.park), getStayContext(actor.park), getStay(actor, actor.park, id).catch(noneIfMissing)]);
  if (!park || !context || !stay || stay.site === null) return null;
  const [site, result] = await Promise.all([getSiteOnRecord(park.slug, stay.site), fitOn(park, stay.site, stay.rig)]);
  if (!site || !result?.pose) return null;
  const way = await wayIn({ site, rig: stay.rig, pose: result.pose, policy: park.policy });
  return { site, rig: stay.rig, result, way, units: park.units, lends: context.settings.lends, park: park.name, address: null };
}

function noneIfMissing(error: unknown): null {
  if (error instanceof StoreError && error.kind === "missing") return null;
  throw error;
}
