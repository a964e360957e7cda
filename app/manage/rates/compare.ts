import { addDays, hookupsOf, priceFor, quoteStay, seasonOf, type Hookups, type IsoDate, type QuoteOutcome, type RateCard } from "@/lib/stays";
import type { Site } from "@/lib/park";
import { manageRates as words } from "@/lib/wording/en/manage-rates";

/** Stays of one class of hookups in one season, priced by two cards: one for each length in {@link sampleNights}. */
export interface Sample {
  /** What the price that applies asks for; what the site has where none does. */
  readonly hookups: Hookups;
  /** The season's name; null for nights of none. */
  readonly season: string | null;
  readonly arrive: IsoDate;
  readonly prices: readonly { readonly before: QuoteOutcome | null; readonly after: QuoteOutcome }[];
}

/** What a new card changes. */
export interface Review {
  /** What the card says otherwise, in words. */
  readonly lines: readonly { readonly before: string | null; readonly after: string | null }[];
  /** Those with a price that changes. */
  readonly samples: readonly Sample[];
  /** How many prices change, and of how many. */
  readonly changed: number;
  readonly priced: number;
  readonly unpriced: readonly Unpriced[];
}

/** Sites that a card has no price for, in a season or (null) outside any. */
export interface Unpriced {
  readonly season: string | null;
  readonly sites: readonly string[];
}

export const sampleNights = [2, 7];
/** Two adults with one vehicle: the extras differ with who comes, the lines of the card tell how. */
const party = { persons: 2, vehicles: 1, pets: 0 };

/** What saving `after` would change for the park's sites, from `today` on. */
export function review(before: RateCard | null, after: RateCard, sites: readonly Site[], today: IsoDate): Review {
  const samples = stretches(after, today).flatMap(({ season, arrive }) => pricedClasses(after, sites, season?.id ?? null).map(({ site, named }): Sample => ({
    hookups: named,
    season: season?.name ?? null,
    arrive,
    prices: sampleNights.map((count) => {
      const ask = { nights: { arrive, depart: addDays(arrive, count) }, hookups: site, party };
      return { before: before && quoteStay(before, ask), after: quoteStay(after, ask) };
    }),
  })));
  const prices = samples.flatMap((sample) => sample.prices);
  return { lines: changedLines(before, after), samples: samples.filter((sample) => sample.prices.some(isChanged)), changed: prices.filter(isChanged).length, priced: prices.length, unpriced: unpricedSites(after, sites) };
}

/** What a card says otherwise than another, line by line. */
export function changedLines(before: RateCard | null, after: RateCard): Review["lines"] {
  const [old, now] = [before ? words.linesOf(before) : new Map<string, string>(), words.linesOf(after)];
  const keys = [...new Set([...old.keys(), ...now.keys()])];
  return keys.filter((key) => old.get(key) !== now.get(key)).map((key) => ({ before: old.get(key) ?? null, after: now.get(key) ?? null }));
}

/** The sites of a park that a card leaves without a price, by season. */
export function unpricedSites(card: RateCard, sites: readonly Site[]): Unpriced[] {
  return [null, ...card.seasons].flatMap((season) => {
    const without = sites.filter((site) => priceFor(card.prices, season?.id ?? null, hookupsOf(site)) === null);
    return without.length > 0 ? [{ season: season?.name ?? null, sites: without.map(({ id, label }) => label ?? id) }] : [];
  });
}

/** One site's hookups for every price of a season that some site has, fewest hookups first, named as the price asks. */
function pricedClasses(card: RateCard, sites: readonly Site[], season: string | null): { readonly site: Hookups; readonly named: Hookups }[] {
  const classes = new Map(sites.map(hookupsOf).map((site) => {
    const price = priceFor(card.prices, season, site);
    return [price ? card.prices.indexOf(price) : -1, { site, named: price ?? site }];
  }));
  return [...classes.values()].sort(({ named: a }, { named: b }) => a.services.length - b.services.length || (a.amps ?? 0) - (b.amps ?? 0));
}

const longestSample = Math.max(...sampleNights);
/** Seasons are looked for this far ahead: a season of every year has come by then. */
const horizon = 800;

/** For every season, and for nights of none, the first night from tomorrow on after which the longest sample still lies in it. */
function stretches(card: RateCard, today: IsoDate): { readonly season: RateCard["seasons"][number] | null; readonly arrive: IsoDate }[] {
  return [null, ...card.seasons].flatMap((season) => {
    let run = 0;
    for (let i = 1, night = addDays(today, 1); i <= horizon; i += 1, night = addDays(night, 1)) {
      run = (seasonOf(night, card.seasons)?.id ?? null) === (season?.id ?? null) ? run + 1 : 0;
      if (run === longestSample) return [{ season, arrive: addDays(night, 1 - longestSample) }];
    }
    return [];
  });
}

function isChanged({ before, after }: Sample["prices"][number]): boolean {
  return JSON.stringify(before && outcomeOf(before)) !== JSON.stringify(outcomeOf(after));
}

function outcomeOf(outcome: QuoteOutcome): unknown {
  return outcome.ok ? [outcome.quote.currency, outcome.quote.total, outcome.quote.deposit] : outcome.faults;
}
