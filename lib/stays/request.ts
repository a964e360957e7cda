import { z } from "zod";
import { across, optional } from "@/lib/measure";
import { rigSchema } from "@/lib/rig";
import { readDate } from "./dates";
import { dateField, minorField, nameField } from "./fields";
import { mostNights, readNights } from "./nights";
import { hookupServices } from "./rates";

const nightFaults = {
  "no-nights": "must be after the arrival: a stay has at least one night",
  backwards: "must be after the arrival",
  "too-many-nights": `must be at most ${mostNights} nights after the arrival`,
} as const;

/** Tells what is wrong between two dates that are each right. */
function judgeDates({ arrive, depart }: { arrive?: unknown; depart?: unknown }, fault: (path: PropertyKey[], message: string) => void): void {
  if (typeof arrive !== "string" || typeof depart !== "string" || !readDate(arrive) || !readDate(depart)) return;
  const read = readNights(arrive, depart);
  if (read.ok) return;
  for (const code of read.faults) if (code in nightFaults) fault(["depart"], nightFaults[code as keyof typeof nightFaults]);
}

/** Two dates that are nights. */
export const nightsSchema = z.object({ arrive: dateField, depart: dateField }).check(across(judgeDates));

const text = (most: number) => z.string("must be a text").trim().max(most, `must not be longer than ${most} letters`);

/** Who comes. A guest needs a name and one way to be reached; the desk may take down a name alone. */
export const guestSchema = z.object({
  name: nameField,
  email: optional(z.email("must be an e-mail address").max(200)),
  phone: optional(text(40).regex(/\d.*\d.*\d.*\d.*\d/, "must be a phone number")),
  plate: optional(text(20)),
});

/** What will do where the stay is not for one site: any that fits, in this loop, with these hookups. */
export const wantedSchema = z.object({
  loop: optional(text(80)),
  services: z.array(z.enum(hookupServices, `must be one of ${hookupServices.join(", ")}`), "must be a list of services").max(3).default([]),
});

/** A stay as it is asked for: every fault at once, each with its field. */
export const stayRequestSchema = z
  .object({
    arrive: dateField,
    depart: dateField,
    site: optional(z.string("must be a site's id").min(1, "must not be empty").max(80)).describe("The site chosen. Left out: any that fits, to be assigned."),
    wanted: wantedSchema.prefault({}),
    rig: rigSchema,
    guest: optional(guestSchema).describe("May be left out only while a site is held."),
    note: text(2000).default(""),
  })
  .check(across(judgeDates));

export type StayRequest = z.infer<typeof stayRequestSchema>;
export type StayRequestInput = z.input<typeof stayRequestSchema>;
export type Guest = z.infer<typeof guestSchema>;
export type Wanted = z.infer<typeof wantedSchema>;

/** Money that changed hands elsewhere, as it is noted: a refund's amount is above zero too. */
export const paymentSchema = z.object({
  amount: minorField.refine((amount) => amount !== 0, "must be more than 0"),
  currency: z.string("must be a currency such as USD").regex(/^[A-Z]{3}$/, "must be a currency of three capital letters such as USD"),
  purpose: z.enum(["deposit", "stay", "refund"], "must be deposit, stay or refund"),
  means: nameField.describe("How it was paid, in the desk's words. Never a card's number."),
});

export type Payment = z.infer<typeof paymentSchema>;
