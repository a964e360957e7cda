"use server";

import { revalidatePath } from "next/cache";
import { z } from "zod";
import { turnPlace } from "@/lib/park/edit/place";
import { writeAt } from "@/lib/park/edit/record";
import { changeSites, listSitesAt, SitesStale } from "@/lib/store/site-changes";
import { mapEditor } from "@/lib/wording/en/map-editor";
import { staffSession } from "../../staff-session";

/** No park is wider, mm. */
const FAR = 50_000_000;
const sent = z.object({
  moves: z.array(z.object({ siteId: z.string().min(1).max(80), base: z.number().int(), place: z.object({ east: z.number().min(-FAR).max(FAR), north: z.number().min(-FAR).max(FAR), bearing: z.number().min(0).max(360) }) })).min(1).max(10_000),
  why: z.string().max(300),
});

export type PlacesSent = z.infer<typeof sent>;
export type PlacesAnswer = { readonly ok: true; readonly versions: Readonly<Record<string, number>> } | { readonly ok: false; readonly gone: boolean; /** The posts of sites that somebody else saved meanwhile. */ readonly stale: readonly string[] };

/** Gives sites their new places on the map, all of them or none, each from the version it was moved on. */
export async function savePlaces(asked: PlacesSent): Promise<PlacesAnswer> {
  const session = await staffSession();
  if (session?.actor.kind !== "manager") return { ok: false, gone: true, stale: [] };
  const { actor } = session, read = sent.safeParse(asked);
  if (!read.success) return { ok: false, gone: false, stale: [] };
  const { moves, why } = read.data;
  const sites = await listSitesAt(actor, moves.map(({ siteId }) => siteId));
  const labelOf = (siteId: string) => sites.get(siteId)?.record.label ?? siteId;
  // The record that is written is the one that was moved on: else what somebody changed beside the place would be undone.
  const stale = moves.filter(({ siteId, base }) => sites.get(siteId)?.version !== base);
  if (stale.length > 0) return { ok: false, gone: false, stale: stale.map(({ siteId }) => labelOf(siteId)) };
  const changes = moves.map(({ siteId, base, place }) => ({ siteId, base, record: writeAt(sites.get(siteId)!.record, ["place"], turnPlace({ east: Math.round(place.east), north: Math.round(place.north), bearing: 0 }, place.bearing)) }));
  try {
    const versions = await changeSites(actor, changes, { cause: "edit", why: why.trim() || mapEditor.defaultWhy });
    revalidatePath("/", "layout");
    return { ok: true, versions: Object.fromEntries(versions) };
  } catch (error) {
    if (error instanceof SitesStale) return { ok: false, gone: false, stale: error.sites.map(({ siteId }) => labelOf(siteId)) };
    throw error;
  }
}
