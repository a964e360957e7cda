import { one, type Params } from "../../components/rig-form/params";
import { readCall } from "../check/read-call";
import { rigOf } from "../check/facts";
import { findSites, type Found } from "@/lib/jobs/stay-fit";
import { readDay, readDeparture, type IsoDate, type Nights } from "@/lib/stays";
import type { Park } from "@/lib/store/parks";
import type { Rig } from "@/lib/rig";
import { catalogueOf } from "@/lib/wording";

const { deskNew: words } = catalogueOf();

export const askedFields = ["call", "arrive", "depart", "adults", "children", "pets", "loop"] as const;
export type AskedField = (typeof askedFields)[number];

/** What was typed of a caller, and what it means; `ready` where it is enough to look for sites. */
export interface AskedStay {
  readonly texts: Readonly<Record<AskedField, string>>;
  readonly faults: Readonly<Partial<Record<AskedField, string>>>;
  readonly ready: { readonly rig: Rig; readonly nights: Nights; readonly loop: string | undefined } | null;
  readonly blank: boolean;
}

const mostOfEach = 30;

/** Reads the first form; every fault at once. Pure but for its words. */
export function readAsked(from: (field: AskedField) => string, park: Pick<Park, "units">, today: IsoDate): AskedStay {
  const texts = Object.fromEntries(askedFields.map((field) => [field, from(field).trim()])) as Record<AskedField, string>;
  if (texts.call === "" && texts.arrive === "" && texts.depart === "") return { texts, faults: {}, ready: null, blank: true };
  const call = readCall(texts.call, park.units);
  const arrive = readDay(texts.arrive, today);
  const depart = arrive.ok ? readDeparture(texts.depart, arrive.date) : null;
  const counts = { adults: countOf(texts.adults, 2), children: countOf(texts.children, 0), pets: countOf(texts.pets, 0) };
  const faults: Partial<Record<AskedField, string>> = {
    ...(call.ok ? {} : { call: words.callFault }),
    ...(arrive.ok ? {} : { arrive: words.dayFaults[arrive.why] }),
    ...(depart && !depart.ok ? { depart: words.dayFaults[depart.why] } : {}),
    ...Object.fromEntries(Object.entries(counts).flatMap(([field, value]) => (value === null ? [[field, words.countFault]] : []))),
  };
  if (!call.ok || !arrive.ok || !depart?.ok || Object.keys(faults).length > 0) return { texts, faults, ready: null, blank: false };
  const plain = rigOf(call.call, {});
  const rig: Rig = { ...plain, party: { ...plain.party, adults: counts.adults!, children: counts.children!, pets: counts.pets! } };
  return { texts, faults, ready: { rig, nights: { arrive: arrive.date, depart: depart.date }, loop: texts.loop || undefined }, blank: false };
}

export function fromParams(params: Params): (field: AskedField) => string {
  return (field) => one(params[field]) ?? "";
}

/** The sites for what was asked. */
export async function sitesFor(park: Park, { rig, nights, loop }: NonNullable<AskedStay["ready"]>): Promise<Found> {
  return findSites(park, nights, rig, { loop, services: [] });
}

function countOf(text: string, usual: number): number | null {
  if (text === "") return usual;
  const value = /^\d{1,2}$/.test(text) ? Number(text) : NaN;
  return value >= 0 && value <= mostOfEach ? value : null;
}
