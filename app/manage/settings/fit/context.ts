import { cache } from "react";
import type { Policy } from "@/lib/fit/policy";
import { typicalColumns } from "@/lib/insight";
import type { EffectsAsked } from "@/lib/jobs/settings-effects";
import type { Units } from "@/lib/measure/parse";
import { siteSchema, type Site } from "@/lib/park";
import { getStayContext, readParkSettings } from "@/lib/store/park-settings";
import { getPark, type Park } from "@/lib/store/parks";
import { listSiteRecords } from "@/lib/store/sites";
import { listStaysAhead, type StayAhead } from "@/lib/store/stays-ahead";
import { requireManager, type StaffActor } from "../../../staff-session";
import { unitsOf } from "../../../components/rig-form/read";
import type { Params } from "../../../components/rig-form/params";
import { readPolicyForm, type PolicyForm } from "./read-policy";

/** What the page of the fit policy starts from. */
export interface PolicyContext {
  readonly actor: StaffActor;
  readonly park: Park;
  readonly version: number;
  readonly policy: Policy;
  readonly zone: string;
}

/** Of the park of the manager who asks; nobody else gets past here. Null where there is no such park. */
export const policyContext = cache(async (): Promise<PolicyContext | null> => policyContextOf((await requireManager()).actor));

/** The same for an actor whom the caller has let in as a manager. */
export async function policyContextOf(actor: StaffActor): Promise<PolicyContext | null> {
  const park = await getPark(actor.park);
  if (!park) return null;
  const { version, policy, stays } = await readParkSettings(actor, park.slug);
  return { actor, park, version, policy, zone: stays.zone };
}

export interface AskedForm {
  readonly units: Units;
  readonly form: PolicyForm;
}

export function readAddress(params: Params, { park, policy }: PolicyContext): AskedForm {
  const units = unitsOf(params, park.units);
  return { units, form: readPolicyForm(params, policy, units) };
}

/** What the effects are worked out over, and what of it cannot be. */
export interface EffectsContext {
  readonly asked: Omit<EffectsAsked, "stays"> & { readonly stays: readonly StayAhead[] };
  readonly sites: readonly Site[];
  /** Ids of sites whose record cannot be read. */
  readonly unreadable: readonly string[];
}

export async function effectsContext({ actor, park }: PolicyContext): Promise<EffectsContext> {
  const [records, context] = await Promise.all([listSiteRecords(park.slug), getStayContext(park.slug)]);
  const stays = context ? await listStaysAhead(actor, park.slug, context.today) : [];
  const read = records.map((record) => ({ record, site: siteSchema.safeParse(record) }));
  const sites = read.flatMap(({ site }) => (site.success ? [site.data] : []));
  const unreadable = read.flatMap(({ record, site }) => (site.success ? [] : [String((record as { label?: unknown; id?: unknown } | null)?.label ?? (record as { id?: unknown } | null)?.id)]));
  return { asked: { sites, typical: typicalColumns().map(({ rig }) => rig), stays }, sites, unreadable };
}
