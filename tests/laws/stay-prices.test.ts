import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { addDays, countNights, dateOfDay, priceSite, quoteStay, rateCardSchema, totalOf, type Hookups, type IsoDate, type Nights, type Quote, type QuoteLine, type QuoteParty, type RateCard, type RateCardInput } from "@/lib/stays";

const seed = 20261125;
const runsOf = (numRuns: number) => ({ seed, numRuns });

const money = fc.integer({ min: 0, max: 150_000 });
const rate = fc.integer({ min: 0, max: 10_000 });
const anyNights = fc.tuple(fc.integer({ min: 21_000, max: 22_000 }), fc.integer({ min: 1, max: 400 })).map(([from, count]): Nights => ({ arrive: dateOfDay(from), depart: dateOfDay(from + count) }));
const anyParty: fc.Arbitrary<QuoteParty> = fc.record({ persons: fc.integer({ min: 1, max: 9 }), vehicles: fc.integer({ min: 0, max: 4 }), pets: fc.integer({ min: 0, max: 5 }) });
const hookups: Hookups = { services: ["power", "water"], amps: 30 };
const per = fc.constantFrom("night" as const, "stay" as const);
const part = fc.subarray(["site", "extras", "fees"] as const, { minLength: 1 });

interface Drawn { readonly seasons: boolean; readonly blocks: boolean }

/** A card that uses any of the rules. `blocks`: weeks and months may have a price of their own. */
function anyCard({ seasons, blocks }: Drawn): fc.Arbitrary<RateCard> {
  const block = blocks ? fc.option(money) : fc.constant(null);
  return fc.record({
    night: money, week: block, month: block, summer: money, summerWeek: block,
    longStay: fc.uniqueArray(fc.record({ nights: fc.integer({ min: 2, max: 90 }), off: rate }), { maxLength: 3, selector: ({ nights }) => nights }),
    vehicle: fc.option(fc.record({ included: fc.nat(2), each: money, per })), person: fc.option(fc.record({ included: fc.nat(3), each: money, per })), pet: fc.option(fc.record({ each: money, per })),
    fees: fc.array(fc.record({ amount: money, per: fc.constantFrom("stay" as const, "night" as const, "person-night" as const) }), { maxLength: 3 }),
    taxes: fc.array(fc.record({ rate, on: part, upToNights: fc.option(fc.integer({ min: 1, max: 60 })) }), { maxLength: 4 }),
    deposit: fc.oneof(fc.constant({ kind: "none" as const }), fc.record({ kind: fc.constant("share" as const), basisPoints: rate }), fc.record({ kind: fc.constant("nights" as const), nights: fc.integer({ min: 1, max: 30 }) }), fc.record({ kind: fc.constant("amount" as const), amount: money })),
  }).map(({ night, week, month, summer, summerWeek, longStay, vehicle, person, pet, fees, taxes, deposit }) => {
    const card: RateCardInput = {
      currency: "USD",
      seasons: seasons ? [{ id: "summer", name: "Summer", periods: [{ first: "06-15", last: "09-05" }, { first: "12-20", last: "01-04" }] }] : [],
      prices: [{ night, week, month }, ...(seasons ? [{ season: "summer", night: summer, week: summerWeek }] : [])],
      longStay, extras: { vehicle, person, pet }, deposit,
      fees: fees.map((fee, i) => ({ id: `f${i}`, name: `Fee ${i}`, ...fee })),
      taxes: taxes.map((tax, i) => ({ id: `t${i}`, name: `Tax ${i}`, ...tax })),
    };
    return rateCardSchema.parse(card);
  });
}

function quote(card: RateCard, nights: Nights, party: QuoteParty, wholeNights?: number): Quote {
  const outcome = quoteStay(card, { nights, hookups, party, ...(wholeNights === undefined ? {} : { wholeNights }) });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.faults));
  return outcome.quote;
}

