import { rateCardSchema, type RateCard } from "@/lib/stays";
import { manageRates as words } from "@/lib/wording/en/manage-rates";
import { placesOf, readMoney } from "@/lib/wording/money";
import { readBound } from "./bounds";
import { otherNights, type Draft } from "./draft";

/** What is wrong, by the field it is in. */
export type Faults = Readonly<Record<string, string>>;

export type ReadCard = { readonly ok: true; readonly card: RateCard } | { readonly ok: false; readonly faults: Faults };

/** The card that a draft means, or every fault in it beside the field it is in. */
export function readCard(draft: Draft): ReadCard {
  const faults: Record<string, string> = {};
  const tell = (field: string, fault: string) => { faults[field] ??= fault; };
  const money = moneyReader(draft.currency, tell);
  const prices = readPrices(draft, money, tell);
  const record = {
    currency: draft.currency.toUpperCase(),
    minNights: readWhole(draft.minNights, "minNights", tell),
    seasons: draft.seasons.map(({ id, name, minNights, periods }, i) => ({
      id, name, minNights: readWhole(minNights, `seasons.${i}.minNights`, tell),
      periods: periods.map(({ first, last }, j) => ({ first: readEnd(first, `seasons.${i}.periods.${j}.first`, tell), last: readEnd(last, `seasons.${i}.periods.${j}.last`, tell) })),
    })),
    prices: prices.map(({ price }) => price),
    longStay: draft.longStay.map(({ nights, off }, i) => ({ nights: readWhole(nights, `longStay.${i}.nights`, tell), off: readPercent(off, `longStay.${i}.off`, tell) })),
    extras: Object.fromEntries((["vehicle", "person", "pet"] as const).map((kind) => [kind, readExtra(draft.extras[kind], `extras.${kind}`, money, tell)])),
    fees: draft.fees.map(({ id, name, amount, per }, i) => ({ id, name, per, amount: money(amount, `fees.${i}.amount`) })),
    taxes: draft.taxes.map(({ id, name, rate, on, upToNights }, i) => ({
      id, name, on, rate: readPercent(rate, `taxes.${i}.rate`, tell), upToNights: upToNights === "" ? null : readWhole(upToNights, `taxes.${i}.upToNights`, tell),
    })),
    deposit: readDeposit(draft.deposit, money, tell),
  };
  const read = rateCardSchema.safeParse(record);
  for (const { path, message } of read.error?.issues ?? []) tell(fieldOf(path, prices), words.fault(message));
  return read.success && Object.keys(faults).length === 0 ? { ok: true, card: read.data } : { ok: false, faults };
}

type Tell = (field: string, fault: string) => void;
type ReadMoney = (text: string, field: string) => number;

/** Where a number could not be read: the schema passes it, the fault that was told refuses it. */
const unread = 1;

/** Money in the draft's currency. Where that is none, the faults of the prices are not told: they hang on it. */
function moneyReader(currency: string, tell: Tell): ReadMoney {
  const known = isCurrency(currency.toUpperCase()), places = known ? placesOf(currency.toUpperCase()) : 2;
  if (!known) tell("currency", words.faults.currency);
  return (text, field) => {
    const amount = readMoney(text, places);
    if (amount === null) tell(field, text === "" ? words.faults.amountMissing : words.faults.amount(places));
    return amount ?? unread;
  };
}

function isCurrency(code: string): boolean {
  return /^[A-Z]{3}$/.test(code) && Intl.supportedValuesOf("currency").includes(code);
}

function readWhole(text: string, field: string, tell: Tell): number {
  if (/^\d{1,5}$/.test(text)) return Number(text);
  tell(field, words.faults.whole);
  return unread;
}

/** Hundredths of a per cent: "7", "8.25", "8.25%". */
function readPercent(text: string, field: string, tell: Tell): number {
  const parts = /^(\d{1,3})(?:\.(\d{1,2}))?\s*%?$/.exec(text);
  if (parts) return Number(parts[1]! + (parts[2] ?? "").padEnd(2, "0"));
  tell(field, words.faults.percent);
  return unread;
}

function readEnd(text: string, field: string, tell: Tell): string {
  const bound = readBound(text);
  if (bound !== null) return bound;
  tell(field, text === "" ? words.faults.dayMissing : words.faults.day);
  return text;
}

interface PriceOfField {
  readonly field: string;
  readonly price: { readonly season: string | null; readonly services: readonly string[]; readonly amps: number | null; readonly night: number; readonly week: number | null; readonly month: number | null };
}

function readPrices(draft: Draft, money: ReadMoney, tell: Tell): PriceOfField[] {
  const seasons = [otherNights, ...draft.seasons.map(({ id }) => id)];
  if (draft.classes.length === 0) tell("classes", words.faults.noPrice);
  return draft.classes.flatMap(({ services, amps, cells }, i) => {
    const filled = seasons.filter((season) => cells[season] && Object.values(cells[season]).some((value) => value !== ""));
    if (filled.length === 0) tell(`classes.${i}`, words.faults.noPrice);
    return filled.map((season) => {
      const { night, week, month } = cells[season]!, field = `classes.${i}.cells.${season}`;
      const optional = (text: string, name: string) => (text === "" ? null : money(text, `${field}.${name}`));
      const price = { season: season === otherNights ? null : season, services, amps: amps === "" ? null : Number(amps), night: money(night, `${field}.night`), week: optional(week, "week"), month: optional(month, "month") };
      return { field, price };
    });
  });
}

function readExtra({ included, each, per }: Draft["extras"]["pet"], field: string, money: ReadMoney, tell: Tell): unknown {
  if (each === "") return null;
  return { included: included === "" ? 0 : readWhole(included, `${field}.included`, tell), each: money(each, `${field}.each`), per };
}

function readDeposit({ kind, value }: Draft["deposit"], money: ReadMoney, tell: Tell): unknown {
  switch (kind) {
    case "share": return { kind, basisPoints: readPercent(value, "deposit.value", tell) };
    case "nights": return { kind, nights: readWhole(value, "deposit.value", tell) };
    case "amount": return { kind, amount: money(value, "deposit.value") };
    default: return { kind: kind === "" ? "none" : kind };
  }
}

/** The field of the form that a path of the card comes from. */
function fieldOf(path: readonly PropertyKey[], prices: readonly PriceOfField[]): string {
  const [list, at, name] = path;
  if (list === "prices") {
    const from = prices[Number(at)];
    if (!from) return "classes";
    return name === "night" || name === "week" || name === "month" ? `${from.field}.${name}` : from.field.split(".").slice(0, 2).join(".");
  }
  if (list === "deposit") return path.length > 1 && name !== "kind" && at !== "kind" ? "deposit.value" : "deposit.kind";
  if (list === "seasons" && name === "periods" && path.length > 3) return path.length === 4 ? `${path.map(String).join(".")}.first` : path.map(String).join(".");
  return path.map(String).join(".");
}
