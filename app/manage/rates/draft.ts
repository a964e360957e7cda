import { z } from "zod";
import type { RateCard } from "@/lib/stays";
import { decimalOf, placesOf } from "@/lib/wording/money";
import { formatBound } from "./bounds";

/** Longer than any field needs; what is beyond is cut off rather than the whole form refused. */
const text = z.string().transform((typed) => typed.trim().slice(0, 200)).default("");
/** How many rows of each kind there may be. */
const most = { seasons: 50, classes: 60, longStay: 20, fees: 50, taxes: 50, periods: 50 } as const;

const cell = z.object({ night: text, week: text, month: text }).prefault({});
const amountPer = z.object({ included: text, each: text, per: text }).prefault({});

/** A rate card as it is typed: every value a text, prices as a table of classes of hookups by seasons. */
export const draftSchema = z.object({
  currency: text,
  minNights: text,
  seasons: z.array(z.object({ id: text, name: text, minNights: text, periods: z.array(z.object({ first: text, last: text })).max(most.periods).default([]) })).max(most.seasons).default([]),
  classes: z.array(z.object({ services: z.array(text).max(3).default([]), amps: text, cells: z.record(z.string(), cell).default({}) })).max(most.classes).default([]),
  longStay: z.array(z.object({ nights: text, off: text })).max(most.longStay).default([]),
  extras: z.object({ vehicle: amountPer, person: amountPer, pet: amountPer }).prefault({}),
  fees: z.array(z.object({ id: text, name: text, amount: text, per: text })).max(most.fees).default([]),
  taxes: z.array(z.object({ id: text, name: text, rate: text, on: z.array(text).max(3).default([]), upToNights: text })).max(most.taxes).default([]),
  deposit: z.object({ kind: text, value: text }).prefault({}),
});

export type Draft = z.infer<typeof draftSchema>;
export type ClassDraft = Draft["classes"][number];

/** The key of the cells for nights of no season, or of a season without a price of its own. Capitals: no season is called so. */
export const otherNights = "ALL";

/** A card as its form is filled in. */
export function draftOf(card: RateCard): Draft {
  const places = placesOf(card.currency), money = (amount: number | null) => (amount === null ? "" : decimalOf(amount, places));
  const whole = (count: number | null) => (count === null ? "" : String(count));
  const extra = (of: RateCard["extras"]["pet"]) => ({ included: of ? whole(of.included) : "", each: of ? money(of.each) : "", per: of?.per ?? "night" });
  return {
    currency: card.currency,
    minNights: whole(card.minNights),
    seasons: card.seasons.map(({ id, name, minNights, periods }) => ({ id, name, minNights: whole(minNights), periods: periods.map(({ first, last }) => ({ first: formatBound(first), last: formatBound(last) })) })),
    classes: classesOf(card).map(({ services, amps, prices }) => ({
      services: [...services],
      amps: whole(amps),
      cells: Object.fromEntries(prices.map(({ season, night, week, month }) => [season ?? otherNights, { night: money(night), week: money(week), month: money(month) }])),
    })),
    longStay: card.longStay.map(({ nights, off }) => ({ nights: whole(nights), off: percentOf(off) })),
    extras: { vehicle: extra(card.extras.vehicle), person: extra(card.extras.person), pet: extra(card.extras.pet) },
    fees: card.fees.map(({ id, name, amount, per }) => ({ id, name, amount: money(amount), per })),
    taxes: card.taxes.map(({ id, name, rate, on, upToNights }) => ({ id, name, rate: percentOf(rate), on: [...on], upToNights: whole(upToNights) })),
    deposit: { kind: card.deposit.kind, value: depositValue(card.deposit, money) },
  };
}

/** What a park begins with that has no rates yet. */
export const firstDraft: Draft = { ...draftSchema.parse({}), currency: "USD", minNights: "1", classes: [{ services: [], amps: "", cells: {} }], deposit: { kind: "none", value: "" } };

export interface PriceClass {
  readonly services: RateCard["prices"][number]["services"];
  readonly amps: number | null;
  readonly prices: readonly RateCard["prices"][number][];
}

