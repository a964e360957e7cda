import { describe, expect, it } from "vitest";
import type { z } from "zod";
import {
  asDate, costOfCancelling, defaultStaySettings, judgeNights, nights, rateCardSchema, seasonOf, staySettingsSchema, stayRequestSchema, type CancellationStep,
} from "@/lib/stays";
import { smallPark } from "../../store/small-park";

/** Every fault as "field: sentence". */
function faultsOf(schema: z.ZodType, value: unknown): string[] {
  const read = schema.safeParse(value);
  return read.success ? [] : read.error.issues.map(({ path, message }) => `${path.join(".")}: ${message}`);
}
const rig = smallPark().rigs.rigs[0]!.rig;

describe("stayRequestSchema", () => {
  const right = { arrive: "2027-06-18", depart: "2027-06-21", rig };

  it("reads a stay with a site, and one for any that fits", () => {
    expect(stayRequestSchema.parse({ ...right, site: "a01", guest: { name: "  Ada Quill ", phone: "555 0100" } })).toMatchObject({ site: "a01", guest: { name: "Ada Quill" }, note: "" });
    expect(stayRequestSchema.parse({ ...right, wanted: { loop: "B", services: ["power"] } })).toMatchObject({ wanted: { loop: "B", services: ["power"] } });
    expect(stayRequestSchema.parse({ ...right, site: null }).site).toBeUndefined();
  });

  it("tells every fault at once, each with its field", () => {
    const wrong = { arrive: "2026-02-30", depart: 7, rig: { ...rig, kind: "boat" }, guest: { name: " ", email: "ada", phone: "call me" }, wanted: { services: ["gas"] } };
    const fields = faultsOf(stayRequestSchema, wrong).map((fault) => fault.split(":")[0]);
    expect(new Set(fields)).toEqual(new Set(["arrive", "depart", "rig.kind", "guest.name", "guest.email", "guest.phone", "wanted.services.0"]));
  });

  it("tells a stay of no nights, one backwards and one of 401, beside other faults", () => {
    expect(faultsOf(stayRequestSchema, { ...right, depart: right.arrive })).toEqual(["depart: must be after the arrival: a stay has at least one night"]);
    expect(faultsOf(stayRequestSchema, { ...right, depart: "2027-06-17", site: "" })).toEqual(["site: must not be empty", "depart: must be after the arrival"]);
    expect(faultsOf(stayRequestSchema, { ...right, depart: "2028-07-24" })).toEqual(["depart: must be at most 400 nights after the arrival"]);
    expect(faultsOf(stayRequestSchema, { ...right, depart: "2028-07-22" })).toEqual([]);
  });
});

describe("rateCardSchema", () => {
  const right = { currency: "USD", prices: [{ night: 100 }] };
  const season = (id: string, ...periods: [string, string][]) => ({ id, name: id, periods: periods.map(([first, last]) => ({ first, last })) });

  it("tells every fault at once, each with its field", () => {
    expect(
      faultsOf(rateCardSchema, {
        currency: "usd",
        seasons: [season("a", ["06-01", "06-31"]), season("a", ["2027-01-05", "01-09"]), season("b", ["2027-02-03", "2027-02-01"])],
        prices: [{ night: 1.5 }, { season: "c", night: -1 }, { season: "c", night: 5 }],
        taxes: [{ id: "t", name: "T", rate: 10_001 }],
      }).map((fault) => fault.split(":")[0]),
    ).toEqual(expect.arrayContaining(["currency", "seasons.0.periods.0.last", "seasons.1.periods.0.last", "seasons.2.periods.0.last", "seasons.1.id", "prices.0.night", "prices.1.night", "prices.1.season", "prices.2.season", "prices.2", "taxes.0.rate"]));
  });

  it("refuses seasons that share a night, over the new year too, but lets a dated one lie in a yearly one", () => {
    expect(faultsOf(rateCardSchema, { ...right, seasons: [season("a", ["11-15", "02-10"]), season("b", ["02-10", "03-01"])] })).toEqual(["seasons.1.periods.0: shares nights with 11-15 to 02-10"]);
    expect(faultsOf(rateCardSchema, { ...right, seasons: [season("a", ["11-15", "02-09"]), season("b", ["02-10", "03-01"], ["2027-01-01", "2027-01-03"])] })).toEqual([]);
  });

  it("finds a night's season: both ends included, leap day and new year's eve too", () => {
    const { seasons } = rateCardSchema.parse({ ...right, seasons: [season("winter", ["11-15", "02-29"]), season("eve", ["2027-12-31", "2027-12-31"])] });
    const of = (date: string) => seasonOf(asDate(date), seasons)?.id ?? null;
    expect(["2027-11-14", "2027-11-15", "2027-12-31", "2028-01-01", "2028-02-29", "2028-03-01", "2027-02-28", "2027-03-01"].map(of)).toEqual([null, "winter", "eve", "winter", "winter", null, "winter", null]);
  });
});

