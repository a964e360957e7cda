import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { decimalOf, formatMoney, placesOf, readMoney } from "@/lib/wording/money";

const seed = 20261125;

describe("an amount that somebody types", () => {
  it.each<[string, number, number]>([
    ["$45", 2, 4500], ["45.5", 2, 4550], ["45", 2, 4500], ["45.", 2, 4500], ["45.05", 2, 4505], ["0", 2, 0], ["0.01", 2, 1], ["007", 2, 700], ["  $ 12.50 ", 2, 1250],
    ["1,200.00", 2, 120_000], ["$1,234.56", 2, 123_456], ["1,234,567", 2, 123_456_700], ["1200", 2, 120_000], ["€45", 2, 4500], ["CA$45", 2, 4500], ["USD 45", 2, 4500], ["USD45.10", 2, 4510],
    // Currencies without a smaller coin, and with one of a thousandth.
    ["1200", 0, 1200], ["¥1,200", 0, 1200], ["1.5", 3, 1500], ["1.234", 3, 1234], ["KWD 0.005", 3, 5],
    ["999999999.99", 2, 99_999_999_999],
  ])("%j, with %i places, is %i", (text, places, amount) => expect(readMoney(text, places)).toBe(amount));

  it.each<[string, number]>([
    ["", 2], ["$", 2], ["abc", 2], ["forty", 2], ["4 5", 2], ["45 50", 2], ["1e3", 2], ["0x10", 2], ["NaN", 2], ["Infinity", 2], ["45.5.5", 2], ["..5", 2], ["-45", 2], ["-$45", 2], ["$-45", 2], ["--5", 2], ["45-", 2], ["٤٥", 2],
    // More places than the currency has are no rounding of ours to make.
    ["45.555", 2], ["45.5", 0], ["45.0", 0], ["1.2345", 3],
    // A comma that parts no thousands may be a decimal point: a hundredfold price is worse than a question.
    ["45,50", 2], ["1,20", 2], ["1,2,3", 2], ["1,2345", 2], ["12,34.5", 2], [",500", 2], ["1,200,", 2], ["1200,000", 2],
  ])("%j, with %i places, is none", (text, places) => expect(readMoney(text, places)).toBe(null));

  it("is the amount again that it was printed from, in every currency", () => {
    fc.assert(fc.property(fc.nat({ max: 99_999_999_999 }), fc.constantFrom("USD", "EUR", "CAD", "JPY", "KRW", "KWD", "BHD", "CLP", "CHF", "SEK", "ISK"), (amount, currency) => {
      fc.pre(amount < 10 ** (9 + placesOf(currency)));
      expect(readMoney(decimalOf(amount, placesOf(currency)), placesOf(currency))).toBe(amount);
      expect(readMoney(formatMoney(amount, currency), placesOf(currency))).toBe(amount);
    }), { seed, numRuns: 500 });
  });
});

describe("an amount as it is printed", () => {
  it.each<[number, string, string]>([
    [4500, "USD", "$45.00"], [123_456, "USD", "$1,234.56"], [0, "USD", "$0.00"], [5, "USD", "$0.05"], [-1200, "USD", "-$12.00"], [-5, "USD", "-$0.05"],
    [1200, "JPY", "¥1,200"], [7, "JPY", "¥7"], [1_234, "KWD", "KWD\u00a01.234"], [5, "KWD", "KWD\u00a00.005"], [4500, "CAD", "CA$45.00"],
    // No number of a double's between is gone through: every unit of the largest sum is there.
    [Number.MAX_SAFE_INTEGER, "USD", "$90,071,992,547,409.91"], [-Number.MAX_SAFE_INTEGER, "JPY", "-¥9,007,199,254,740,991"],
  ])("%i of %s is %s", (amount, currency, text) => expect(formatMoney(amount, currency)).toBe(text));

  it("knows how many places a currency has", () => expect(["USD", "JPY", "KWD"].map(placesOf)).toEqual([2, 0, 3]));

  it("fills a field in without signs", () => {
    expect([decimalOf(123_450, 2), decimalOf(5, 2), decimalOf(0, 2), decimalOf(-5, 2), decimalOf(1200, 0), decimalOf(0, 0), decimalOf(1, 3)]).toEqual(["1234.50", "0.05", "0.00", "-0.05", "1200", "0", "0.001"]);
  });
});
