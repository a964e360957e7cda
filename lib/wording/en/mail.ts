import type { MailKind } from "@/lib/stays/mail";
import type { Nights } from "@/lib/stays/nights";
import { guestStay } from "./guest-stay";
import { stays } from "./stays";

const { money, span } = stays;
const { hour, cancelling, any } = guestStay;

/** What a guest's mail is written from. Texts in it are one line each. */
export interface MailFacts {
  readonly kind: MailKind;
  readonly park: string;
  /** As it may stand in a greeting; null where it had better not. */
  readonly name: string | null;
  readonly reference: string;
  readonly site: string | null;
  readonly wanted: { readonly loop: string | null; readonly services: readonly string[] };
  readonly nights: Nights;
  readonly checkIn: string;
  readonly checkOut: string;
  /** "4:32 PM" on the park's clock: how long a hold lasts. */
  readonly until: string | null;
  readonly currency: string;
  /** Null where no price was agreed. Minor units, like all amounts. */
  readonly total: number | null;
  readonly depositDue: number;
  readonly cost: { readonly kept: number; readonly back: number; readonly owed: number } | null;
  /** The address of the stay's page. */
  readonly link: string;
}

type Told = (facts: MailFacts) => string;

const subjects: Readonly<Record<MailKind, Told>> = {
  held: ({ park }) => `We are holding a site for you at ${park}`,
  requested: ({ park }) => `We have your request for ${park}`,
  booked: ({ park }) => `Your stay at ${park} is booked`,
  site: ({ park, site }) => (site === null ? `Your site at ${park} has changed` : `Your site at ${park} is now ${site}`),
  nights: ({ park }) => `Your nights at ${park} have changed`,
  rig: ({ park }) => `Your rig is changed for your stay at ${park}`,
  cancelled: ({ park }) => `Your stay at ${park} is canceled`,
  "ran-out": ({ park }) => `Your site at ${park} is no longer kept`,
};

const openings: Readonly<Record<MailKind, Told>> = {
  held: ({ park, until }) => `${park} is holding a site for you${until === null ? "" : ` until ${until}`}. Open your page to make it yours.`,
  requested: ({ park }) => `${park} has your request. The desk looks at it and answers. It is not booked yet.`,
  booked: ({ park }) => `Your stay at ${park} is booked. There is nothing more to do until you come.`,
  site: ({ park, site, total }) => `Your site at ${park} ${site === null ? "has changed" : `is now ${site}`}.${total === null ? "" : " The price you agreed to stays as it is."}`,
  nights: ({ park }) => `Your nights at ${park} have changed. These are the new ones.`,
  rig: ({ park }) => `What you bring to ${park} was changed. If that was not you, tell the office.`,
  cancelled: ({ park }) => `Your stay at ${park} is canceled.`,
  "ran-out": ({ park }) => `The time ran out before your stay at ${park} was booked, so the site is free for others again. If you still want to come, look for a site again, or call the office.`,
};

/** Mail to guests, as plain text. */
export const mail = {
  subject: (facts: MailFacts) => `${subjects[facts.kind](facts)} (${facts.reference})`,
  body,
  /** What stands in the kept text where the link was. */
  linkTaken: "[private link]",
} as const;

function body(facts: MailFacts): string {
  const { kind, name, park } = facts;
  const over = kind === "cancelled" || kind === "ran-out";
  return [
    name === null ? "Hello," : `Hello ${name},`,
    openings[kind](facts),
    factLines(facts).join("\n"),
    ...(kind === "cancelled" ? [costLine(facts)] : []),
    over ? `Your page keeps what was agreed:\n${facts.link}` : `Your page shows how your rig stands, what to bring and the house rules. You can change your rig or cancel there:\n${facts.link}`,
    ...(over ? [] : ["Keep this link to yourself. Anyone who has it can change the stay."]),
    `${guestStay.desk(park)} If you know nothing of this stay, somebody mistyped their e-mail address: please tell the office.`,
    park,
  ].join("\n\n") + "\n";
}

function factLines({ kind, site, wanted, nights, checkIn, checkOut, reference, total, currency, depositDue }: MailFacts): string[] {
  const over = kind === "cancelled" || kind === "ran-out";
  return [
    `Site: ${site ?? `${any.wanted(wanted.loop ?? undefined, wanted.services)}${over ? "" : ". The desk chooses one that fits before you come."}`}`,
    `Nights: ${span(nights)}`,
    ...(over ? [] : [`Times: come from ${hour(checkIn)} on, leave by ${hour(checkOut)}`]),
    `Reference: ${reference}`,
    ...(total === null || over ? [] : [`Price: ${money(total, currency)} in all`]),
    ...(depositDue > 0 && !over ? [`Deposit still due: ${money(depositDue, currency)}`] : []),
  ];
}

function costLine({ cost, currency }: MailFacts): string {
  if (!cost) return cancelling.keepsNothing;
  const { kept, back, owed } = cost;
  return [
    kept > 0 ? cancelling.keeps(money(kept, currency)) : cancelling.keepsNothing,
    ...(back > 0 ? [cancelling.back(money(back, currency))] : []),
    ...(owed > 0 ? [cancelling.owed(money(owed, currency))] : []),
  ].join(" ");
}
