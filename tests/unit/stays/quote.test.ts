import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  acceptQuote, addDays, addsUp, asDate, countNights, hookupsOf, nights, partyOf, priceFor, quoteStay, rateCardSchema, share, totalOf,
  type Hookups, type Quote, type QuoteAsk, type RateCard, type RateCardInput,
} from "@/lib/stays";

const full: Hookups = { services: ["power", "water", "sewer"], amps: 50 };
const alone = { persons: 1, vehicles: 1, pets: 0 };

/** A card that uses every rule. Dollars and cents. */
const given: RateCardInput = {
  currency: "USD",
  seasons: [
    { id: "summer", name: "Summer", periods: [{ first: "06-15", last: "09-05" }], minNights: 2 },
    { id: "fair", name: "County fair", periods: [{ first: "2027-07-02", last: "2027-07-04" }], minNights: 3 },
  ],
  prices: [
    { night: 2000 },
    { services: ["power", "water", "sewer"], night: 4200, week: 26_000, month: 90_000 },
    { services: ["power", "water", "sewer"], amps: 50, night: 4800, week: 29_500, month: 99_000 },
    { season: "summer", services: ["power", "water", "sewer"], amps: 50, night: 6150, week: 38_000 },
    { season: "fair", services: ["power"], night: 9900 },
  ],
  longStay: [{ nights: 10, off: 500 }, { nights: 28, off: 1250 }],
  extras: { vehicle: { included: 1, each: 500 }, person: { included: 2, each: 350 }, pet: { each: 1000, per: "stay" } },
  fees: [{ id: "booking", name: "Booking fee", amount: 395 }, { id: "levy", name: "Town levy", amount: 55, per: "person-night" }],
  taxes: [
    { id: "state", name: "State tax", rate: 825 },
    { id: "lodging", name: "Lodging tax", rate: 333, on: ["site", "extras", "fees"], upToNights: 30 },
  ],
  deposit: { kind: "nights", nights: 1 },
};
const card = rateCardSchema.parse(given);

function quote(ask: Partial<QuoteAsk> & Pick<QuoteAsk, "nights">, from: RateCard = card): Quote {
  const outcome = quoteStay(from, { hookups: full, party: alone, ...ask });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.faults));
  return outcome.quote;
}

describe("share", () => {
  it.each([[10, 500, 1], [-10, 500, -1], [9, 500, 0], [-9, 500, 0], [30, 500, 2], [4800, 825, 396], [1, 5000, 1], [-1, 5000, -1], [0, 825, 0]])(
    "%i at %i hundredths of a per cent is %i: half away from zero",
    (amount, rate, expected) => expect(share(amount, rate)).toBe(expected),
  );
  it("cancels out against the same line given back, at any size", () => {
    fc.assert(fc.property(fc.integer({ min: 0, max: 2 ** 46 }), fc.integer({ min: 0, max: 10_000 }), (amount, rate) => share(amount, rate) + share(-amount, rate) === 0), { seed: 20261125 });
    // 2^46 x 9999 is no longer a number that a double holds.
    expect(share(2 ** 46, 9999)).toBe(70_361_707_303_246);
  });
});

