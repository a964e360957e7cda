import { z } from "zod";
import { repeatedIds } from "@/lib/measure";
import { firstYear, lastYear, readDate, type IsoDate } from "./dates";
import { mostMinor, wholeInBasisPoints } from "./money";

/**
 * Building blocks of the schemas of this room. Whole numbers are asked for as multiples of 1: zod's `int` ends the
 * reading, and checks across fields would then not tell their faults beside it.
 */

/** A date such as 2027-06-18, read as {@link IsoDate}. */
export const dateField = z
  .string("must be a date such as 2027-06-18")
  .refine((text) => readDate(text) !== null, `must be a date of the calendar such as 2027-06-18, from ${firstYear} to ${lastYear}`)
  .transform((text) => text as IsoDate);

/** Minor units, zero or more. */
export const minorField = z
  .number("must be a whole number of the currency's smallest unit")
  .multipleOf(1, "must be a whole number of the currency's smallest unit")
  .min(0, "must not be negative")
  .max(mostMinor, `must not be more than ${mostMinor}`);

/** Hundredths of a per cent from 0 to 100 %. */
export const basisPointsField = z
  .number("must be in hundredths of a per cent, 825 for 8.25 %")
  .multipleOf(1, "must be a whole number of hundredths of a per cent, 825 for 8.25 %")
  .min(0, "must not be negative")
  .max(wholeInBasisPoints, "must not be more than 10000, which is 100 %");

export const nameField = z.string("must be a text").trim().min(1, "must not be empty").max(80, "must not be longer than 80 letters");
export const idField = z.string("must be a text").regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, "must be small letters, digits and single hyphens").max(40);

export function wholeNumber(least: number, most: number) {
  const message = `must be a whole number from ${least} to ${most}`;
  return z.number(message).multipleOf(1, message).min(least, message).max(most, message);
}

/** Tells every id of `list` that came before in it. */
export function tellRepeats(list: readonly unknown[] | undefined, field: string, fault: (path: PropertyKey[], message: string) => void): void {
  for (const { at, id } of repeatedIds(list)) fault([field, at, "id"], `"${id}" is already used above`);
}