/** A card's prices by class of hookups, in the order in which the classes first come. */
export function classesOf(card: RateCard): PriceClass[] {
  const keyOf = ({ services, amps }: RateCard["prices"][number]) => `${[...new Set(services)].sort().join("+")} ${amps ?? ""}`;
  const keys = [...new Set(card.prices.map(keyOf))];
  return keys.map((key) => {
    const prices = card.prices.filter((price) => keyOf(price) === key);
    return { services: prices[0]!.services, amps: prices[0]!.amps, prices };
  });
}

function percentOf(basisPoints: number): string {
  return String(basisPoints / 100);
}

function depositValue(deposit: RateCard["deposit"], money: (amount: number) => string): string {
  switch (deposit.kind) {
    case "none": return "";
    case "share": return percentOf(deposit.basisPoints);
    case "nights": return String(deposit.nights);
    case "amount": return money(deposit.amount);
  }
}

const key = /^[a-z0-9-]{1,60}$/i;

/** The draft that a form's fields make: `seasons.0.name`, `classes.2.cells.summer.night`, lists of ticks as `….services[]`. */
export function readDraft(form: FormData): Draft {
  const root: Tree = new Map();
  for (const [name, value] of form) {
    if (typeof value !== "string" || !name.startsWith("card.")) continue;
    const ticked = name.endsWith("[]"), path = (ticked ? name.slice(0, -2) : name).split(".").slice(1);
    if (path.length === 0 || path.length > 6 || !path.every((part) => key.test(part))) continue;
    const branch = path.slice(0, -1).reduce(grow, root), last = path.at(-1)!;
    const before = branch.get(last);
    branch.set(last, ticked ? [...(Array.isArray(before) ? before : []), value] : value);
  }
  return draftSchema.parse(plain(root));
}

type Tree = Map<string, Tree | string | string[]>;

function grow(tree: Tree, part: string): Tree {
  const there = tree.get(part);
  if (there instanceof Map) return there;
  const branch: Tree = new Map();
  tree.set(part, branch);
  return branch;
}

function plain(tree: Tree | string | string[]): unknown {
  if (!(tree instanceof Map)) return tree;
  const keys = [...tree.keys()];
  if (keys.length > 0 && keys.every((part) => /^\d+$/.test(part))) return keys.sort((a, b) => Number(a) - Number(b)).map((part) => plain(tree.get(part)!));
  return Object.fromEntries(keys.map((part) => [part, plain(tree.get(part)!)]));
}

/** A row more or less, as the button says: `add seasons`, `remove fees 1`, `add seasons 0 periods`. As it was where there is no room for another. */
export function changeRows(draft: Draft, what: string): Draft {
  const [verb, list, at, below, second] = what.split(" ");
  const i = Number(at);
  if (list === "seasons" && below === "periods") {
    const seasons = draft.seasons.map((season, j) => (j !== i ? season : { ...season, periods: verb === "add" ? [...season.periods, { first: "", last: "" }].slice(0, most.periods) : season.periods.filter((_, k) => k !== Number(second)) }));
    return { ...draft, seasons };
  }
  if (list !== "seasons" && list !== "classes" && list !== "longStay" && list !== "fees" && list !== "taxes") return draft;
  if (verb === "remove") return { ...draft, [list]: draft[list].filter((_, j) => j !== i) };
  return { ...draft, [list]: [...draft[list], newRow(draft, list)].slice(0, most[list]) };
}

function newRow(draft: Draft, list: "seasons" | "classes" | "longStay" | "fees" | "taxes"): unknown {
  switch (list) {
    case "seasons": return { id: freshId("season", draft.seasons), name: "", minNights: "1", periods: [{ first: "", last: "" }] };
    case "classes": return { services: [], amps: "", cells: {} };
    case "longStay": return { nights: "", off: "" };
    case "fees": return { id: freshId("fee", draft.fees), name: "", amount: "", per: "stay" };
    case "taxes": return { id: freshId("tax", draft.taxes), name: "", rate: "", on: ["site", "extras"], upToNights: "" };
  }
}

function freshId(stem: string, taken: readonly { readonly id: string }[]): string {
  let n = taken.length + 1;
  while (taken.some(({ id }) => id === `${stem}-${n}`)) n += 1;
  return `${stem}-${n}`;
}
