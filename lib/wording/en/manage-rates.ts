import type { Period } from "@/lib/stays/seasons";
import type { RateCard } from "@/lib/stays/rates";
import { formatMoney } from "../money";
import { stays } from "./stays";
import { cap, count, list } from "./text";

const services = { power: "power", water: "water", sewer: "sewer" } as const;
const perWords = { night: "a night", stay: "a stay", "person-night": "a person and night" } as const;
const onWords = { site: "nights", extras: "extras", fees: "fees" } as const;
const extraWords = { vehicle: "vehicle", person: "person", pet: "pet" } as const;

type Service = keyof typeof services;
type ExtraKind = keyof typeof extraWords;

/** "Power, water and sewer, 50 A"; "No hookups needed" where a price asks for none. */
function classOf(of: { readonly services: readonly string[]; readonly amps: number | null }): string {
  const named = of.services.map((service) => services[service as Service] ?? service);
  if (named.length === 0 && of.amps === null) return "Any site";
  return `${named.length > 0 ? cap(list(named)) : "Any hookups"}${of.amps === null ? "" : `, ${of.amps} A${named.length > 0 ? "" : " or more"}`}`;
}

function bound(text: string): string {
  const parts = text.split("-");
  const [year, month, day] = parts.length === 3 ? parts : [null, ...parts];
  return `${stays.calendar.months[Number(month) - 1]?.slice(0, 3)} ${Number(day)}${year ? `, ${year}` : ""}`;
}

const period = ({ first, last }: Period) => (first === last ? bound(first) : `${bound(first)} to ${bound(last)}`);
const periods = (of: readonly Period[]) => list(of.map(period));

function deposit({ deposit: of, currency }: RateCard): string {
  switch (of.kind) {
    case "none": return "No deposit.";
    case "share": return `${stays.percent(of.basisPoints)} of the total.`;
    case "nights": return `The price of ${count(of.nights, "night", "nights")}.`;
    case "amount": return `${formatMoney(of.amount, currency)}, or the total where that is less.`;
  }
}

function extra(card: RateCard, kind: ExtraKind): string | null {
  const of = card.extras[kind];
  if (!of) return null;
  const word = extraWords[kind];
  return `Each ${word}${of.included > 0 ? ` beyond ${of.included}` : ""}: ${formatMoney(of.each, card.currency)} ${perWords[of.per]}`;
}

function fee({ name, amount, per }: RateCard["fees"][number], currency: string): string {
  return `${name}: ${formatMoney(amount, currency)} ${perWords[per]}`;
}

function tax({ name, rate, on, upToNights }: RateCard["taxes"][number]): string {
  return `${name}: ${stays.percent(rate)} of ${list(on.map((what) => onWords[what]))}${upToNights === null ? "" : `, for stays of at most ${count(upToNights, "night", "nights")}`}`;
}

const longStay = ({ nights, off }: RateCard["longStay"][number]) => `From ${count(nights, "night", "nights")} on: ${stays.percent(off)} off the nights`;
const minNights = (least: number) => (least === 1 ? "Stays of one night are taken." : `At least ${stays.nights(least)}.`);

/** All that a card says, a line for each thing that can change by itself, by a key that is the same in the next card. */
function linesOf(card: RateCard): Map<string, string> {
  const named = new Map(card.seasons.map(({ id, name }) => [id, name]));
  const lines = new Map<string, string>([["currency", `Currency: ${card.currency}`], ["least", `At any time: ${minNights(card.minNights)}`]]);
  for (const { id, name, periods: of, minNights: least } of card.seasons) lines.set(`season ${id}`, `${name}: ${periods(of)}. ${minNights(least)}`);
  for (const price of card.prices) {
    const when = price.season === null ? "other nights" : (named.get(price.season) ?? price.season);
    const blocks = [`${formatMoney(price.night, card.currency)} a night`, ...(price.week === null ? [] : [`${formatMoney(price.week, card.currency)} a week`]), ...(price.month === null ? [] : [`${formatMoney(price.month, card.currency)} for 30 nights`])];
    lines.set(`price ${[...price.services].sort().join("+")} ${price.amps ?? ""} ${price.season ?? ""}`, `${classOf(price)}, ${when}: ${list(blocks)}`);
  }
  for (const rule of card.longStay) lines.set(`long ${rule.nights}`, longStay(rule));
  for (const kind of Object.keys(extraWords) as ExtraKind[]) {
    const line = extra(card, kind);
    if (line) lines.set(`extra ${kind}`, line);
  }
  for (const of of card.fees) lines.set(`fee ${of.id}`, fee(of, card.currency));
  for (const of of card.taxes) lines.set(`tax ${of.id}`, tax(of));
  return lines.set("deposit", `Deposit: ${deposit(card)}`);
}

