import { describe, expect, it } from "vitest";
import { dateIn, daysBetween } from "@/lib/stays";
import { client } from "@/lib/store/client";
import { loadPark, ParkFaults } from "@/lib/store/load-park";
import { getStayContext } from "@/lib/store/park-settings";
import { getRates } from "@/lib/store/rates";
import { smallPark, withStore } from "./client";

withStore();

/** The small park with other settings for stays and rates; what is not given is left out of the file. */
function parkWith(more: Record<string, unknown>, slug?: string) {
  const files = smallPark(slug);
  return { ...files, park: { ...files.park, ...more } };
}

async function faultsOf(more: Record<string, unknown>): Promise<readonly string[]> {
  const error = await loadPark(parkWith(more)).then(() => null, (reason: unknown) => reason);
  if (!(error instanceof ParkFaults)) throw new Error(`expected faults, got ${String(error)}`);
  return error.faults;
}

/** Of each fault the path: the file, then the field. */
const placesOf = async (more: Record<string, unknown>) => (await faultsOf(more)).map((fault) => fault.split(" ").slice(0, 2).join(" ")).sort();

describe("settings for stays in a park's file", () => {
  it("are told every fault at once, each with the path of its field, and nothing is saved", async () => {
    const staySettings = {
      zone: "Mountain", guestsMay: "beg", holdMinutes: 0, answerHours: 1.5, checkIn: "3pm", checkOut: "24:00", daysAhead: 0, longestStay: 401,
      houseRules: { quietHours: { from: "22", to: "07:00" }, campfires: "sometimes", more: ["", 7] },
      lends: [{ id: "cord", name: "Cord", kind: "rope", count: 1 }, { id: "cord", name: "", kind: "other", count: -1 }],
      cancellation: [{ daysBefore: -1, keep: { kind: "share", basisPoints: 10_001 } }, { daysBefore: 7, keep: { kind: "half" } }, { daysBefore: 7, keep: { kind: "nights", nights: 401 } }],
    };
    expect(await placesOf({ staySettings })).toEqual([
      "cancellation", "cancellation.0.daysBefore", "cancellation.0.keep.basisPoints", "cancellation.1.keep.kind", "cancellation.2.daysBefore", "cancellation.2.keep.nights", "checkIn", "checkOut", "daysAhead", "answerHours", "guestsMay", "holdMinutes",
      "houseRules.campfires", "houseRules.more.0", "houseRules.more.1", "houseRules.quietHours.from", "lends.0.kind", "lends.1.count", "lends.1.id", "lends.1.name", "longestStay", "zone",
    ].map((field) => `park.json: staySettings.${field}`).sort());
    expect(await client().park.count()).toBe(0);
  });

  it.each([null, 7, "none", []])("that are %j are no settings", async (staySettings) => {
    expect((await faultsOf({ staySettings })).every((fault) => fault.startsWith("park.json: staySettings "))).toBe(true);
  });

  it("left out are the usual ones", async () => {
    await loadPark(smallPark());
    expect((await getStayContext("two-pines"))?.settings).toMatchObject({ zone: "UTC", guestsMay: "ask", holdMinutes: 20, longestStay: 28, lends: [], cancellation: [] });
    expect(await getRates("two-pines")).toBeNull();
  });
});

