import { z } from "zod";
import { across } from "@/lib/measure";
import { readDate } from "./dates";
import { basisPointsField, idField, minorField, nameField, tellRepeats, wholeNumber } from "./fields";
import { mostNights } from "./nights";
import { periodFault, tellOverlaps } from "./seasons";

/** What a site can be asked for by: the services at its hookups. */
export const hookupServices = ["power", "water", "sewer"] as const;
export type HookupService = (typeof hookupServices)[number];

const bound = z
  .string("must be a date such as 2027-06-18, or 06-18 for every year")
  .refine((text) => periodFault(text) === null, "must be a date such as 2027-06-18, or 06-18 for every year");

const period = z
  .object({ first: bound.describe("Its first night."), last: bound.describe("Its last night, included.") })
  .check(across(({ first, last }, fault) => {
    if (typeof first !== "string" || typeof last !== "string" || periodFault(first) || periodFault(last)) return;
    const dated = readDate(first) !== null;
    if (dated !== (readDate(last) !== null)) fault(["last"], "must be of the same kind as first: both with a year, or both for every year");
    else if (dated && last < first) fault(["last"], "must not be before first");
  }));

const season = z.object({
  id: idField,
  name: nameField,
  periods: z.array(period, "must be a list of periods").min(1, "needs at least one period").max(50),
  minNights: wholeNumber(1, mostNights).default(1).describe("A stay with any night in this season has at least so many."),
});

const price = z.object({
  season: idField.nullable().default(null).describe("Null: every night that has no price of its season's own."),
  services: z.array(z.enum(hookupServices, `must be one of ${hookupServices.join(", ")}`), "must be a list of services").max(3).default([]).describe("The class of hookups: for sites that have all of these."),
  amps: z.literal([50, 30, 20, 15], "must be 50, 30, 20 or 15 (amperes)").nullable().default(null).describe("For sites with a receptacle of at least this. Null: whatever there is."),
  night: minorField,
  week: minorField.nullable().default(null).describe("Seven nights in a row; null: seven times the night."),
  month: minorField.nullable().default(null).describe("Thirty nights in a row; null: made of weeks and nights."),
});

const extra = z.object({
  included: wholeNumber(0, 1000).default(0).describe("So many cost nothing."),
  each: minorField,
  per: z.enum(["night", "stay"], "must be night or stay").default("night"),
});

const fee = z.object({
  id: idField,
  name: nameField,
  amount: minorField,
  per: z.enum(["stay", "night", "person-night"], "must be stay, night or person-night").default("stay"),
});

const tax = z.object({
  id: idField,
  name: nameField,
  rate: basisPointsField,
  on: z.array(z.enum(["site", "extras", "fees"], "must be site, extras or fees"), "must be a list").min(1, "needs at least one of site, extras and fees").max(3).default(["site", "extras"]),
  upToNights: wholeNumber(1, mostNights).nullable().default(null).describe("Asked of stays of at most so many nights; null: of every stay."),
});

const deposit = z.discriminatedUnion(
  "kind",
  [
    z.object({ kind: z.literal("none") }),
    z.object({ kind: z.literal("share"), basisPoints: basisPointsField }),
    z.object({ kind: z.literal("nights"), nights: wholeNumber(1, mostNights) }),
    z.object({ kind: z.literal("amount"), amount: minorField }),
  ],
  "must be none, a share, a number of nights or an amount",
);

/** What a park asks for. Whole minor units of one currency; nights are priced by season, class of hookups and length of stay. */
export const rateCardSchema = z
  .object({
    currency: z.string("must be a currency such as USD").regex(/^[A-Z]{3}$/, "must be a currency of three capital letters such as USD"),
    seasons: z.array(season, "must be a list of seasons").max(50).default([]),
    minNights: wholeNumber(1, mostNights).default(1),
    prices: z.array(price, "must be a list of prices").min(1, "needs at least one price").max(500),
    longStay: z
      .array(z.object({ nights: wholeNumber(2, mostNights), off: basisPointsField }), "must be a list of rules")
      .max(20)
      .default([])
      .describe("Off the price of the nights, for stays of at least so many. The longest rule reached counts, alone."),
    extras: z
      .object({ vehicle: extra.nullable().default(null), person: extra.nullable().default(null), pet: extra.nullable().default(null) })
      .prefault({}),
    fees: z.array(fee, "must be a list of fees").max(50).default([]),
    taxes: z.array(tax, "must be a list of taxes").max(50).default([]),
    deposit: deposit.default({ kind: "none" }),
  })
  .check(across((card, fault) => {
    for (const field of ["seasons", "fees", "taxes"] as const) tellRepeats(card[field], field, fault);
    const seasons = Array.isArray(card.seasons) ? card.seasons : [];
    const known = new Set(seasons.map((entry) => entry?.id));
    (Array.isArray(card.prices) ? card.prices : []).forEach((entry, i) => {
      if (typeof entry?.season === "string" && !known.has(entry.season)) fault(["prices", i, "season"], `there is no season "${entry.season}"`);
    });
    tellRepeatedPrices(card.prices, fault);
    tellOverlaps(seasons, fault);
  }))
  .describe("What a park asks for.");

export type RateCard = z.infer<typeof rateCardSchema>;
export type RateCardInput = z.input<typeof rateCardSchema>;
export type Season = RateCard["seasons"][number];
export type Price = RateCard["prices"][number];

function tellRepeatedPrices(prices: readonly Price[] | undefined, fault: (path: PropertyKey[], message: string) => void): void {
  const seen = new Set<string>();
  (Array.isArray(prices) ? prices : []).forEach((entry, i) => {
    if (!Array.isArray(entry?.services)) return;
    const key = [entry.season ?? "", ...[...new Set(entry.services)].sort(), entry.amps ?? ""].join("|");
    if (seen.has(key)) fault(["prices", i], "is for the same season and class as one above");
    seen.add(key);
  });
}