/** What came before, without the name both begin with: "$54.00 a night" of "Power, other nights: $54.00 a night". */
function withoutShared(before: string, after: string): string {
  const name = before.slice(0, before.indexOf(": ") + 2);
  return name !== "" && after.startsWith(name) ? before.slice(name.length) : before;
}

/** "Nov 25, 2026, 4:32 PM" on the park's clock: cards are kept for years. */
function moment(instant: number, zone: string): string {
  return new Intl.DateTimeFormat("en-US", { year: "numeric", month: "short", day: "numeric", hour: "numeric", minute: "2-digit", timeZone: zone }).format(instant);
}

/** What the schema says of a card, for who fills in a form of dollars and days. */
const plainFaults: readonly (readonly [RegExp, string])[] = [
  [/must not be empty/, "Give it a name."],
  [/longer than 80/, "Use at most 80 letters."],
  [/same season and class/, "Another class above is the same. Change its hookups or amps, or take it out."],
  [/needs at least one price/, "Give at least one price."],
  [/needs at least one period/, "Give the days it is from and to."],
  [/of the same kind as first/, "Give a year to both days, or to neither."],
  [/must not be before first/, "The last day must not come before the first."],
  [/needs at least one of site/, "Tick at least one."],
  [/not be more than 10000/, "At most 100%."],
  [/must not be more than/, "That is more than any price can be."],
  [/whole number from 2/, "Enter a whole number of nights, 2 to 400."],
  [/whole number from 0/, "Enter a whole number, 0 to 1,000."],
  [/whole number from 1/, "Enter a whole number of nights, 1 to 400."],
  [/capital letters/, "Enter a currency of three letters, such as USD."],
];