const codes = { site: ["night", "week", "month", "long-stay"], extras: ["vehicle", "person", "pet"], fees: ["fee"] } as const;
const amountOf = (lines: readonly QuoteLine[], only?: readonly string[]) => lines.reduce((sum, { code, amount }) => sum + (only === undefined || only.includes(code) ? amount : 0), 0);

describe("a quote, on any card, for any stay", () => {
  it("is lines in whole minor units that add up to the total, and a deposit within it", () => {
    fc.assert(fc.property(anyCard({ seasons: true, blocks: true }), anyNights, anyParty, (card, nights, party) => {
      const { lines, total, deposit } = quote(card, nights, party);
      for (const { amount } of lines) expect(Number.isSafeInteger(amount)).toBe(true);
      expect(amountOf(lines)).toBe(total);
      for (const line of lines) if (!("rate" in line)) expect(line.amount).toBe(line.count * line.each);
      expect(Number.isSafeInteger(deposit) && deposit >= 0 && deposit <= total).toBe(true);
      for (const line of lines) expect(Object.is(line.amount, -0)).toBe(false);
    }), runsOf(500));
  });

  it("rounds a share, and nothing else, to the nearest unit, half away from zero, each by itself", () => {
    fc.assert(fc.property(anyCard({ seasons: true, blocks: true }), anyNights, anyParty, (card, nights, party) => {
      for (const line of quote(card, nights, party).lines) {
        if (!("rate" in line)) continue;
        const size = BigInt(Math.abs(line.amount)) * 10_000n, exact = BigInt(line.of) * BigInt(line.rate);
        // By at most half a unit off, and upwards where it is exactly half.
        expect(size - exact <= 5000n && exact - size < 5000n, `${line.of} x ${line.rate} gave ${line.amount}`).toBe(true);
        expect(line.amount <= 0).toBe(line.code === "long-stay" || line.amount === 0);
      }
    }), runsOf(500));
  });

  it("lays each tax on what the card says, counted from the lines, and never on another tax", () => {
    fc.assert(fc.property(anyCard({ seasons: true, blocks: true }), anyNights, anyParty, (card, nights, party) => {
      const { lines } = quote(card, nights, party);
      for (const tax of card.taxes) {
        const line = lines.find(({ code, id }) => code === "tax" && id === tax.id);
        const base = tax.on.reduce((sum, on) => sum + amountOf(lines, codes[on]), 0);
        const asked = base > 0 && tax.rate > 0 && (tax.upToNights === null || countNights(nights) <= tax.upToNights);
        expect(line !== undefined).toBe(asked);
        if (line && "of" in line) expect(line.of).toBe(base);
      }
    }), runsOf(500));
  });

  it("prices every night exactly once, whether in nights, weeks or months", () => {
    fc.assert(fc.property(anyCard({ seasons: true, blocks: true }), anyNights, (card, nights) => {
      const price = priceSite(card, nights, hookups);
      const length = { night: 1, week: 7, month: 30 };
      expect(price.ok && price.lines.reduce((sum, { code, count }) => sum + length[code] * count, 0)).toBe(countNights(nights));
    }), runsOf(300));
  });

  it("stays the same when the nights are moved, season apart", () => {
    fc.assert(fc.property(anyCard({ seasons: false, blocks: true }), anyNights, anyParty, fc.integer({ min: -8000, max: 50_000 }), (card, nights, party, by) => {
      const later = { arrive: addDays(nights.arrive, by), depart: addDays(nights.depart, by) };
      expect(quote(card, later, party)).toEqual({ ...quote(card, nights, party), nights: later });
    }), runsOf(300));
  });

  it("stays the same when a dated season is moved along", () => {
    const card = (from: IsoDate, to: IsoDate) => rateCardSchema.parse({ currency: "USD", seasons: [{ id: "fair", name: "Fair", periods: [{ first: from, last: to }], minNights: 1 }], prices: [{ night: 4100, week: 25_000 }, { season: "fair", night: 7300 }] });
    fc.assert(fc.property(anyNights, anyNights, fc.integer({ min: -8000, max: 50_000 }), (nights, season, by) => {
      const move = (date: IsoDate) => addDays(date, by), last = addDays(season.depart, -1);
      const before = quote(card(season.arrive, last), nights, { persons: 1, vehicles: 1, pets: 0 });
      const after = quote(card(move(season.arrive), move(last)), { arrive: move(nights.arrive), depart: move(nights.depart) }, { persons: 1, vehicles: 1, pets: 0 });
      expect(after.lines).toEqual(before.lines);
      expect(after.total).toBe(before.total);
    }), runsOf(300));
  });
});

