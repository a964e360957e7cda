import { writeStays, type HeldStay, type Inventory, type Json, type StayBook } from "@/lib/exchange";
import { asDate, defaultStaySettings, rateCardSchema, type RateCardInput } from "@/lib/stays";
import { smallInventory } from "./support";

export const today = asDate("2027-06-01");

/** A stay of the small park, as it is handed out. */
export function heldStay(more: Partial<HeldStay> = {}): HeldStay {
  return {
    id: "5f0c1c1e-0000-4000-8000-000000000001", reference: "K7M2QX", state: "booked", arrive: asDate("2027-07-04"), depart: asDate("2027-07-08"), site: "a1", guest: "Ada Quill", email: "ada@example.org", phone: "555 0100",
    plate: "QM 4711", rigKind: "travel-trailer", rigLength: 9448.8, adults: 2, children: 0, pets: 1, note: "late, after nine", version: 3, rigId: "typical-travel-trailer", siteChosen: false, erased: false, priced: false, ...more,
  };
}

const rates: RateCardInput = { currency: "USD", prices: [{ night: 4000 }] };

/** The small park with a second site, a rig, rates and some stays. Whoever is on a site has its nights. */
export function parkWithStays(stays: readonly HeldStay[] = [heldStay()], book: Partial<StayBook> = {}): Inventory {
  const small = smallInventory(), second: Json = { ...(small.sites[0]!.record as Record<string, Json>), id: "b2", label: "Creek 2" };
  const van = { id: "van-19", kind: "van", body: { length: 5900, width: 2050, height: 2700, floor: 200 }, supports: [{ kind: "tyre", at: [1000, 800] }, { kind: "tyre", at: [1000, -800] }, { kind: "tyre", at: [4600, 800] }, { kind: "tyre", at: [4600, -800] }], party: { adults: 1 } };
  return {
    park: { ...(small.park as Record<string, Json>), rates: JSON.parse(JSON.stringify(rateCardSchema.parse(rates))) as Json }, sites: [...small.sites, { record: second, version: 1 }], rigs: [{ name: "A van", note: null, record: van }],
    stays: {
      today, settings: defaultStaySettings, stays,
      taken: stays.filter(({ site: on, state }) => on !== "" && !["cancelled", "no-show"].includes(state)).map(({ id, reference, site: on, arrive, depart }) => ({ site: on, nights: { arrive, depart }, stay: id, by: { kind: "stay" as const, reference } })),
      ...book,
    },
  };
}

export const tableOf = ({ stays }: Inventory): string => writeStays(stays!.stays);
