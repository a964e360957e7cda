import { z } from "zod";
import { rigSchema } from "@/lib/rig";
import { cancellationStepSchema, fitOverrideSchema, guestSchema, stayStates, wantedSchema } from "@/lib/stays";
import type { StayAccount } from "@/lib/store/stays-money";
import type { Stay } from "@/lib/store/stays";

const time = z.iso.datetime().nullable();
const money = z.number();

const lineSchema = z.object({
  code: z.string().describe("night, week, month, long-stay, vehicle, person, pet, fee or tax"),
  name: z.string().nullable().describe("The park's own word for it."),
  amount: money,
}).loose();

const quoteSchema = z.object({
  currency: z.string(),
  nights: z.object({ arrive: z.string(), depart: z.string() }),
  lines: z.array(lineSchema),
  total: money.describe("The sum of the lines."),
  deposit: money.describe("Due to confirm the stay, part of the total."),
  acceptedOn: z.string(),
  card: z.number(),
  terms: z.array(cancellationStepSchema).optional().describe("What canceling costs, as it was told with this price."),
});

/** A stay as the interface answers it. Amounts are in the currency's smallest unit. */
export const stayRecordSchema = z.object({
  id: z.string(),
  reference: z.string().describe("Short enough to say on the phone."),
  park: z.string(),
  state: z.enum(stayStates),
  arrive: z.string(),
  depart: z.string().describe("The day they leave: its night is not part of the stay."),
  site: z.string().nullable(),
  siteChosen: z.boolean().describe("The guest chose the site and keeps it."),
  wanted: wantedSchema,
  rig: rigSchema,
  guest: guestSchema.nullable(),
  note: z.string(),
  until: time.describe("When the hold or request runs out."),
  arrivedAt: time,
  departedAt: time,
  freedFrom: z.string().nullable().describe("Left early: free again from this night on."),
  override: fitOverrideSchema.nullable().describe("Taken in spite of a poor fit."),
  version: z.number(),
  quotes: z.array(quoteSchema).describe("What was agreed to: for the stay, and for each time nights were added."),
  total: money,
  paid: money,
  depositDue: money,
}).describe("A stay.");

export type StayRecord = z.input<typeof stayRecordSchema>;

/** The stay and its account as the interface tells them. */
export function stayRecord(park: string, stay: Stay, account: StayAccount): StayRecord {
  const { nights, until, arrivedAt, departedAt, rigQuery: _form, together: _together, outcome: _outcome, erased: _erased, ...rest } = stay;
  return {
    ...rest,
    park,
    ...nights,
    until: timeOf(until),
    arrivedAt: timeOf(arrivedAt),
    departedAt: timeOf(departedAt),
    quotes: account.quotes.map(({ terms, ...quote }) => ({ ...quote, lines: quote.lines.map((line) => ({ ...line })), ...(terms ? { terms: [...terms] } : {}) })),
    total: account.total,
    paid: account.paid,
    depositDue: account.depositDue,
  };
}

function timeOf(at: number | null): string | null {
  return at === null ? null : new Date(at).toISOString();
}
