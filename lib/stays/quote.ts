import type { IsoDate } from "./dates";
import { share, sum, type BasisPoints, type Minor } from "./money";
import { countNights, listNights, type Nights } from "./nights";
import { priceSite, type Hookups, type NightLine } from "./prices";
import type { RateCard } from "./rates";
import { seasonOf } from "./seasons";
import type { CancellationStep } from "./settings";

/** Who and what comes along. */
export interface QuoteParty {
  readonly persons: number;
  readonly vehicles: number;
  readonly pets: number;
}

export interface QuoteAsk {
  readonly nights: Nights;
  /** What the site has; for a stay without a site, what was asked for. */
  readonly hookups: Hookups;
  readonly party: QuoteParty;
  /**
   * For nights added to a stay that has a quote: how many nights the whole stay then has. Minimum, long stay and taxes go
   * by the whole, and what is asked once a stay is not asked again.
   */
  readonly wholeNights?: number;
}

/** Asked for, not a share of anything: `amount = count x each`. */
interface CountedLine {
  readonly code: "vehicle" | "person" | "pet" | "fee";
  readonly id: string | null;
  /** The park's own word for it. */
  readonly name: string | null;
  readonly count: number;
  readonly each: Minor;
  readonly amount: Minor;
}

/** A share of other lines, the only kind that is rounded: to a whole minor unit, half away from zero, by itself. */
interface ShareLine {
  readonly code: "long-stay" | "tax";
  readonly id: string | null;
  readonly name: string | null;
  readonly rate: BasisPoints;
  readonly of: Minor;
  readonly amount: Minor;
}

export type QuoteLine = NightLine | CountedLine | ShareLine;

/** What a stay costs. `total` is the sum of the lines' amounts to the last unit; nothing is rounded after the lines. */
export interface Quote {
  readonly currency: string;
  readonly nights: Nights;
  readonly lines: readonly QuoteLine[];
  readonly total: Minor;
  /** Due to confirm the stay, part of the total and never more than it. */
  readonly deposit: Minor;
}

/** A quote as it was agreed to. Nothing changes it: later rates apply to later quotes. */
export interface AcceptedQuote extends Quote {
  readonly acceptedOn: IsoDate;
  /** Which of the park's rate cards it was made from. */
  readonly card: number;
  /** What canceling costs, as it was told with the price. Left out in quotes from before this was kept. */
  readonly terms?: readonly CancellationStep[];
}

export type QuoteFault =
  | { readonly code: "min-nights"; readonly least: number; /** Null: the card's own minimum. */ readonly season: string | null }
  | { readonly code: "no-price"; /** The first night that has none. */ readonly night: IsoDate };

export type QuoteOutcome = { readonly ok: true; readonly quote: Quote } | { readonly ok: false; readonly faults: readonly QuoteFault[] };

/** The itemised price of a stay, or everything that stands against one. */
export function quoteStay(card: RateCard, ask: QuoteAsk): QuoteOutcome {
  const whole = ask.wholeNights ?? countNights(ask.nights);
  const site = priceSite(card, ask.nights, ask.hookups);
  const short = judgeMinimum(card, ask.nights, whole);
  if (!site.ok || short) {
    return { ok: false, faults: [...(short ? [short] : []), ...(site.ok ? [] : [{ code: "no-price" as const, night: site.night }])] };
  }
  const nights: QuoteLine[] = [...site.lines, ...longStayLine(card, whole, amountOf(site.lines))];
  const extras = extraLines(card, ask);
  const fees = feeLines(card, ask);
  const parts = { site: amountOf(nights), extras: amountOf(extras), fees: amountOf(fees) };
  const lines = [...nights, ...extras, ...fees, ...taxLines(card, whole, parts)];
  const total = amountOf(lines);
  const deposit = ask.wholeNights === undefined ? depositOf(card, parts.site, countNights(ask.nights), total) : 0;
  return { ok: true, quote: { currency: card.currency, nights: ask.nights, lines, total, deposit } };
}

/** The card as the desk quotes by it: it may go below the minimum of nights. */
export function cardAtDesk(card: RateCard): RateCard {
  return { ...card, minNights: 1, seasons: card.seasons.map((season) => ({ ...season, minNights: 1 })) };
}

