import type { Site } from "@/lib/park";
import { addDays, type IsoDate } from "./dates";
import type { Minor } from "./money";
import { countNights, type Nights } from "./nights";
import { hookupServices, type HookupService, type Price, type RateCard } from "./rates";
import { seasonOf } from "./seasons";

/** What a site is priced by. */
export interface Hookups {
  readonly services: readonly HookupService[];
  /** The largest receptacle, amperes; null without power. */
  readonly amps: number | null;
}

/** What a site has. A tap for rinsing tanks is no water hookup. */
export function hookupsOf(site: Pick<Site, "hookups">): Hookups {
  const services = hookupServices.filter((service) => site.hookups.some(({ kind }) => kind === service));
  const receptacles = site.hookups.flatMap(({ kind, receptacles }) => (kind === "power" ? (receptacles ?? []) : []));
  return { services, amps: receptacles.length > 0 ? Math.max(...receptacles) : null };
}

/** Nights of one kind at one price: `amount = count x each`. */
export interface NightLine {
  readonly code: "night" | "week" | "month";
  /** The season's id and the park's word for it; null for nights priced without one. */
  readonly id: string | null;
  readonly name: string | null;
  readonly count: number;
  readonly each: Minor;
  readonly amount: Minor;
}

export type SitePrice = { readonly ok: true; readonly lines: readonly NightLine[] } | { readonly ok: false; /** The first night that has no price. */ readonly night: IsoDate };

const weekNights = 7;
const monthNights = 30;

/**
 * The price of the nights themselves. From the arrival on, thirty nights are a month and seven a week wherever the
 * season of the first of them has such a price and so many are left; the others are single nights. A week that reaches
 * into another season is priced by the season it begins in.
 */
export function priceSite(card: RateCard, nights: Nights, hookups: Hookups): SitePrice {
  const lines = new Map<string, NightLine>();
  for (let at = nights.arrive; at < nights.depart; ) {
    const season = seasonOf(at, card.seasons);
    const price = priceFor(card.prices, season?.id ?? null, hookups);
    if (!price) return { ok: false, night: at };
    const [code, length, each] = blockOf(price, countNights({ arrive: at, depart: nights.depart }));
    const named = price.season === null ? null : season;
    const key = `${code} ${named?.id ?? ""}`;
    const count = (lines.get(key)?.count ?? 0) + 1;
    lines.set(key, { code, id: named?.id ?? null, name: named?.name ?? null, count, each, amount: count * each });
    at = addDays(at, length);
  }
  return { ok: true, lines: [...lines.values()] };
}

function blockOf({ night, week, month }: Price, left: number): ["night" | "week" | "month", number, Minor] {
  if (month !== null && left >= monthNights) return ["month", monthNights, month];
  if (week !== null && left >= weekNights) return ["week", weekNights, week];
  return ["night", 1, night];
}

/**
 * The price for a site's hookups in a season: of those whose services and receptacle the site has, the season's own
 * before those of any season, then the one for most services, then for the larger receptacle, then the first.
 */
export function priceFor(prices: readonly Price[], season: string | null, { services, amps }: Hookups): Price | null {
  const met = prices.filter((price) =>
    (price.season === null || price.season === season)
    && price.services.every((service) => services.includes(service))
    && (price.amps === null || (amps !== null && amps >= price.amps)));
  const rank = (price: Price) => (price.season === null ? 0 : 10_000) + new Set(price.services).size * 1000 + (price.amps ?? 0);
  return met.reduce<Price | null>((best, price) => (best === null || rank(price) > rank(best) ? price : best), null);
}