describe("a quote", () => {
  it("is itemised, with every amount to be checked by hand", () => {
    // Four nights of June outside the season: two adults, a child, a towed car and a dog.
    const result = quote({ nights: nights("2027-06-01", "2027-06-05"), party: { persons: 3, vehicles: 2, pets: 1 } });
    expect(result).toEqual({
      currency: "USD",
      nights: { arrive: "2027-06-01", depart: "2027-06-05" },
      lines: [
        { code: "night", id: null, name: null, count: 4, each: 4800, amount: 19_200 },
        { code: "vehicle", id: null, name: null, count: 4, each: 500, amount: 2000 },
        { code: "person", id: null, name: null, count: 4, each: 350, amount: 1400 },
        { code: "pet", id: null, name: null, count: 1, each: 1000, amount: 1000 },
        { code: "fee", id: "booking", name: "Booking fee", count: 1, each: 395, amount: 395 },
        { code: "fee", id: "levy", name: "Town levy", count: 12, each: 55, amount: 660 },
        // 23,600 x 8.25 % = 1947 exactly; 24,655 x 3.33 % = 821.0115.
        { code: "tax", id: "state", name: "State tax", rate: 825, of: 23_600, amount: 1947 },
        { code: "tax", id: "lodging", name: "Lodging tax", rate: 333, of: 24_655, amount: 821 },
      ],
      total: 27_423,
      deposit: 4800,
    });
  });

  it("prices each night by its own season, a dated one before a yearly one", () => {
    const { lines } = quote({ nights: nights("2027-06-30", "2027-07-06") });
    expect(lines.slice(0, 2)).toEqual([
      { code: "night", id: "summer", name: "Summer", count: 3, each: 6150, amount: 18_450 },
      { code: "night", id: "fair", name: "County fair", count: 3, each: 9900, amount: 29_700 },
    ]);
    // The last night of a season is in it, the one after is not.
    expect(quote({ nights: nights("2027-09-04", "2027-09-07") }).lines.slice(0, 2)).toMatchObject([{ id: "summer", count: 2 }, { id: null, count: 1, each: 4800 }]);
  });

  it("makes months and weeks of long stays, priced by the season they begin in", () => {
    // 40 nights from 1 October: a month, a week and three nights; 12.5 % off, no lodging tax above 30 nights.
    const { lines } = quote({ nights: nights("2027-10-01", "2027-11-10") });
    expect(lines.slice(0, 4)).toEqual([
      { code: "month", id: null, name: null, count: 1, each: 99_000, amount: 99_000 },
      { code: "week", id: null, name: null, count: 1, each: 29_500, amount: 29_500 },
      { code: "night", id: null, name: null, count: 3, each: 4800, amount: 14_400 },
      // 142,900 x 12.5 % = 17,862.5
      { code: "long-stay", id: null, name: null, rate: 1250, of: 142_900, amount: -17_863 },
    ]);
    expect(lines.map((line) => line.id)).not.toContain("lodging");
    // A week from 12 June begins outside the summer and is a week of that price.
    expect(quote({ nights: nights("2027-06-12", "2027-06-19") }).lines[0]).toMatchObject({ code: "week", id: null, each: 29_500, count: 1 });
  });

  it("counts a leap day's night and a year's end like any other", () => {
    expect(quote({ nights: nights("2028-02-27", "2028-03-02") }).lines[0]).toMatchObject({ count: 4 });
    expect(quote({ nights: nights("2027-02-27", "2027-03-02") }).lines[0]).toMatchObject({ count: 3 });
    expect(quote({ nights: nights("2027-12-30", "2028-01-02") }).lines[0]).toMatchObject({ count: 3 });
  });

  it("tells the minimum that is missed, and every night without a price", () => {
    const short = quoteStay(card, { nights: nights("2027-07-03", "2027-07-05"), hookups: full, party: alone });
    expect(short).toEqual({ ok: false, faults: [{ code: "min-nights", least: 3, season: "fair" }] });
    const dry = rateCardSchema.parse({ currency: "USD", minNights: 2, prices: [{ services: ["power"], night: 100 }] });
    expect(quoteStay(dry, { nights: nights("2027-01-01", "2027-01-02"), hookups: { services: [], amps: null }, party: alone })).toEqual({
      ok: false,
      faults: [{ code: "min-nights", least: 2, season: null }, { code: "no-price", night: "2027-01-01" }],
    });
  });

  it("of nights added goes by the whole stay and asks nothing twice", () => {
    const first = quote({ nights: nights("2027-10-01", "2027-10-09"), party: { persons: 1, vehicles: 1, pets: 1 } });
    const added = quote({ nights: nights("2027-10-09", "2027-10-11"), party: { persons: 1, vehicles: 1, pets: 1 }, wholeNights: 10 });
    expect(added.lines.map(({ code, id }) => id ?? code)).toEqual(["night", "long-stay", "levy", "state", "lodging"]);
    expect(added.deposit).toBe(0);
    expect(totalOf([first, added])).toBe(first.total + added.total);
  });

  it("stays as it was accepted, whatever the rates become", () => {
    const changed: RateCard = structuredClone(card);
    const kept = acceptQuote(quote({ nights: nights("2027-06-01", "2027-06-05") }, changed), 7, asDate("2027-01-15"), []);
    const before = structuredClone(kept);
    changed.prices.forEach((price) => (price.night *= 2));
    expect(kept).toEqual(before);
    expect(kept).toMatchObject({ card: 7, acceptedOn: "2027-01-15" });
    expect(quote({ nights: nights("2027-06-01", "2027-06-05") }, changed).total).toBeGreaterThan(kept.total);
  });

  it("adds up for any stay on any card", () => {
    const money = fc.integer({ min: 0, max: 100_000 });
    const anyCard = fc.record({
      night: money, week: fc.option(money), month: fc.option(money), summer: money,
      longStay: fc.array(fc.record({ nights: fc.integer({ min: 2, max: 60 }), off: fc.integer({ min: 0, max: 10_000 }) }), { maxLength: 3 }),
      rates: fc.array(fc.integer({ min: 0, max: 10_000 }), { maxLength: 4 }), fee: money, pet: money,
      deposit: fc.oneof(fc.constant({ kind: "none" as const }), fc.record({ kind: fc.constant("share" as const), basisPoints: fc.integer({ min: 0, max: 10_000 }) }),
        fc.record({ kind: fc.constant("nights" as const), nights: fc.integer({ min: 1, max: 20 }) }), fc.record({ kind: fc.constant("amount" as const), amount: money })),
    });
    const anyAsk = fc.record({ from: fc.integer({ min: 0, max: 800 }), count: fc.integer({ min: 1, max: 400 }), persons: fc.integer({ min: 1, max: 9 }), vehicles: fc.integer({ min: 0, max: 4 }), pets: fc.integer({ min: 0, max: 5 }) });
    fc.assert(
      fc.property(anyCard, anyAsk, ({ night, week, month, summer, longStay, rates, fee, pet, deposit }, { from, count, ...party }) => {
        const made = rateCardSchema.parse({
          currency: "EUR",
          seasons: [{ id: "winter", name: "Winter", periods: [{ first: "11-15", last: "02-29" }] }],
          prices: [{ night, week, month }, { season: "winter", night: summer }],
          longStay,
          extras: { pet: { each: pet }, person: { included: 2, each: 111, per: "stay" } },
          fees: [{ id: "f", name: "F", amount: fee, per: "night" }],
          taxes: rates.map((rate, i) => ({ id: `t${i}`, name: "T", rate, on: i % 2 ? ["fees"] : ["site", "extras"] })),
          deposit,
        });
        const arrive = addDays(asDate("2027-01-01"), from);
        const result = quote({ nights: nights(arrive, addDays(arrive, count)), party }, made);
        expect(addsUp(result)).toBe(true);
        const blocks = { night: 1, week: 7, month: 30 };
        const slept = result.lines.reduce((sum, line) => (line.code in blocks ? sum + blocks[line.code as "night"] * ("count" in line ? line.count : 0) : sum), 0);
        expect(slept).toBe(countNights(result.nights));
      }),
      { seed: 20261125, numRuns: 300 },
    );
  });

  it("that does not add up is told", () => {
    const right = quote({ nights: nights("2027-06-01", "2027-06-05") });
    expect(addsUp({ ...right, total: right.total + 1 })).toBe(false);
    expect(addsUp({ ...right, deposit: right.total + 1 })).toBe(false);
    expect(addsUp({ ...right, lines: right.lines.map((line, i) => (i === 0 ? { ...line, amount: line.amount + 1 } : line)), total: right.total + 1 })).toBe(false);
  });
});