/** Freezes a quote on the day it is agreed to, with the terms of canceling it. */
export function acceptQuote(quote: Quote, card: number, on: IsoDate, terms: readonly CancellationStep[]): AcceptedQuote {
  return { ...quote, acceptedOn: on, card, terms };
}

/** What all quotes of one stay come to: its first, and one for each time nights were added. */
export function totalOf(quotes: readonly Pick<Quote, "total">[]): Minor {
  return sum(quotes.map(({ total }) => total));
}

/** Whether a quote adds up: every line by itself, and the lines to the total. For checking one that was kept. */
export function addsUp({ lines, total, deposit }: Quote): boolean {
  const right = lines.every((line) => ("rate" in line ? Math.abs(line.amount) === share(line.of, line.rate) : line.amount === line.count * line.each));
  return right && lines.every(({ amount }) => Number.isSafeInteger(amount)) && amountOf(lines) === total && deposit >= 0 && deposit <= total;
}

function amountOf(lines: readonly { readonly amount: Minor }[]): Minor {
  return sum(lines.map(({ amount }) => amount));
}

/** The largest minimum of the card and of every season that one of the nights is in. */
function judgeMinimum(card: RateCard, nights: Nights, whole: number): QuoteFault | null {
  let [least, by]: [number, string | null] = [card.minNights, null];
  for (const night of listNights(nights)) {
    const season = seasonOf(night, card.seasons);
    if (season && season.minNights > least) [least, by] = [season.minNights, season.id];
  }
  return whole < least ? { code: "min-nights", least, season: by } : null;
}

function longStayLine({ longStay }: RateCard, whole: number, of: Minor): ShareLine[] {
  const reached = longStay.filter(({ nights }) => nights <= whole).sort((a, b) => b.nights - a.nights)[0];
  if (!reached || reached.off === 0) return [];
  return [{ code: "long-stay", id: null, name: null, rate: reached.off, of, amount: 0 - share(of, reached.off) }];
}

function extraLines({ extras }: RateCard, { nights, party, wholeNights }: QuoteAsk): CountedLine[] {
  const counts = { vehicle: party.vehicles, person: party.persons, pet: party.pets };
  return (["vehicle", "person", "pet"] as const).flatMap((code) => {
    const rule = extras[code];
    const beyond = rule ? counts[code] - rule.included : 0;
    if (!rule || beyond <= 0 || rule.each === 0 || (rule.per === "stay" && wholeNights !== undefined)) return [];
    return [counted(code, null, null, rule.per === "night" ? beyond * countNights(nights) : beyond, rule.each)];
  });
}

function feeLines({ fees }: RateCard, { nights, party, wholeNights }: QuoteAsk): CountedLine[] {
  return fees.flatMap(({ id, name, amount, per }) => {
    if (amount === 0 || (per === "stay" && wholeNights !== undefined)) return [];
    const count = per === "stay" ? 1 : countNights(nights) * (per === "person-night" ? party.persons : 1);
    return count === 0 ? [] : [counted("fee", id, name, count, amount)];
  });
}

function counted(code: CountedLine["code"], id: string | null, name: string | null, count: number, each: Minor): CountedLine {
  return { code, id, name, count, each, amount: count * each };
}

/** Each tax is of what it is laid on, never of another tax. */
function taxLines({ taxes }: RateCard, whole: number, parts: Readonly<Record<"site" | "extras" | "fees", Minor>>): ShareLine[] {
  return taxes.flatMap(({ id, name, rate, on, upToNights }) => {
    if (upToNights !== null && whole > upToNights) return [];
    const of = sum([...new Set(on)].map((part) => parts[part]));
    return of === 0 || rate === 0 ? [] : [{ code: "tax" as const, id, name, rate, of, amount: share(of, rate) }];
  });
}

/** A deposit of so many nights is that part of the site's own price, rounded up to the whole unit; none is more than the total. */
function depositOf({ deposit }: RateCard, site: Minor, nights: number, total: Minor): Minor {
  switch (deposit.kind) {
    case "none":
      return 0;
    case "amount":
      return Math.min(deposit.amount, total);
    case "share":
      return share(total, deposit.basisPoints);
    case "nights":
      return Math.min(Math.ceil((site * Math.min(deposit.nights, nights)) / nights), total);
  }
}
