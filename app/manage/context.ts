import { cache } from "react";
import { z } from "zod";
import { unitsOf } from "../components/rig-form/read";
import type { Params } from "../components/rig-form/params";
import type { Units } from "@/lib/measure";
import { getPark, type Park } from "@/lib/store/parks";
import { listSiteRecords } from "@/lib/store/sites";
import type { IsoDate } from "@/lib/stays";
import { requireDesk } from "../staff-session";
import { dateOf } from "./age";
import { makeRows, surveyedSite, type SurveyedSite } from "./make-rows";
import type { SiteRow } from "./site-rows";

export interface Loop {
  readonly id: string;
  readonly name?: string | undefined;
  /** What it is like, in the park's own words. */
  readonly character?: string | undefined;
}

/** What staff pages start from. */
export interface StaffContext {
  readonly park: Park;
  readonly surveyed: readonly SurveyedSite[];
  readonly loops: readonly Loop[];
}

/** The park of whoever is signed in, with every site as it was measured; nobody else gets past here. Once a request. */
export const staffContext = cache(async (): Promise<StaffContext | null> => {
  const { actor } = await requireDesk();
  const park = await getPark(actor.park);
  if (!park) return null;
  const records = await listSiteRecords(park.slug);
  return { park, surveyed: records.map(surveyedSite), loops: readLoops(park.record) };
});

/** Everything the table shows, in the units the address asks for. */
export function rowsFor({ park, surveyed, loops }: StaffContext, params: Params): { rows: SiteRow[]; units: Units; today: IsoDate } {
  const units = unitsOf(params, park.units);
  const today = dateOf(new Date());
  const names = new Map(loops.map(({ id, name }) => [id, name ?? ""]));
  return { rows: makeRows(surveyed, names, units, today), units, today };
}

const loopsSchema = z.object({ loops: z.array(z.object({ id: z.string(), name: z.string().optional(), character: z.string().optional() })) });

/** A park's file may say nothing of its loops. */
function readLoops(record: unknown): readonly Loop[] {
  const read = loopsSchema.safeParse(record);
  return read.success ? read.data.loops : [];
}
