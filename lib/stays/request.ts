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

/** A stay as the interface is asked for it: the park, what kind of stay, and the total that is agreed to. */
export const stayCallSchema = stayRequestSchema.safeExtend({
  park: z.string("must be the short name of a park").min(1, "must not be empty").max(80),
  as: z.enum(["hold", "request", "book"], "must be hold, request or book").optional().describe("Left out: book where the park lets guests book, else request."),
  accepts: optional(minorField).describe("The total agreed to, in the currency's smallest unit: refused where the price is another. Left out: the price in force, which the answer itemises."),
});

/** What may be changed of a stay. One kind of change at a time, so that none is half done. */
export const stayPatchSchema = z
  .object({
    version: optional(z.number("must be a whole number").multipleOf(1, "must be a whole number")).describe("The version that was read. A change on an older one is refused."),
    reason: optional(text(500)).describe("Kept with the change."),
    rig: optional(rigSchema),
    guest: optional(guestSchema),
    note: optional(text(2000)),
    arrive: optional(dateField),
    depart: optional(dateField),
    site: optional(z.string("must be a site's id").min(1, "must not be empty").max(80)),
    state: optional(z.enum(["requested", "booked", "arrived", "departed", "cancelled", "no-show"], "must be requested, booked, arrived, departed, cancelled or no-show")),
    accepts: optional(minorField).describe("The total agreed to, where a price is due."),
    override: optional(text(500).min(1, "say why")).describe("Staff alone: take a site or rig that does not fit well, and why."),
  })
  .check(across((patch, fault) => {
    judgeDates(patch, fault);
    const asked = patchKinds.filter((fields) => fields.some((field) => patch[field] !== undefined && patch[field] !== null));
    if (asked.length === 0) fault([], "changes nothing: give rig, guest, note, arrive and depart, site or state");
    for (const fields of asked.slice(1)) {
      if (fields.includes("state") && asked[0]!.includes("guest") && patch.rig === undefined && patch.note === undefined) continue;
      fault([fields.find((field) => patch[field] !== undefined)!], "one kind of change at a time");
    }
  }));

const patchKinds: readonly (readonly ("rig" | "guest" | "note" | "arrive" | "depart" | "site" | "state")[])[] = [["rig", "guest", "note"], ["arrive", "depart"], ["site"], ["state"]];

export type StayCall = z.infer<typeof stayCallSchema>;
export type StayPatch = z.infer<typeof stayPatchSchema>;
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