describe("the class of a site", () => {
  it("is what its hookups are, a rinse tap none", () => {
    const hookups = [
      { id: "p", kind: "power" as const, at: [0, 0] as [number, number], height: 1, receptacles: [30, 50] as (30 | 50)[] },
      { id: "r", kind: "rinse-water" as const, at: [0, 0] as [number, number], height: 1 },
    ];
    expect(hookupsOf({ hookups } as Parameters<typeof hookupsOf>[0])).toEqual({ services: ["power"], amps: 50 });
    expect(hookupsOf({ hookups: [] } as unknown as Parameters<typeof hookupsOf>[0])).toEqual({ services: [], amps: null });
  });

  it("takes the closest price that it meets: season, then services, then receptacle", () => {
    expect(priceFor(card.prices, "summer", full)?.night).toBe(6150);
    expect(priceFor(card.prices, "summer", { ...full, amps: 30 })?.night).toBe(4200);
    expect(priceFor(card.prices, null, { services: ["power", "water"], amps: 30 })?.night).toBe(2000);
    expect(priceFor(card.prices, "fair", full)?.night).toBe(9900);
    expect(priceFor(card.prices, "fair", { services: [], amps: null })?.night).toBe(2000);
  });

  it("counts vehicles as the park's rules do", () => {
    const party = { adults: 2, children: 1, pets: 1, tents: 0, accessible: false };
    const tow = { length: 5000, width: 2000, height: 1800, overlap: undefined, stays: "on-site" as const };
    expect(partyOf({ kind: "class-a", tow, party })).toEqual({ persons: 3, vehicles: 2, pets: 1 });
    expect(partyOf({ kind: "travel-trailer", tow, party }).vehicles).toBe(1);
    expect(partyOf({ kind: "van", tow: { ...tow, stays: "elsewhere" }, party }).vehicles).toBe(1);
    expect(partyOf({ kind: "travel-trailer", tow: undefined, party }).vehicles).toBe(0);
  });
});