describe("staySettingsSchema", () => {
  it("gives what a park has not set", () => expect(defaultStaySettings).toMatchObject({ holdMinutes: 20, guestsMay: "ask", zone: "UTC", answerHours: null }));

  it("tells every fault at once", () => {
    expect(faultsOf(staySettingsSchema, { zone: "Mountain", holdMinutes: 0, checkIn: "3pm", cancellation: [{ daysBefore: 7, keep: { kind: "share", basisPoints: 20_000 } }] }).map((fault) => fault.split(":")[0])).toEqual([
      "zone", "holdMinutes", "checkIn", "cancellation.0.keep.basisPoints", "cancellation",
    ]);
  });

  it("bounds guests by today, the horizon and the longest stay, and the desk by the night before", () => {
    const settings = staySettingsSchema.parse({ daysAhead: 30, longestStay: 14 });
    const today = asDate("2027-06-10");
    const judge = (arrive: string, depart: string, by: "guest" | "desk" = "guest") => judgeNights(nights(arrive, depart), by, today, settings);
    expect(judge("2027-06-10", "2027-06-24")).toEqual([]);
    expect(judge("2027-07-10", "2027-07-11")).toEqual([]);
    expect(judge("2027-06-09", "2027-06-24")).toEqual([{ code: "in-the-past", earliest: "2027-06-10" }, { code: "longer-than-allowed", most: 14 }]);
    expect(judge("2027-07-11", "2027-07-12")).toEqual([{ code: "too-far-ahead", latest: "2027-07-10" }]);
    expect(judge("2027-06-09", "2028-07-01", "desk")).toEqual([]);
    expect(judge("2027-06-08", "2027-06-11", "desk")).toEqual([{ code: "in-the-past", earliest: "2027-06-09" }]);
  });
});

describe("costOfCancelling", () => {
  const steps: CancellationStep[] = [
    { daysBefore: 0, keep: { kind: "share", basisPoints: 10_000 } },
    { daysBefore: 14, keep: { kind: "amount", amount: 2500 } },
    { daysBefore: 3, keep: { kind: "nights", nights: 1 } },
  ];
  const cost = (today: string, paid = 4000, total = 10_001) => costOfCancelling(steps, { nights: nights("2027-06-20", "2027-06-23"), total, paid, today: asDate(today) });

  it("goes by the days that are left, exactly so many being early enough", () => {
    expect(cost("2027-06-06")).toMatchObject({ kept: 2500, back: 1500, owed: 0 });
    expect(cost("2027-06-07")).toMatchObject({ kept: 3334, back: 666, owed: 0, step: { daysBefore: 3 } });
    expect(cost("2027-06-17")).toMatchObject({ kept: 3334 });
    expect(cost("2027-06-18")).toMatchObject({ kept: 10_001, back: 0, owed: 6001 });
    expect(cost("2027-06-22")).toMatchObject({ kept: 10_001 });
  });

  it("never keeps more than the price, and nothing where the park has no terms", () => {
    expect(cost("2027-06-06", 0, 2000)).toMatchObject({ kept: 2000, owed: 2000 });
    expect(costOfCancelling([], { nights: nights("2027-06-20", "2027-06-23"), total: 5000, paid: 1000, today: asDate("2027-06-20") })).toEqual({ kept: 0, back: 1000, owed: 0, step: null });
  });
});
