import { z } from "zod";
import { across } from "@/lib/measure";
import { addDays, compareDates, daysBetween, isTimeZone, type IsoDate } from "./dates";
import { basisPointsField, idField, minorField, nameField, tellRepeats, wholeNumber } from "./fields";
import { mostNights, type Nights } from "./nights";

/** What can be lent: what a guest may lack for a site's hookups or slope. */
export const lendableKinds = ["power-cord", "water-hose", "sewer-hose", "adapter", "regulator", "blocks", "other"] as const;

const clockField = z.string("must be a time such as 15:00").regex(/^([01]\d|2[0-3]):[0-5]\d$/, "must be a time such as 15:00");
const timeOfDay = (fallback: string, meaning: string) => clockField.default(fallback).describe(meaning);

/** What the park keeps of the price: nothing more than the price is ever kept. */
const keep = z.discriminatedUnion(
  "kind",
  [
    z.object({ kind: z.literal("share"), basisPoints: basisPointsField }),
    z.object({ kind: z.literal("nights"), nights: wholeNumber(0, mostNights) }),
    z.object({ kind: z.literal("amount"), amount: minorField }),
  ],
  "must be a share (hundredths of a per cent), a number of nights or an amount",
);

export const cancellationStepSchema = z.object({
  daysBefore: wholeNumber(0, 1000).describe("Applies to cancelling at least this many days before the arrival."),
  keep,
});

const hoursOfDay = z.object({ from: clockField, to: clockField }).nullable();

/** What guests are asked to keep to. Told wherever a stay is confirmed; no verdict depends on it. */
const houseRulesSchema = z.object({
  quietHours: hoursOfDay.default({ from: "22:00", to: "07:00" }).describe("No noise between these, past midnight where the first is the later. Null: none are kept."),
  generatorHours: hoursOfDay.default(null).describe("Generators may run between these alone. Null: the park says nothing of them."),
  campfires: z.enum(["rings-only", "anywhere", "never"], "must be rings-only, anywhere or never").default("rings-only").describe("Where fires may be lit."),
  more: z.array(z.string("must be a text").trim().min(1, "must not be empty").max(300), "must be a list of texts").max(30).default([]).describe("Any others, in the park's own words."),
});

/** What the desk has to lend, and how many of it. What a guest lacks is offered by `kind` and `reach`. */
const lendableSchema = z.object({
  id: idField,
  name: nameField,
  kind: z.enum(lendableKinds, `must be one of ${lendableKinds.join(", ")}`),
  reach: wholeNumber(1, 100_000).nullable().default(null).describe("Of a cord or hose, its length in millimetres; of blocks, the lift."),
  count: wholeNumber(0, 1000),
});

/** A park's own settings for stays. Every value is the park's to change. */
export const staySettingsSchema = z
  .object({
    zone: z
      .string("must be a time zone such as America/Denver")
      .refine(isTimeZone, "must be a time zone such as America/Denver")
      .default("UTC")
      .describe("Tells which date it is in the park; nothing else depends on it."),
    guestsMay: z.enum(["ask", "book"], "must be ask or book").default("ask").describe("Whether a guest's stay is booked at once or asked for, to be answered by the desk."),
    holdMinutes: wholeNumber(1, 1440).default(20).describe("How long a site is held while a guest fills in the form."),
    answerHours: wholeNumber(1, 720).nullable().default(null).describe("After this a request that nobody has answered gives its site back. Null: it waits until it is answered."),
    checkIn: timeOfDay("15:00", "From when a guest may come on the arrival day; told, not enforced."),
    checkOut: timeOfDay("11:00", "By when a guest leaves on the departure day; told, not enforced."),
    daysAhead: wholeNumber(1, 730).default(365).describe("How far ahead a guest may arrive. The desk is not bound by it."),
    longestStay: wholeNumber(1, mostNights).default(28).describe("Most nights a guest may ask for. The desk is bound by 400 alone."),
    houseRules: houseRulesSchema.prefault({}),
    lends: z.array(lendableSchema, "must be a list of things").max(100).default([]).describe("What the desk has to lend."),
    cancellation: z
      .array(cancellationStepSchema, "must be a list of steps")
      .max(20)
      .default([])
      .describe("What the park keeps, by how long before arrival a guest cancels. Nothing where no step applies to it and the list is empty."),
  })
  .check(across((settings, fault) => {
    tellRepeats(settings.lends, "lends", fault);
    const seen = new Set<unknown>();
    (Array.isArray(settings.cancellation) ? settings.cancellation : []).forEach((step, i) => {
      if (seen.has(step?.daysBefore)) fault(["cancellation", i, "daysBefore"], "another step begins on the same day");
      seen.add(step?.daysBefore);
    });
    if (seen.size > 0 && !seen.has(0)) fault(["cancellation"], "needs a step of 0 days, for who cancels late");
  }))
  .describe("A park's own settings for stays.");

export type StaySettings = z.infer<typeof staySettingsSchema>;
export type StaySettingsInput = z.input<typeof staySettingsSchema>;
export type HouseRules = StaySettings["houseRules"];
export type Lendable = StaySettings["lends"][number];
export type CancellationStep = StaySettings["cancellation"][number];

export const defaultStaySettings: StaySettings = staySettingsSchema.parse({});

/** Why nights that are nights cannot be had of this park today, with the first date or the most nights that can. */
export type LimitFault =
  | { readonly code: "in-the-past"; readonly earliest: IsoDate }
  | { readonly code: "too-far-ahead"; readonly latest: IsoDate }
  | { readonly code: "longer-than-allowed"; readonly most: number };

/**
 * What of the park's limits `nights` breaks; all of it at once. The desk may begin a stay on the night before today, for
 * who comes after midnight, and is bound by no horizon.
 */
export function judgeNights(nights: Nights, by: "guest" | "desk", today: IsoDate, settings: StaySettings): LimitFault[] {
  const earliest = by === "desk" ? addDays(today, -1) : today;
  const latest = addDays(today, settings.daysAhead);
  const faults: LimitFault[] = [];
  if (compareDates(nights.arrive, earliest) < 0) faults.push({ code: "in-the-past", earliest });
  if (by === "guest" && compareDates(nights.arrive, latest) > 0) faults.push({ code: "too-far-ahead", latest });
  if (by === "guest" && daysBetween(nights.arrive, nights.depart) > settings.longestStay) faults.push({ code: "longer-than-allowed", most: settings.longestStay });
  return faults;
}