describe("a stay cut in two", () => {
  const cutAt = ({ arrive, depart }: Nights, where: number): [Nights, Nights] => {
    const cut = addDays(arrive, 1 + (where % (countNights({ arrive, depart }) - 1)));
    return [{ arrive, depart: cut }, { arrive: cut, depart }];
  };

  it("has the same nights at the same prices, where weeks and months have none of their own", () => {
    fc.assert(fc.property(anyCard({ seasons: true, blocks: false }), anyNights, fc.nat(), (card, nights, where) => {
      fc.pre(countNights(nights) > 1);
      const counts = (...some: Nights[]) => {
        const of = new Map<string, number>();
        for (const one of some) {
          const price = priceSite(card, one, hookups);
          if (!price.ok) throw new Error("no price");
          for (const { id, each, count } of price.lines) of.set(`${id} at ${each}`, (of.get(`${id} at ${each}`) ?? 0) + count);
        }
        return [...of].sort();
      };
      expect(counts(...cutAt(nights, where))).toEqual(counts(nights));
    }), runsOf(300));
  });

  it("asks the same for nights, extras and fees as one, the second part being nights added; shares differ by rounding alone", () => {
    fc.assert(fc.property(anyCard({ seasons: true, blocks: false }), anyNights, anyParty, fc.nat(), (card, nights, party, where) => {
      fc.pre(countNights(nights) > 1);
      const whole = quote(card, nights, party), [first, added] = cutAt(nights, where);
      // Both parts by the rules of the whole: its long stay, and the taxes that go by its length. What is asked once a stay belongs to the first.
      const once = askedOnce(card, party), parts = [quote(card, first, party, countNights(nights)), quote(card, added, party, countNights(nights))];
      const of = (some: readonly Quote[], only: readonly string[]) => some.reduce((sum, { lines }) => sum + amountOf(lines, only), 0);
      for (const code of ["night", ...codes.extras, ...codes.fees]) expect(of(parts, [code]) + (once.get(code) ?? 0)).toBe(of([whole], [code]));
      expect(Math.abs(of(parts, ["long-stay"]) - of([whole], ["long-stay"]))).toBeLessThanOrEqual(1);
      // Of each tax: half a unit for every rounding, and for the long stay's own.
      if ([...once.values()].every((amount) => amount === 0)) {
        const taxOf = (some: readonly Quote[], id: string) => some.reduce((sum, { lines }) => sum + amountOf(lines.filter((line) => line.code === "tax" && line.id === id)), 0);
        for (const { id } of card.taxes) expect(Math.abs(taxOf(parts, id) - taxOf([whole], id))).toBeLessThanOrEqual(2);
      }
      expect(totalOf(parts)).toBe(of(parts, ["night", "long-stay", ...codes.extras, ...codes.fees, "tax"]));
    }), runsOf(300));
  });

  /** What the card asks once for a whole stay, by code of line. */
  function askedOnce(card: RateCard, party: QuoteParty): Map<string, number> {
    const counts = { vehicle: party.vehicles, person: party.persons, pet: party.pets };
    const once = new Map<string, number>([["fee", card.fees.reduce((sum, { amount, per: by }) => sum + (by === "stay" ? amount : 0), 0)]]);
    for (const code of ["vehicle", "person", "pet"] as const) {
      const rule = card.extras[code];
      once.set(code, rule?.per === "stay" ? Math.max(0, counts[code] - rule.included) * rule.each : 0);
    }
    return once;
  }
});