/** The pages on which a manager reads and sets what the park asks for. */
export const manageRates = {
  title: "Rates",
  lead: "What a stay costs, by season, hookups and length. Guests see an itemized price before they agree.",
  agreed: "A price that was agreed to never changes. New rates count for stays opened after they are saved, and for nights added later.",
  none: "There are no rates yet. Until there are, stays are taken without a price.",
  change: "Change the rates",
  begin: "Set the rates",
  moment,
  number: (number: number, when: string, who: string | null) => `Card ${number}, saved ${when}${who ? ` by ${who}` : ""}.`,
  year: "The year",
  yearPicture: (seasons: readonly string[]) => `The year by season: ${seasons.length > 0 ? list(seasons) : "none"}.`,
  dated: (name: string, of: readonly Period[]) => `${name}: ${periods(of)}`,
  otherNights: "Other nights",
  prices: "Nights",
  pricesNote: "From arrival on, 30 nights count as a month and 7 as a week wherever there is such a price; the others are single nights. A season’s own prices go first; of those, a site has the price of the class that asks for the most hookups it has.",
  hookups: "Hookups",
  night: "Night",
  week: "7 nights",
  month: "30 nights",
  classOf,
  perWeek: (money: string) => `${money} a week`,
  perMonth: (money: string) => `${money} for 30 nights`,
  asOther: "as other nights",
  /** Where a class has no price of its own in a season: what its sites pay, and by which other price. */
  asClass: (money: string, of: { readonly services: readonly string[]; readonly amps: number | null }, season: string) => `${money}, as “${classOf(of)}”, ${season}`,
  rest: "Beside the nights",
  least: "Shortest stay",
  leastOf: (name: string | null, nights: number) => `${name ? `${name}: ` : ""}${minNights(nights)}`,
  longStays: "Long stays",
  extras: "Extras",
  fees: "Fees",
  taxes: "Taxes",
  depositTitle: "Deposit due",
  noneOf: "None.",
  extra, fee, tax, longStay, deposit, linesOf, period,
  unpricedTitle: "Sites without a price",
  unpriced: (season: string | null, sites: readonly string[]) => `${season ?? "Other nights"}: ${list(sites)}`,
  unpricedNote: "Nobody can be told what these cost: guests cannot book them for such nights.",
  history: "Rates so far",
  historyEntry: (number: number, when: string, who: string | null) => `Card ${number}, ${when}${who ? `, ${who}` : ""}`,
  first: "The first card.",
  older: (most: number) => `Only the last ${most} cards are listed.`,
  same: "Nothing was changed.",
  was: (before: string | null, after: string | null) => (before === null ? `New: ${after}` : after === null ? `Taken out: ${before}` : `${after} (was: ${withoutShared(before, after)})`),
  form: {
    title: "Change the rates",
    back: "Back to the rates",
    lead: "Nothing is saved before you have seen what it changes.",
    currency: "Currency",
    currencyHint: "Three letters, such as USD. Prices are typed in it.",
    least: "Shortest stay, nights",
    seasons: "Seasons",
    seasonsHint: "Nights in no season have the price of “other nights”. Days such as Jun 12 come every year; with a year, such as Jul 2, 2027, they come once and go before the yearly ones.",
    season: (name: string) => (name ? `Season: ${name}` : "New season"),
    seasonName: "Name",
    first: "First night",
    last: "Last night",
    addPeriod: "Add days",
    addSeason: "Add a season",
    remove: (what: string) => `Take out ${what}`,
    removePeriod: "Take these days out",
    classes: "Prices of nights",
    classesHint: "One block for each class of hookups. Leave a season empty where the class asks nothing of its own there: its sites then pay what a class with fewer hookups asks in that season, or else the price of other nights. What stays would cost is shown before you save.",
    classTitle: (name: string) => name,
    has: "For sites that have",
    serviceNames: { power: "Power", water: "Water", sewer: "Sewer" },
    amps: "Receptacle of at least",
    anyAmps: "Any, or none",
    ampsOf: (amps: number) => `${amps} A`,
    addClass: "Add a class of hookups",
    cell: (season: string, what: string) => `${season}: ${what}`,
    longStays: "Off for long stays",
    fromNights: "From nights",
    off: "Percent off",
    addLongStay: "Add a rule for long stays",
    extras: "Extras",
    extrasHint: "Leave the price empty to ask nothing.",
    extraNames: { vehicle: "Vehicle", person: "Person", pet: "Pet" },
    included: "Included",
    each: "Each beyond",
    per: "Per",
    perNames: { night: "Night", stay: "Stay", "person-night": "Person and night" },
    fees: "Fees",
    name: "Name",
    amount: "Amount",
    addFee: "Add a fee",
    taxes: "Taxes",
    rate: "Percent",
    on: "Asked on",
    onNames: { site: "Nights", extras: "Extras", fees: "Fees" },
    upTo: "Only for stays up to, nights",
    addTax: "Add a tax",
    deposit: "Deposit",
    depositKind: "What is due",
    depositKinds: { none: "No deposit", share: "Percent of the total", nights: "Price of so many nights", amount: "An amount" },
    depositValue: "How much",
    rule: (n: number) => `long stay rule ${n}`,
    classWord: "this class",
    newOne: (what: "season" | "fee" | "tax") => `this ${what}`,
    review: "Show what changes",
    save: "Save these rates",
    busy: "Working …",
    rows: "A row was changed. Nothing is saved yet.",
    full: "There is no room for another one. Nothing is saved yet.",
    faults: (n: number) => `${count(n, "field needs", "fields need")} another look. Nothing was saved.`,
    stale: "Somebody else saved rates while you edited. Yours are not saved. What follows is what yours would change of theirs: look at it, then save.",
    outdated: "You changed something after you looked. Here is what it changes now.",
  },
  review: {
    title: "What this changes",
    nothing: "Nothing: these are the rates as they are.",
    lines: "The rates",
    samples: "What stays would cost",
    samplesNote: (changed: number, priced: number) => `Two adults with one vehicle, each class of hookups in each season, 2 and 7 nights: ${changed} of ${count(priced, "price changes", "prices change")}.`,
    hookups: "Hookups",
    when: "When",
    from: (season: string | null, day: string, formerly: { readonly season: string | null } | null) => `${season ?? "Other nights"}${formerly ? ` (before: ${formerly.season ?? "other nights"})` : ""}, from ${day}`,
    twoNights: "2 nights",
    sevenNights: "7 nights",
    was: (before: string) => `was ${before}`,
    same: "as before",
    noPrice: "No price",
  },
  faults: {
    currency: "Enter a currency of three letters, such as USD.",
    amountMissing: "Enter an amount.",
    amount: (places: number) => (places === 0 ? "Enter an amount without cents, such as 4500." : `Enter an amount such as 45 or 45.${"5".padEnd(places, "0")}.`),
    whole: "Enter a whole number.",
    percent: "Enter a percentage such as 7 or 8.25.",
    dayMissing: "Enter a day.",
    day: "Enter a day such as Jun 12, or Jul 2, 2027 for that year alone.",
    noPrice: "Enter at least one price, or take this class out.",
  },
  fault: (schemaSays: string) => {
    const shared = /^shares nights with (\S+) to (\S+)$/.exec(schemaSays);
    if (shared) return `These days meet ${period({ first: shared[1]!, last: shared[2]! })}. A night can be in one season only.`;
    return plainFaults.find(([pattern]) => pattern.test(schemaSays))?.[1] ?? cap(`${schemaSays}.`);
  },
};