describe("rates in a park's file", () => {
  it("are told every fault at once, each with the path of its field, beside those of the settings", async () => {
    const rates = {
      currency: "dollars", minNights: 0,
      seasons: [
        { id: "High Summer", name: "High", periods: [{ first: "06-31", last: "08-01" }] },
        { id: "fair", name: "", periods: [{ first: "2027-07-04", last: "2027-07-02" }, { first: "2027-08-01", last: "08-04" }], minNights: 401 },
        { id: "fair", name: "Fair again", periods: [] },
      ],
      prices: [{ night: 10.5 }, { night: -1, week: "cheap" }, { season: "winter", services: ["gas"], amps: 40, night: 100 }],
      longStay: [{ nights: 1, off: 10_001 }],
      extras: { vehicle: { each: 100, per: "week" }, pet: { included: -1, each: null } },
      fees: [{ id: "f", name: "Fee", amount: 1 }, { id: "f", name: "Fee", amount: 1, per: "person" }],
      taxes: [{ id: "t", name: "Tax", rate: 8.25, on: [] }, { id: "u", name: "Tax", rate: 1, on: ["taxes"], upToNights: 0 }],
      deposit: { kind: "share", basisPoints: 20_000 },
    };
    expect(await placesOf({ rates, staySettings: { zone: "Mountain" } })).toEqual([
      "staySettings.zone", "rates.currency", "rates.minNights", "rates.seasons.0.id", "rates.seasons.0.periods.0.first", "rates.seasons.1.name", "rates.seasons.1.periods.0.last", "rates.seasons.1.periods.1.last", "rates.seasons.1.minNights",
      "rates.seasons.2.id", "rates.seasons.2.periods", "rates.prices.0.night", "rates.prices.1", "rates.prices.1.night", "rates.prices.1.week", "rates.prices.2.season", "rates.prices.2.services.0", "rates.prices.2.amps", "rates.longStay.0.nights", "rates.longStay.0.off",
      "rates.extras.vehicle.per", "rates.extras.pet.included", "rates.extras.pet.each", "rates.fees.1.id", "rates.fees.1.per", "rates.taxes.0.rate", "rates.taxes.0.on", "rates.taxes.1.on.0", "rates.taxes.1.upToNights", "rates.deposit.basisPoints",
    ].map((field) => `park.json: ${field}`).sort());
    expect(await client().park.count()).toBe(0);
  });

  it("say which period shares nights with which, and which price is for the same as another", async () => {
    const season = (id: string, first: string, last: string) => ({ id, name: id, periods: [{ first, last }] });
    expect(await faultsOf({ rates: { currency: "USD", seasons: [season("winter", "11-15", "02-29"), season("leap", "02-29", "03-01")], prices: [{ night: 1 }, { night: 2, services: [] }] } })).toEqual([
      "park.json: rates.prices.1 is for the same season and class as one above",
      "park.json: rates.seasons.1.periods.0 shares nights with 11-15 to 02-29",
    ]);
  });

  it("need a price", async () => {
    expect(await placesOf({ rates: { currency: "USD", prices: [] } })).toEqual(["park.json: rates.prices"]);
    expect(await placesOf({ rates: { currency: "USD" } })).toEqual(["park.json: rates.prices"]);
    expect(await placesOf({ rates: "cheap" })).toEqual(["park.json: rates"]);
  });

  it("are the park's first card, with their entry in the audit", async () => {
    await loadPark(parkWith({ rates: { currency: "JPY", prices: [{ night: 4500 }] } }));
    expect(await getRates("two-pines")).toMatchObject({ number: 1, card: { currency: "JPY", prices: [{ night: 4500, week: null, season: null }] } });
    expect(await client().auditEntry.findMany({ where: { subject: "rate_card" }, select: { actorKind: true, reason: true } })).toEqual([{ actorKind: "clock", reason: "loaded with the park" }]);
  });
});

describe("a park's own date", () => {
  it("is the one of its zone at the database's clock, on either side of the date line", async () => {
    await loadPark(parkWith({ staySettings: { zone: "Pacific/Pago_Pago" } }, "last-to-bed"));
    await loadPark(parkWith({ staySettings: { zone: "Pacific/Kiritimati" } }, "first-to-rise"));
    const [late, early] = [(await getStayContext("last-to-bed"))!, (await getStayContext("first-to-rise"))!];
    expect(late.today).toBe(dateIn("Pacific/Pago_Pago", late.now));
    expect(early.today).toBe(dateIn("Pacific/Kiritimati", early.now));
    expect(daysBetween(late.today, early.today)).toBeGreaterThanOrEqual(1);
    expect(await getStayContext("nowhere")).toBeNull();
  });
});
